"""No conductor of any demo house can be taken away or moved without a word."""

from collections.abc import Iterator
from itertools import pairwise

import pytest

import houses
from ferrule.checks.wired import Wired, wired
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
            if _goes_on(house, lead.id):
                assert "joined" in rules(faults_of_metal(house.plan, swapped)), (first, second)


def _goes_on(house: Wired, lead: str) -> bool:
    """Whether other conductors are joined to both ends of a lead, so that metal can tell a swap."""
    ends = [end for core in house.leads[lead].cores for end in core.ends]
    others = {end for core in cores_of(house) if core.lead != lead for end in core.ends}
    return len({end.device for end in ends if end in others}) > 1


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
