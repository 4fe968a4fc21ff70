"""The order of the day: whatever can hurt waits for what makes it safe, in every house."""

from collections.abc import Sequence
from functools import cache
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from arrangements import RUNS, job
from ferrule.answering import Answer, answer
from ferrule.checks.subjects import PLACES
from ferrule.design import Design, House
from ferrule.job.load import load
from ferrule.job.starter import ARCHITECTURES, starter
from ferrule.proving.isolation import isolation
from ferrule.proving.steps import NEVER_OVERRIDDEN, PHASES, Step, cautions, held, steps
from ferrule.wiring.recipes import topology
from houses import EXAMPLES, REMOVED, answered

HOUSES = ("meter-led", "controller-led", "changeover-led")
PART = "parts.example-hybrid-6k-single"


@cache
def demo(house: str, faulty: bool = False) -> Answer:
    return answer(load(EXAMPLES / house / ("faulty.yaml" if faulty else "job.yaml")))


@cache
def day(house: str, faulty: bool = False) -> tuple[Step, ...]:
    return steps(demo(house, faulty).design)


def edited(**edits: object) -> tuple[Step, ...]:
    return steps(answered({f"{PART}.{key}": value for key, value in edits.items()}, firm=True).design)


def behind(found: Sequence[Step]) -> dict[str, set[str]]:
    """All that has to come before each step, directly or by way of others."""
    before: dict[str, set[str]] = {}
    for step in found:
        before[step.id] = {*step.requires, *(each for need in step.requires for each in before[need])}
    return before


def done(found: Sequence[Step], *what: str) -> list[str]:
    return [step.id for step in found if step.id.partition("/")[0] in what]


def sound(found: Sequence[Step]) -> None:
    """Ids are told apart, and nothing requires what comes later or is not there."""
    seen: set[str] = set()
    for step in found:
        assert step.id not in seen
        assert set(step.requires) <= seen, step.id
        seen.add(step.id)
        assert step.place in PLACES
    order = [PHASES.index(step.phase) for step in found]
    assert order == sorted(order)


every_house = pytest.mark.parametrize("house", HOUSES)


@pytest.mark.parametrize("faulty", [False, True])
@every_house
def test_no_step_requires_a_later_one_or_one_that_is_not_there(house: str, faulty: bool) -> None:
    sound(day(house, faulty))


@pytest.mark.parametrize("architecture", ARCHITECTURES)
def test_a_job_of_which_nothing_is_known_has_its_steps_and_most_are_blocked(
    architecture: str, tmp_path_factory: pytest.TempPathFactory
) -> None:
    file = tmp_path_factory.mktemp("starter") / "job.yaml"
    file.write_text(starter(architecture), encoding="utf-8")
    found = steps(answer(load(file)).design)
    sound(found)
    asks = held(found)
    assert all(step.id in asks for step in found if step.phase in {"energise", "outage", "handover"})


@pytest.mark.parametrize("generator", [False, True])
@pytest.mark.parametrize("inverters", [1, 2])
@pytest.mark.parametrize("arrangement", RUNS)
def test_every_arrangement_has_a_sound_order(arrangement: str, inverters: int, generator: bool) -> None:
    how = {"transfer": "all-live", "link": "fixed"} if generator else None
    built = job(arrangement, inverters=inverters, generator=how)
    found = steps(Design(House(built, topology(built))))
    sound(found)
    subjects = {step.subject.id for step in found}
    assert {each.id for each in (*built.devices, *built.runs, *built.boards)} <= subjects


@every_house
def test_everything_in_the_job_has_its_step(house: str) -> None:
    built, found = demo(house).loaded.job, day(house)
    subjects = {(step.subject.kind, step.subject.id) for step in found}
    assert {(device.kind, device.id) for device in built.devices} <= subjects
    for kind in ("run", "string", "face", "board"):
        assert {(kind, each.id) for each in getattr(built, f"{kind}s")} <= subjects
    assert {("bus", bus) for bus in demo(house).design.house.buses} <= subjects
    assert {("signal", contact.id) for contact in built.contacts} <= subjects
    assert {("circuit", circuit.id) for board in built.boards for circuit in board.circuits} <= subjects
    assert {("bonding", bond.id) for bond in built.earth.bonding} <= subjects


@every_house
def test_what_a_step_carries_is_there(house: str) -> None:
    parts = {part.id for part in demo(house).loaded.job.parts}
    assert {part for step in day(house) for part in step.parts} <= parts
    readings = [reading.id for step in day(house) for reading in step.readings]
    assert len(readings) == len(set(readings))


# Nothing is plugged in before its polarity is proved


@every_house
def test_a_string_is_plugged_in_after_its_own_polarity_and_that_of_all_beside_it(house: str) -> None:
    before, built = behind(day(house)), demo(house).loaded.job
    assert built.strings
    for string in built.strings:
        together = {f"polarity/{other.id}" for other in built.strings if other.input == string.input}
        assert together | {f"insulation/{string.id}", f"gear/{string.input}"} <= before[f"plug/{string.id}"]


@every_house
def test_plugs_are_made_while_their_lead_is_joined_to_nothing(house: str) -> None:
    before = behind(day(house))
    for run, string in demo(house).design.house.string_runs.items():
        assert f"crimp/{run}" in before[f"home/{run}"]
        assert f"string/{string.id}" not in before[f"crimp/{run}"]
        assert f"home/{run}" in before[f"polarity/{string.id}"]


@every_house
def test_a_battery_is_joined_and_switched_on_after_its_polarity(house: str) -> None:
    before = behind(day(house))
    for device in demo(house).loaded.job.devices:
        if device.kind == "battery":
            assert f"polarity/{device.id}" in before[f"connect/{device.id}"]
    assert {"connect/BAT", "polarity/BAT"} <= before["on-battery/INV1"]


@every_house
def test_no_power_comes_on_before_everything_is_proved(house: str) -> None:
    found = day(house)
    before = behind(found)
    proofs = set(
        done(found, "polarity", "prove", "insulation", "ends", "earthed", "dead", "secure", "access")
    )
    live = done(found, "live", "on-battery", "on-pv", "on-ac", "run")
    assert live
    for step in live:
        assert proofs <= before[step]


@every_house
def test_proofs_of_dead_and_polarity_are_gates_that_nobody_may_override(house: str) -> None:
    assert {"dead", "polarity"} == NEVER_OVERRIDDEN
    for step in day(house):
        verb = step.id.partition("/")[0]
        assert (step.gate == "polarity") == (verb in {"polarity", "prove"})
        assert (step.gate == "dead") == (verb in {"dead", "backfeed"})
        assert step.readings or step.gate not in NEVER_OVERRIDDEN


# Earth before live conductors, dead before both


@every_house
def test_earth_comes_before_any_live_conductor(house: str) -> None:
    found = day(house)
    before, built = behind(found), demo(house).loaded.job
    earth = {f"earth/{d.id}" for d in built.devices if d.kind in {"inverter", "battery", "changeover"}}
    earth |= {f"bond/{bond.id}" for bond in built.earth.bonding} | {"earthing/earth", "earthed/earth"}
    live = done(found, "land", "join", "crimp", "home", "string", "plug", "connect", "bus", "gear")
    assert len(live) > len(built.runs)
    for step in live:
        assert earth <= before[step], step


@every_house
def test_what_stands_there_is_proved_dead_before_a_hand_is_laid_on_it(house: str) -> None:
    found = day(house)
    before, built = behind(found), demo(house).loaded.job
    boards = {board.id for board in built.boards}
    for run in built.runs:
        for end in {run.start, run.end} & boards:
            assert f"dead/{end}" in before[f"land/{run.id}"]
    for circuit in (circuit for board in built.boards for circuit in board.circuits):
        assert any(step.startswith("dead/") for step in before[f"way/{circuit.id}"])
    for step in done(found, "dead"):
        assert f"isolate/{step.partition('/')[2]}" in before[step]


@every_house
def test_every_pair_of_the_record_is_read_before_work(house: str) -> None:
    found = {step.id: step for step in day(house)}
    for record in isolation(demo(house).design):
        if record.area.kind in {"board", "supply", "meter", "controller"}:
            assert len(found[f"dead/{record.area.id}"].readings) == len(record.pairs)


@every_house
def test_drilling_waits_for_the_search_and_roof_work_for_what_keeps_people_from_falling(house: str) -> None:
    found = day(house)
    before = behind(found)
    for drilled in done(found, "drill"):
        assert any(each.startswith("search/") for each in before[drilled])
    for step in found:
        if step.subject.kind == "face" and step.id.startswith("rails/"):
            assert {f"access/{step.subject.id}", f"look/{step.subject.id}"} <= before[step.id]


# The order of energising is the maker's


def test_a_part_without_an_order_of_starting_blocks_energising() -> None:
    found = edited(start_order=REMOVED)
    asks = held(found)
    assert any("order of starting" in ask for ask in asks["run/INV1"])
    assert done(found, "on-battery", "on-pv", "on-ac") == []
    after = [each for each in found if "run/INV1" in behind(found)[each.id]]
    assert {step.phase for step in after} == {"energise", "outage", "handover"}
    assert all(step.id in asks for step in after)
    assert not {step.id for step in found if step.phase not in {"energise", "outage", "handover"}} & set(asks)


def test_an_order_that_leaves_out_a_source_of_the_house_blocks_it_too() -> None:
    asks = held(edited(start_order=["battery", "ac"]))
    assert any("pv" in ask for ask in asks["run/INV1"])


def test_a_wait_nobody_knows_blocks_the_next_source_only() -> None:
    found = edited(start_wait=REMOVED)
    asks = held(found)
    assert "on-battery/INV1" not in asks
    assert "on-pv/INV1" in asks
    assert "restored/house" in asks


@given(st.sampled_from(sorted(permutations(["battery", "pv", "ac"]))))
def test_sources_come_on_in_the_order_of_the_part(order: tuple[str, ...]) -> None:
    found = _ordered(order)
    sound(found)
    on = [step.id for step in found if step.id.startswith("on-")]
    assert on == [f"on-{source}/INV1" for source in order]
    before = behind(found)
    assert f"on-{order[0]}/INV1" in before["set/INV1"]
    assert all("set/INV1" in before[f"on-{source}/INV1"] for source in order[1:])
    assert "set/INV1" in before["run/INV1"]
    assert "settings/INV1" in before[f"on-{order[0]}/INV1"]


@cache
def _ordered(order: tuple[str, ...]) -> tuple[Step, ...]:
    return edited(start_order=list(order))


def test_boards_come_on_from_the_origin_and_those_behind_an_inverter_after_it() -> None:
    before = behind(day("meter-led"))
    assert {"live/supply"} <= before["live/MB"]
    assert {"live/MB", "run/INV1"} <= before["live/BB"]
    behind_changeover = behind(day("changeover-led"))
    assert "live/MB" in behind_changeover["live/BB"]
    assert "run/INV1" not in behind_changeover["live/BB"]


def test_inverters_come_on_one_after_the_other() -> None:
    before = behind(day("controller-led"))
    assert "run/INV1" in before["on-pv/INV2"]
    assert {"live/GB", "live/MB"} <= before["on-ac/INV1"]


def test_the_changeover_test_proves_the_network_side_dead_before_the_link_is_measured() -> None:
    for house in ("meter-led", "changeover-led"):
        before = behind(day(house))
        assert "backfeed/INV1" in before["bonded/INV1"]
        assert {"bonded/INV1", "backfeed/INV1"} <= before["trip/BB"]
        assert "trip/BB" in before["return/INV1"]
    assert done(day("controller-led"), "open", "backfeed", "return") == []


@every_house
def test_the_last_step_comes_behind_all_others(house: str) -> None:
    found = day(house)
    assert found[-1].id == "state/house"
    assert behind(found)["state/house"] == {step.id for step in found[:-1]}


def test_a_sound_house_waits_for_nothing() -> None:
    assert [held(day(house)) for house in HOUSES] == [{}, {}, {}]


@every_house
def test_the_notes_of_safety_begin_with_local_rules_and_hold_each_of_the_steps(house: str) -> None:
    head = cautions(day(house))
    assert head[0] == "caution.local_rules"
    assert set(head) == {caution for step in day(house) for caution in step.cautions}
    assert len(head) == len(set(head))
    assert {"caution.modules_live", "caution.plugs", "caution.two_sources", "caution.battery"} <= set(head)


def test_an_unknown_place_of_a_device_blocks_its_mark_and_what_hangs_on_it() -> None:
    found = steps(answered({"devices.INV1.at": REMOVED}, firm=True).design)
    asks = held(found)
    assert {"mark/INV1", "hang/INV1", "secure/INV1", "ready/house"} <= set(asks)
    assert "mark/BAT" not in asks
