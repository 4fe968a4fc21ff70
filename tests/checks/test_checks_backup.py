"""What hangs on the backup of the demo houses, and their changeover unit."""

from typing import Any

import pytest

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from houses import REMOVED, answered, constraint, finding

SINGLE = "parts.example-hybrid-6k-single.backup"
THREE = "parts.example-hybrid-10k-three.backup"
FRIDGE = "boards.BB.circuits.C-fridge.loads.0"
LIGHT = "boards.BB.circuits.C-light.loads.0"
THREE_HOUSE = "changeover-led"


def asked(question: str, subject: str, edits: dict[str, Any], house: str = "meter-led") -> Finding:
    return finding(answered(edits, house), question, subject)


def load(edits: dict[str, Any], line: str = "L1", house: str = "meter-led") -> Finding:
    return asked("backup.load", f"backup/INV1@{line}", edits, house)


def start(edits: dict[str, Any], line: str = "L1", house: str = "meter-led") -> Finding:
    return asked("backup.start", f"backup/INV1@{line}", edits, house)


# Running


def test_the_loads_of_the_demo_house() -> None:
    """300 W at 0.8 and 350 W at 0.95: 375 + 368.4 = 743 VA."""
    found = constraint(load({}), "phase_load")
    assert found.value == pytest.approx(743.4, abs=0.1)
    assert found.limit == 6000.0


@pytest.mark.parametrize(
    ("power", "verdict"), [("743 VA", Verdict.FAIL), ("744 VA", Verdict.PASS), (REMOVED, Verdict.UNKNOWN)]
)
def test_a_single_phase_inverter_carries_all_of_them(power: Any, verdict: Verdict) -> None:
    assert load({f"{SINGLE}.power": power}).verdict is verdict


def test_an_unknown_load_is_asked() -> None:
    assert load({f"{FRIDGE}.power": REMOVED}).verdict is Verdict.UNKNOWN


def test_a_load_that_is_shed_does_not_count() -> None:
    assert load({f"{FRIDGE}.shed": True}).constraints[0].value == pytest.approx(368.4, abs=0.1)


def test_three_phase_loads_share_themselves_out() -> None:
    """On L2 the cold store, 700 W at 0.8, and a third of the pump, 1.5 kW at 0.8: 875 + 625 VA."""
    found = constraint(load({}, "L2", THREE_HOUSE), "phase_load")
    assert found.value == pytest.approx(1500)
    assert found.limit == 3600.0
    assert constraint(load({}, "L2", THREE_HOUSE), "whole_load").value == pytest.approx(
        350 / 0.9 + 875 + 400 / 0.95 + 1875
    )


@pytest.mark.parametrize(("power", "verdict"), [("4501 VA", Verdict.PASS), ("4499 VA", Verdict.UNKNOWN)])
def test_a_silent_sheet_leaves_a_third_that_is_sure(power: str, verdict: Verdict) -> None:
    """The loads of L2 take 1500 VA; a third of 4501 VA passes them, less does not fail them."""
    edits = {f"{THREE}.phase_power_max": REMOVED, f"{THREE}.power": power}
    assert constraint(load(edits, "L2", THREE_HOUSE), "phase_load").verdict is verdict


def test_a_line_that_no_inverter_feeds_carries_nothing() -> None:
    """A single-phase inverter on L1, and chosen circuits on L2."""
    edits = {
        "supply.live": [
            {"name": "L1", "voltage": "230 V"}, {"name": "L2", "voltage": "230 V", "angle": "-120°"},
            {"name": "L3", "voltage": "230 V", "angle": "120°"},
        ],
        "boards.BB.circuits.C-light.phases": ["L2"],
    }  # fmt: skip
    found = constraint(load(edits, "L2"), "phase_load")
    assert (found.verdict, found.limit) == (Verdict.FAIL, 0.0)
    assert constraint(load(edits, "L1"), "phase_load").verdict is Verdict.PASS


def test_the_changeover_unit_carries_them_too() -> None:
    """1500 VA on L2 are 6.5 A."""
    found = constraint(load({}, "L2", THREE_HOUSE), "changeover_current")
    assert found.value == pytest.approx(1500 / 230)
    assert found.limit == 63.0
    edits = {"parts.example-changeover-63.current_max": "6 A"}
    assert constraint(load(edits, "L2", THREE_HOUSE), "changeover_current").verdict is Verdict.FAIL


# Starting


def test_the_largest_start_of_the_demo_house() -> None:
    """The fridge starts at four times 375 VA while the lights burn: 1500 + 368.4 VA; at once the same."""
    found = start({})
    assert constraint(found, "largest_start").value == pytest.approx(1868.4, abs=0.1)
    assert constraint(found, "all_at_once").value == pytest.approx(1868.4, abs=0.1)
    assert constraint(found, "largest_start").limit == 9000.0


@pytest.mark.parametrize(("peak", "verdict"), [("1868 VA", Verdict.FAIL), ("1869 VA", Verdict.PASS)])
def test_it_must_fit_the_short_time_power(peak: str, verdict: Verdict) -> None:
    found = start({f"{SINGLE}.peak_power": peak})
    assert constraint(found, "largest_start").verdict is verdict


def test_all_at_once_is_a_should() -> None:
    """With two motors of 1500 VA each at the start the larger alone fits 2.5 kVA, both do not."""
    edits = {
        f"{LIGHT}.kind": "motor", f"{LIGHT}.power": "300 W", f"{LIGHT}.power_factor": 0.8,
        f"{LIGHT}.start_multiple": 4, f"{SINGLE}.peak_power": "2.5 kVA",
    }  # fmt: skip
    found = start(edits)
    assert constraint(found, "largest_start").verdict is Verdict.PASS
    assert constraint(found, "all_at_once").verdict is Verdict.CAUTION
    assert found.verdict is Verdict.CAUTION


def test_a_motor_says_how_it_starts() -> None:
    found = start({f"{FRIDGE}.start_multiple": REMOVED})
    assert found.verdict is Verdict.UNKNOWN
    assert any("fridge" in ask for each in found.constraints for ask in each.find_out)


@pytest.mark.parametrize(("lasts", "verdict"), [("5 s", Verdict.PASS), ("4 s", Verdict.CAUTION)])
def test_the_short_time_power_must_outlast_the_start(lasts: str, verdict: Verdict) -> None:
    edits = {f"{SINGLE}.power": "1 kVA", f"{SINGLE}.peak_time": lasts}
    assert constraint(start(edits), "start_time").verdict is verdict
    assert not [c for c in start({}).constraints if c.name == "start_time"]  # steady power does


def test_a_silent_sheet_leaves_a_third_of_the_peak_that_is_sure() -> None:
    """The largest start on L2 takes 4 × 875 + 625 = 4125 VA."""
    silent = {f"{THREE}.phase_peak_power_max": REMOVED}
    assert constraint(start(silent, "L2", THREE_HOUSE), "largest_start").verdict is Verdict.PASS
    edits = {**silent, f"{THREE}.peak_power": "12 kVA"}
    assert constraint(start(edits, "L2", THREE_HOUSE), "largest_start").verdict is Verdict.UNKNOWN


# Three phases, shared neutrals


def test_a_three_phase_motor_needs_three_phases() -> None:
    subject = "circuit/C-pump@island"
    assert asked("backup.three_phase_motor", subject, {}, THREE_HOUSE).verdict is Verdict.PASS
    edits = {"parts.example-hybrid-10k-three.phases": "1", "boards.MB.circuits.C-INV1.phases": ["L1"]}
    assert asked("backup.three_phase_motor", subject, edits, THREE_HOUSE).verdict is Verdict.FAIL


def test_a_house_without_three_phase_motors_is_not_asked() -> None:
    assert not [f for f in answered().findings if f.id == "backup.three_phase_motor"]


def test_a_neutral_shared_with_the_networks_side_fails_whichever_says_so() -> None:
    for edits in (
        {"boards.BB.circuits.C-cold.neutral_shared_with": ["C-stove"]},
        {"boards.MB.circuits.C-stove.neutral_shared_with": ["C-cold"]},
    ):
        found = asked("backup.shared_neutral", "circuit/C-cold@island", edits, THREE_HOUSE)
        assert constraint(found, "shared_neutral").verdict is Verdict.FAIL


def test_a_neutral_shared_by_backed_up_circuits_of_several_phases_needs_as_many() -> None:
    edits = {"boards.BB.circuits.C-cold.neutral_shared_with": ["C-light"]}
    subject = "circuit/C-cold@island"
    assert asked("backup.shared_neutral", subject, edits, THREE_HOUSE).verdict is Verdict.PASS
    one = {**edits, "parts.example-hybrid-10k-three.phases": "1", "boards.MB.circuits.C-INV1.phases": ["L1"]}
    found = asked("backup.shared_neutral", subject, one, THREE_HOUSE)
    assert constraint(found, "one_phase").verdict is Verdict.FAIL


def test_circuits_with_neutrals_of_their_own_are_not_asked() -> None:
    assert not [f for f in answered(house=THREE_HOUSE).findings if f.id == "backup.shared_neutral"]


# What may hang on it


@pytest.mark.parametrize(
    ("power", "shed", "verdict"),
    [
        ("2.9 kW", False, Verdict.PASS),
        ("3 kW", False, Verdict.CAUTION),
        (REMOVED, False, Verdict.UNKNOWN),
    ],
)
def test_a_heater_that_nothing_controls(power: Any, shed: bool, verdict: Verdict) -> None:
    edits = {f"{LIGHT}.kind": "resistive", f"{LIGHT}.power": power, f"{LIGHT}.shed": shed}
    assert asked("backup.allowed", "circuit/C-light@island", edits).verdict is verdict


def test_a_heater_that_is_shed_is_not_asked() -> None:
    edits = {f"{LIGHT}.kind": "resistive", f"{LIGHT}.power": "9 kW", f"{LIGHT}.shed": True}
    assert not [f for f in answered(edits).findings if f.id == "backup.allowed"]


@pytest.mark.parametrize(("shed", "verdict"), [(False, Verdict.CAUTION), (True, Verdict.PASS)])
def test_a_charger_must_know_of_the_island(shed: bool, verdict: Verdict) -> None:
    edits = {f"{LIGHT}.kind": "charger", f"{LIGHT}.shed": shed}
    assert asked("backup.allowed", "circuit/C-light@island", edits).verdict is verdict


# The changeover unit


UNIT = "parts.example-changeover-63"


@pytest.mark.parametrize(
    ("edits", "name", "verdict"),
    [
        ({f"{UNIT}.current_max": "25 A"}, "rated_current", Verdict.PASS),
        ({f"{UNIT}.current_max": "24 A"}, "rated_current", Verdict.FAIL),
        ({f"{UNIT}.withstand": "2.4 kA"}, "withstand", Verdict.PASS),
        ({f"{UNIT}.withstand": "2.3 kA"}, "withstand", Verdict.FAIL),
        ({"supply.fault_current_max": REMOVED}, "withstand", Verdict.UNKNOWN),
        ({f"{UNIT}.phases": "1"}, "poles", Verdict.FAIL),
        ({f"{UNIT}.phases": "3"}, "poles", Verdict.PASS),
        ({f"{UNIT}.isolating": False}, "isolating_contacts", Verdict.CAUTION),
        ({f"{UNIT}.isolating": REMOVED}, "isolating_contacts", Verdict.UNKNOWN),
    ],
)
def test_the_changeover_unit(edits: dict[str, Any], name: str, verdict: Verdict) -> None:
    """Its circuit has a 25 A breaker, the origin 2.4 kA."""
    found = asked("changeover.rating", "changeover/CO", edits, THREE_HOUSE)
    assert constraint(found, name).verdict is verdict


def test_a_unit_on_the_tails_is_rated_for_the_main_fuse() -> None:
    edits = {
        "runs.R-changeover.from": "EM",
        "boards.MB.circuits.C-changeover": REMOVED,
        f"{UNIT}.current_max": "32 A",
    }
    found = asked("changeover.rating", "changeover/CO", edits, THREE_HOUSE)
    assert constraint(found, "rated_current").verdict is Verdict.FAIL
    assert constraint(found, "rated_current").limit == 35.0
