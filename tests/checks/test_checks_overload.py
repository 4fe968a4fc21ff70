"""What circuits and cables are designed for, and whether device and conductor bear it."""

from typing import Any

import pytest

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from ferrule.design import Decided
from ferrule.working import Calculated, Given
from houses import REMOVED, answered, constraint, finding

SINGLE = "parts.example-hybrid-6k-single"
FRIDGE = "boards.BB.circuits.C-fridge"
KITCHEN = "boards.MB.circuits.C-kitchen"


def asked(edits: dict[str, Any], of: str, house: str = "meter-led", question: str = "overload") -> Finding:
    kind = of.partition("/")[0]
    return finding(answered(edits, house), f"{kind}.{question}", of)


def current_a(edits: dict[str, Any], circuit: str, house: str = "meter-led") -> float | None:
    return constraint(asked(edits, f"circuit/{circuit}", house), "device_rating").value


# The design current


def test_an_inverters_circuit_carries_the_larger_of_output_and_pass_through() -> None:
    """The demo inverter gives 27.3 A and passes 32 A on to its backup port."""
    assert current_a({}, "C-inverter") == 32
    assert current_a({f"{SINGLE}.grid.pass_through_max": "20 A"}, "C-inverter") == 27.3


def test_pass_through_does_not_count_where_nothing_hangs_on_the_backup_port() -> None:
    edits = {
        "runs.R-backup.from": "MB",
        "runs.R-backup.size": "10 mm²",
        f"{SINGLE}.grid.pass_through_max": REMOVED,
    }
    assert current_a(edits, "C-inverter") == 27.3


@pytest.mark.parametrize("fact", ["current_max", "pass_through_max"])
def test_what_the_inverters_sheet_does_not_say_is_asked(fact: str) -> None:
    found = constraint(asked({f"{SINGLE}.grid.{fact}": REMOVED}, "circuit/C-inverter"), "device")
    assert found.verdict is Verdict.UNKNOWN
    assert len(found.find_out) == 1


def test_a_load_by_its_power() -> None:
    """300 W at 0.8 on 230 V."""
    assert current_a({}, "C-fridge") == pytest.approx(300 / 0.8 / 230)


def test_a_load_by_the_current_on_its_plate() -> None:
    assert current_a({f"{FRIDGE}.loads.0.current": "2.4 A"}, "C-fridge") == 2.4


def test_a_load_of_three_phases_spreads_and_one_of_one_phase_does_not() -> None:
    """11 kW over three lines; 3 kW more, of which nobody knows on which line, count on each."""
    charger = "boards.GB.circuits.C-charger.loads"
    assert current_a({}, "C-charger", "controller-led") == pytest.approx(11_000 / 690)
    more = {f"{charger}.+": {"name": "heater", "kind": "resistive", "power": "3 kW"}}
    assert current_a(more, "C-charger", "controller-led") == pytest.approx(11_000 / 690 + 3000 / 230)


def test_a_feeder_carries_all_that_draws_or_all_that_feeds_in_behind_it() -> None:
    """Two inverters of 16 A feed in; the charger and the one with the battery draw 15.9 and 16 A."""
    assert current_a({}, "C-garage", "controller-led") == 32
    more = {"boards.GB.circuits.C-charger.loads.0.power": "15 kW"}
    assert current_a(more, "C-garage", "controller-led") == pytest.approx(15_000 / 690 + 16)


def test_a_feeder_of_three_phases_is_designed_for_its_heaviest_line() -> None:
    """Heating on L1, cold store on L2, lights on L3, and the pump on all of them."""
    on_l2 = 700 / 0.8 / 230 + 1500 / 0.8 / 690
    assert current_a({}, "C-changeover", "changeover-led") == pytest.approx(on_l2)


def test_what_hangs_behind_an_inverter_comes_through_it() -> None:
    """10 kW of lights on the backup board do not change the circuit of the inverter that feeds it."""
    assert current_a({"boards.BB.circuits.C-light.loads.0.power": "10 kW"}, "C-inverter") == 32


def test_the_working_names_each_load() -> None:
    steps = constraint(asked({}, "circuit/C-fridge"), "device_rating").steps
    assert Given("power_w", 300, "fridge and freezer") in steps
    assert any(isinstance(step, Calculated) for step in steps)


def test_sockets_of_unknown_load_carry_what_their_device_lets_through() -> None:
    result = answered({f"{KITCHEN}.loads.0.power": REMOVED}, "controller-led")
    found = constraint(finding(result, "circuit.overload", "circuit/C-kitchen"), "device_rating")
    assert (found.value, found.verdict) == (16, Verdict.PASS)
    assert any("socket-outlets" in each.text for each in result.assumptions)
    assert not any("socket-outlets" in each.text for each in answered({}, "controller-led").assumptions)


def test_sockets_without_load_and_without_device_are_asked_about() -> None:
    edits = {f"{KITCHEN}.loads.0.power": REMOVED, f"{KITCHEN}.device.rating": REMOVED}
    result = answered(edits, "controller-led")
    assert finding(result, "circuit.overload", "circuit/C-kitchen").verdict is Verdict.UNKNOWN
    assert Decided("rating", "C-kitchen") not in result.design.choices


def test_another_load_without_power_is_asked_about_by_name() -> None:
    found = constraint(asked({f"{FRIDGE}.loads.0.power": REMOVED}, "circuit/C-fridge"), "device")
    assert found.verdict is Verdict.UNKNOWN
    assert "fridge and freezer" in found.find_out[0]


def test_a_circuit_of_which_nobody_says_what_hangs_on_it_is_asked_about() -> None:
    """A spare board without circuits at the end of a feeder."""
    edits: dict[str, Any] = {
        "boards.+": {"id": "SB", "circuits": []},
        "runs.R-light.to": "SB",
        "boards.BB.circuits.C-light.loads": [],
    }
    found = asked(edits, "circuit/C-light")
    assert constraint(found, "device").find_out == ("what hangs on C-light",)


# Device and conductor


@pytest.mark.parametrize(
    ("rating", "verdict"), [("32 A", Verdict.PASS), ("25 A", Verdict.FAIL), ("40 A", Verdict.PASS)]
)
def test_the_device_carries_the_design_current(rating: str, verdict: Verdict) -> None:
    edits = {"boards.MB.circuits.C-inverter.device.rating": rating}
    assert constraint(asked(edits, "circuit/C-inverter"), "device_rating").verdict is verdict


def test_three_phases_load_three_conductors() -> None:
    """2.5 mm² of PVC on a wall at 25 °C: 24 A with three loaded, 27 A with two, times 1.06."""
    found = constraint(asked({}, "circuit/C-stove", "changeover-led"), "conductor_capacity")
    assert found.value == pytest.approx(24 * 1.06)
    edits = {"boards.MB.circuits.C-stove.phases": ["L1"], "boards.MB.circuits.C-stove.loads.0.power": "3 kW"}
    found = constraint(asked(edits, "circuit/C-stove", "changeover-led"), "conductor_capacity")
    assert found.value == pytest.approx(27 * 1.06)


@pytest.mark.parametrize(
    ("multiple", "curve", "verdict"),
    [(28, "B", Verdict.PASS), (30, "B", Verdict.FAIL), (30, "C", Verdict.PASS)],
)
def test_a_start_must_not_trip_the_breaker(multiple: float, curve: str, verdict: Verdict) -> None:
    """1.63 A running; B16 holds 48 A, C16 80 A."""
    edits = {f"{FRIDGE}.loads.0.start_multiple": multiple, f"{FRIDGE}.device.curve": curve}
    assert constraint(asked(edits, "circuit/C-fridge"), "starting").verdict is verdict


def test_the_start_of_a_motor_is_asked_about_and_that_of_lights_is_not() -> None:
    edits = {f"{FRIDGE}.loads.0.start_multiple": REMOVED}
    found = constraint(asked(edits, "circuit/C-fridge"), "starting")
    assert found.verdict is Verdict.UNKNOWN
    assert "fridge and freezer" in found.find_out[0]
    assert {c.name for c in asked({}, "circuit/C-light").constraints} == {
        "device_rating", "conductor_capacity", "overload_trip",
    }  # fmt: skip


def test_the_most_sensitive_curve_that_holds_the_start_is_chosen() -> None:
    curve = Decided("curve", "C-fridge")
    for multiple, chosen in ((4, "B"), (30, "C"), (60, "D")):
        edits = {f"{FRIDGE}.device.curve": REMOVED, f"{FRIDGE}.loads.0.start_multiple": multiple}
        assert answered(edits).design.choices[curve] == chosen


# Cables without a device of their own


def test_the_device_before_the_inverter_protects_the_cable_behind_it() -> None:
    """10 mm² behind the inverter; its device of 32 A stands before the inverter."""
    found = asked({}, "run/R-backup")
    assert constraint(found, "conductor_capacity").limit == 32
    assert asked({"runs.R-backup.size": "4 mm²"}, "run/R-backup").verdict is Verdict.FAIL


def test_in_island_mode_the_cable_bears_what_the_inverter_gives_for_good() -> None:
    """6 kVA on 230 V."""
    found = constraint(asked({}, "run/R-backup"), "source_limit")
    assert found.value == pytest.approx(6000 / 230)
    unknown = asked({f"{SINGLE}.backup.power": REMOVED}, "run/R-backup")
    assert constraint(unknown, "source_limit").verdict is Verdict.UNKNOWN


def test_a_split_phase_inverter_gives_its_power_over_both_lines() -> None:
    """6 kVA on twice 120 V."""
    split = {
        "supply.live": [
            {"name": "L1", "voltage": "120 V"}, {"name": "L2", "voltage": "120 V", "angle": "180°"},
        ],
        "boards.MB.circuits.C-inverter.phases": ["L1", "L2"],
    }  # fmt: skip
    found = constraint(asked(split, "run/R-backup"), "source_limit")
    assert found.value == pytest.approx(6000 / 240)


def test_two_inverters_in_one_island_give_together_what_each_gives() -> None:
    found = constraint(asked({}, "run/R-chosen", "changeover-led"), "source_limit")
    assert found.value == pytest.approx(10_000 / 690)


def test_an_open_cable_without_a_device_of_its_own_is_chosen() -> None:
    edits = {"runs.R-backup.size": REMOVED, "runs.R-tails.size": REMOVED}
    result = answered(edits)
    assert str(result.design.size("R-backup")) == "6 mm²"
    assert str(result.design.size("R-tails")) == "16 mm²"


def test_the_main_fuse_protects_the_main_conductors() -> None:
    """At 25 °C by method C 16 mm² carry 85 × 1.06 A; 10 mm² carry 63 × 1.06 A, too little for a gG fuse of
    63 A.
    """
    assert asked({}, "run/R-main").verdict is Verdict.PASS
    found = asked({"runs.R-main.size": "10 mm²"}, "run/R-main")
    assert [c.name for c in found.constraints if c.verdict is Verdict.FAIL] == ["overload_trip"]
    assert constraint(asked({"supply.main_fuse": REMOVED}, "run/R-main"), "device_before").find_out
