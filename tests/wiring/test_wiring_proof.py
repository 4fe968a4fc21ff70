"""No conductor of any demo house can be taken away or moved without a word."""

from collections.abc import Iterator
from itertools import pairwise

import pytest

import houses
from ferrule.checks.wired import Wired, wired
from ferrule.constraint import Verdict
from ferrule.wiring.proof import MENDS, TEXTS, Fault, faults, faults_of_metal
from ferrule.wiring.terminal import Core, Terminal

HOUSES = ("meter-led", "controller-led", "changeover-led")


@pytest.fixture(scope="module", params=HOUSES)
def house(request: pytest.FixtureRequest) -> Wired:
    return wired(houses.answered({}, request.param, firm=True).design)


def cores_of(house: Wired) -> list[Core]:
    return [core for lead in house.leads.values() for core in lead.cores]


def rules(found: Iterator[Fault]) -> set[str]:
    return {fault.rule for fault in found}


def test_the_house_as_planned_has_no_fault(house: Wired) -> None:
    assert list(faults(house.plan, cores_of(house))) == []


def test_every_conductor_taken_away_is_missed(house: Wired) -> None:
    cores = cores_of(house)
    for at, core in enumerate(cores):
        first = next(faults(house.plan, cores[:at] + cores[at + 1 :]))
        assert (first.rule, dict(first.words)["core"]) == ("missing", str(core))


def test_every_conductor_moved_to_any_other_terminal_is_found(house: Wired) -> None:
    cores = cores_of(house)
    terminals: list[Terminal | None] = [*sorted({end for core in cores for end in core.ends}), None]
    for at, core in enumerate(cores):
        for side in ("start", "end"):
            for terminal in terminals:
                if terminal != getattr(core, side):
                    moved = core._replace(start=terminal) if side == "start" else core._replace(end=terminal)
                    first = next(faults(house.plan, [*cores[:at], moved, *cores[at + 1 :]]))
                    assert (first.rule, dict(first.words)["core"]) == ("moved", str(core))


def test_two_conductors_swapped_within_a_lead_join_what_must_stay_apart(house: Wired) -> None:
    """Found by the metal alone, which knows no plan."""
    for lead in house.leads.values():
        landed = [core for core in lead.cores if core.start and core.end]
        for first, second in pairwise(landed):
            rest = [core for core in cores_of(house) if core not in {first, second}]
            swapped = [*rest, first._replace(end=second.end), second._replace(end=first.end)]
            assert "wrong_pole" in rules(faults_of_metal(house.plan, swapped)), (first, second)
            if _goes_on(house, lead.id):
                assert "joined" in rules(faults_of_metal(house.plan, swapped)), (first, second)


def _goes_on(house: Wired, lead: str) -> bool:
    """Whether other conductors are joined to both ends of a lead, so that metal can tell a swap."""
    ends = [end for core in house.leads[lead].cores for end in core.ends]
    others = {end for core in cores_of(house) if core.lead != lead for end in core.ends}
    return len({end.device for end in ends if end in others}) > 1


def test_what_is_not_of_the_mains_never_lands_on_a_changeover_unit_nor_mains_on_direct_current() -> None:
    """Found by the metal alone, whatever was planned."""
    house = wired(houses.answered({}, "changeover-led", firm=True).design)
    cores = cores_of(house)
    by_port = {(core.serves, end.port): (core, end) for core in cores for end in core.ends}
    line, mains = by_port["mains", "house"]
    plus, direct = by_port["pv", "PV1"]
    minus, stored = by_port["battery", "battery"]
    signal, low = by_port["signal", "BUS"]
    for core, end in ((plus, mains), (minus, mains), (signal, mains), (line, direct), (line, stored),
                      (line, low), (plus, low), (plus, stored)):  # fmt: skip
        moved = [*(each for each in cores if each != core), core._replace(end=end)]
        wrong = [fault for fault in faults_of_metal(house.plan, moved) if fault.rule == "wrong_side"]
        assert [(fault.at, dict(fault.words)["terminal"]) for fault in wrong] == [(core.lead, str(end))]


@pytest.mark.parametrize(("run", "side"), [
    ("R-changeover", "grid"), ("R-island", "inverter"), ("R-chosen", "house"),
])  # fmt: skip
def test_a_changeover_unit_has_all_three_sides_whatever_its_part_asks_for(run: str, side: str) -> None:
    edits = {
        f"parts.example-changeover-63.terminals.{at}.needed": False for at in range(3)
    } | {f"runs.{run}": houses.REMOVED}  # fmt: skip
    if run == "R-changeover":
        edits["boards.MB.circuits.C-changeover"] = houses.REMOVED
    found = houses.finding(houses.answered(edits, "changeover-led"), "device.wired", "changeover/CO")
    assert [dict(each.words)["terminal"] for each in found.constraints] == [f"CO.{side}"]


@pytest.mark.parametrize("house", ["meter-led", "controller-led"])
def test_without_its_bus_the_device_that_leads_is_missed(house: str) -> None:
    """A meter leads the inverter by the bus, a controller each inverter."""
    edits = {"buses.RS": houses.REMOVED} if house == "meter-led" else {
        "buses.RS.nodes.2": houses.REMOVED, "buses.RS.links.1": houses.REMOVED,
    }  # fmt: skip
    found = houses.finding(houses.answered(edits, house), "bus.connected", "signal/house")
    assert found.verdict is Verdict.FAIL


def test_no_sheath_holds_mains_and_signals(house: Wired) -> None:
    cores = cores_of(house)
    signal = next(core for core in cores if core.serves == "signal")
    mains = next(core for core in cores if core.serves == "mains")
    mixed = [*(each for each in cores if each != signal), signal._replace(lead=mains.lead)]
    assert {fault.at for fault in faults_of_metal(house.plan, mixed) if fault.rule == "mixed"} == {mains.lead}


def test_the_poles_of_two_inputs_are_not_joined() -> None:
    house = wired(houses.answered({}, "meter-led", firm=True).design)
    cores = cores_of(house)
    core = next(each for each in cores if str(each) == "R-S1 plus")
    other = next(each for each in cores if str(each) == "R-S2 plus")
    joined = [*(each for each in cores if each != core), core._replace(end=other.end)]
    assert "joined" in rules(faults_of_metal(house.plan, joined))


def test_each_pack_of_a_battery_has_its_own_earth_and_its_own_poles() -> None:
    house = wired(houses.answered({}, "controller-led", firm=True).design)
    for lead in ("E-BAT:1", "E-BAT:2"):
        without = [core for core in cores_of(house) if core.lead != lead]
        found = [str(fault) for fault in faults_of_metal(house.plan, without) if fault.rule == "unearthed"]
        assert found == [f"no protective conductor joins BAT ({lead[-1]}) to the main earthing terminal"]
    without = [core for core in cores_of(house) if core.lead != "BAT.poles:2"]
    left_open = {str(fault) for fault in faults_of_metal(house.plan, without) if fault.rule == "unreached"}
    assert left_open == {
        f"nothing lands on BAT.poles {pole} (2), which must never be left open" for pole in ("plus", "minus")
    }


def test_without_its_protective_conductor_a_device_is_unearthed(house: Wired) -> None:
    cores = cores_of(house)
    bare = [core for core in cores if core.serves != "protective"]
    unearthed = {fault.at for fault in faults_of_metal(house.plan, bare) if fault.rule == "unearthed"}
    with_earth = {device for (device, _), block in house.plan.blocks.items() if "PE" in block.poles}
    assert with_earth - {house.plan.main_board} <= unearthed


def test_neutral_and_earth_swapped_at_a_board_are_joined(house: Wired) -> None:
    lead = next(
        lead
        for lead in house.leads.values()
        if any("INV1" in place for place in lead.places) and lead.role == "ac"
    )
    neutral, earth = (next(core for core in lead.cores if core.name == name) for name in ("N", "PE"))
    rest = [core for core in cores_of(house) if core not in {neutral, earth}]
    swapped = [*rest, neutral._replace(start=earth.start), earth._replace(start=neutral.start)]
    assert "joined" in rules(faults_of_metal(house.plan, swapped))


def test_a_bus_cut_in_two_is_split(house: Wired) -> None:
    bus = next(lead for lead in house.leads.values() if lead.role == "bus")
    without = [core for core in cores_of(house) if core.lead != bus.id]
    assert "split" in rules(faults_of_metal(house.plan, without))


def test_two_conductors_under_a_terminal_for_one_are_one_too_many(house: Wired) -> None:
    cores = cores_of(house)
    core = next(each for each in cores if each.end and each.end.port == "grid")
    twice = [*cores, core._replace(lead="another", start=None)]
    found = [fault for fault in faults_of_metal(house.plan, twice) if fault.rule == "crowded"]
    assert [dict(fault.words)["terminal"] for fault in found] == [str(core.end)]


def test_every_rule_says_what_is_wrong_and_what_mends_it() -> None:
    assert TEXTS.keys() == MENDS.keys()


def test_every_lead_has_a_name_of_its_own_without_a_gap(house: Wired) -> None:
    assert all(" " not in lead for lead in house.leads)
    assert len(house.leads) == len(house.plan.leads)
