"""Voltage drop to the loads; rise and overvoltage at the inverters."""

import math
from pathlib import Path
from typing import Any

import pytest
import yaml

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from ferrule.design import Decided
from houses import EXAMPLES, REMOVED, answered, constraint, finding

GIVEN: dict[str, Any] = {
    "runs.R-inverter.size": "10 mm²",
    "boards.MB.circuits.C-inverter.device.rating": "32 A",
}
GARAGE: dict[str, Any] = {
    "runs.R-garage.size": "25 mm²",
    "runs.R-INV1.size": "4 mm²",
    "runs.R-INV2.size": "4 mm²",
    "runs.R-charger.size": "4 mm²",
}


def part(name: str) -> dict[str, Any]:
    found: dict[str, Any] = yaml.safe_load(Path(EXAMPLES, "parts", f"{name}.yaml").read_text())["part"]
    return found


def dropped(edits: dict[str, Any], circuit: str = "C-light", house: str = "meter-led") -> Finding:
    return finding(
        answered({**GIVEN, **edits} if house == "meter-led" else edits, house),
        "circuit.drop",
        f"circuit/{circuit}",
    )


def ohm(area_mm2: float, length_m: float) -> float:
    """One conductor, at the power factor that loses most."""
    return math.hypot(22.5 / area_mm2, 0.08) * length_m / 1000


#: what the lights draw, and what each metre of their cable of 1.5 mm² takes at power factor 0.95
LIGHTS_A = 350 / 0.95 / 230
LIGHTS_V_PER_M = 2 * (22.5 / 1.5 * 0.95 + 0.08 * math.sqrt(1 - 0.95**2)) / 1000 * LIGHTS_A
#: 3 m behind the main fuse of 63 A, then 12 m and 11 m that the inverter's 32 A may pass through
UPSTREAM_V = 2 * (63 * ohm(16, 3) + 32 * ohm(10, 12) + 32 * ohm(10, 11))


def test_the_drop_adds_up_from_the_origin_to_the_last_lamp() -> None:
    found = constraint(dropped({}), "drop_limit")
    assert found.value == pytest.approx(100 * (UPSTREAM_V + 22 * LIGHTS_V_PER_M) / 230)
    assert found.limit == 3
    assert found.verdict is Verdict.PASS


@pytest.mark.parametrize(("beyond_m", "verdict"), [(-0.01, Verdict.PASS), (0.01, Verdict.CAUTION)])
def test_just_below_and_just_beyond_the_limit(beyond_m: float, verdict: Verdict) -> None:
    """Annex G is informative, so that a miss is a caution."""
    longest_m = (0.03 * 230 - UPSTREAM_V) / LIGHTS_V_PER_M
    found = dropped({"runs.R-light.stretches.0.length": f"{longest_m + beyond_m} m"})
    assert found.verdict is verdict


@pytest.mark.parametrize(("beyond_m", "verdict"), [(-0.01, Verdict.CAUTION), (0.01, Verdict.FAIL)])
def test_a_drop_beyond_what_equipment_is_made_for_fails(beyond_m: float, verdict: Verdict) -> None:
    """IEC 60038:2002: 230 V less 14 % is the lowest that equipment has to work with."""
    longest_m = (0.14 * 230 - UPSTREAM_V) / LIGHTS_V_PER_M
    found = dropped({"runs.R-light.stretches.0.length": f"{longest_m + beyond_m} m"})
    assert found.verdict is verdict
    assert constraint(found, "drop_most").limit == 14


def test_a_circuit_of_five_kilometres_shows_no_impossible_voltage() -> None:
    found = dropped({"runs.R-light.stretches.0.length": "5 km"})
    assert found.verdict is Verdict.FAIL
    assert found.governed_by.name == "drop_most"
    for each in found.constraints:
        assert "{value}" not in each.text
        assert "{drop_v}" not in each.text
        assert "cannot flow" in each.text


def test_other_loads_may_lose_more() -> None:
    assert constraint(dropped({}, "C-fridge"), "drop_limit").limit == 5


def test_a_miss_is_answered_with_a_size_that_passes() -> None:
    found = dropped({"runs.R-light.stretches.0.length": "70 m"})
    assert found.verdict is Verdict.CAUTION
    remedy = next(each for each in found.remedies if each.path == "runs.R-light.size")
    again = dropped({"runs.R-light.stretches.0.length": "70 m", remedy.path: remedy.value})
    assert again.verdict is Verdict.PASS


def test_in_island_mode_the_way_begins_at_the_inverter() -> None:
    """6 kVA feed 11 m of 10 mm²; an islanded house is a private supply."""
    found = constraint(dropped({}, "C-light@island"), "drop_limit")
    volts = 2 * 6000 / 230 * ohm(10, 11) + 22 * LIGHTS_V_PER_M
    assert found.value == pytest.approx(100 * volts / 230)
    assert found.limit == 6


@pytest.mark.parametrize(
    "path",
    [
        "boards.BB.circuits.C-light.loads.0.power",
        "runs.R-tails.stretches.0.length",
        "supply.main_fuse",
        "parts.example-hybrid-6k-single.grid.pass_through_max",
    ],
)
def test_what_is_not_known_is_asked_for(path: str) -> None:
    found = dropped({path: REMOVED})
    assert found.verdict is Verdict.UNKNOWN
    assert constraint(found, "drop_limit").find_out


def test_a_circuit_that_is_not_backed_up_has_no_drop_in_island_mode() -> None:
    edits = {**GIVEN, "boards.MB.circuits.+": stove(), "runs.+": run("R-stove", "MB", "stove", "2.5 mm²")}
    subjects = {str(f.subject) for f in answered(edits).findings if f.id == "circuit.drop"}
    assert {"circuit/C-stove", "circuit/C-light", "circuit/C-light@island"} <= subjects
    assert "circuit/C-stove@island" not in subjects


def stove() -> dict[str, Any]:
    return {
        "id": "C-stove", "run": "R-stove", "phases": ["L1"],
        "device": {"curve": "B", "rating": "16 A", "direction": "one"},
        "loads": [{"name": "stove", "kind": "resistive", "power": "3 kW"}],
    }  # fmt: skip


def run(name: str, start: str, end: str, size: str, length: str = "10 m") -> dict[str, Any]:
    return {
        "id": name, "from": start, "to": end, "cable": "pvc-multicore", "size": size, "neutral": size,
        "protective": size,
        "stretches": [{"length": length, "method": "C", "ambient": "30 °C", "circuits": 1}],
    }  # fmt: skip


def test_open_conductors_on_the_way_are_thickened_until_the_drop_passes() -> None:
    """80 m to the fridge: the firm's next size would not do."""
    result = answered({
        "runs.R-fridge.size": REMOVED,
        "runs.R-fridge.neutral": REMOVED,
        "runs.R-fridge.protective": REMOVED,
        "runs.R-fridge.stretches.0.length": "300 m",
        "boards.BB.circuits.C-fridge.loads.0.power": "1.5 kW",
    })  # fmt: skip
    choice = next(c for c in result.choices if c.decided == Decided("conductor", "R-fridge"))
    assert choice.passes
    assert choice.governed_by is not None
    assert (choice.governed_by.question, choice.governed_by.constraint.name) == ("circuit.drop", "drop_limit")
    assert finding(result, "circuit.drop", "circuit/C-fridge").verdict is Verdict.PASS


CHANGEOVER: dict[str, Any] = {"runs.R-changeover.size": "4 mm²", "runs.R-cold.size": "1.5 mm²"}


def test_through_a_changeover_unit_from_either_side() -> None:
    """The cold store draws 700 W at power factor 0.8 from L2, over 18 m of 1.5 mm². On the network it hangs
    behind tails of 10 mm² (35 A), 2 m of 4 mm² that carry three lines, of which L2 alone returns by the
    neutral, and 1.5 m of 6 mm² behind the unit; in island mode behind 13 m of 4 mm² from the inverter's
    10 kVA and the same last metres.
    """
    cold_a = 700 / 0.8 / 230
    own_v = 2 * (22.5 / 1.5 * 0.8 + 0.08 * 0.6) * 18 / 1000 * cold_a
    pump_a = 1500 / 0.8 / 3 / 230
    feeder_a = cold_a + pump_a  # L2 carries most
    network_v = 2 * 35 * ohm(10, 5) + (feeder_a + cold_a) * ohm(4, 2) + 2 * feeder_a * ohm(6, 1.5)
    found = dropped(CHANGEOVER, "C-cold", "changeover-led")
    assert constraint(found, "drop_limit").value == pytest.approx(100 * (network_v + own_v) / 230)
    island_v = 2 * 10_000 / 3 / 230 * (ohm(4, 13) + ohm(6, 1.5))
    found = dropped(CHANGEOVER, "C-cold@island", "changeover-led")
    assert constraint(found, "drop_limit").value == pytest.approx(100 * (island_v + own_v) / 230)


def test_loads_of_unknown_share_count_with_the_worst_power_factor() -> None:
    """16 A of sockets behind 16 mm² at 63 A, as nobody says what hangs on them."""
    edits = {"boards.MB.circuits.C-kitchen.loads": [{"name": "sockets", "kind": "sockets"}], **GARAGE}
    found = dropped(edits, "C-kitchen", "controller-led")
    volts = 2 * (63 * ohm(16, 3) + 16 * ohm(2.5, 16))
    assert constraint(found, "drop_limit").value == pytest.approx(100 * volts / 230)


# Rise


def rise(edits: dict[str, Any], inverter: str = "INV1", house: str = "meter-led") -> Finding:
    result = answered({**GIVEN, **edits} if house == "meter-led" else {**GARAGE, **edits}, house)
    return finding(result, "inverter.rise", f"inverter/{inverter}")


RISE_V = 2 * 0.0225 * (3 / 16 + 12 / 10) * 27.3


def test_the_rise_at_the_inverters_largest_output() -> None:
    found = constraint(rise({}), "rise_should")
    assert found.value == pytest.approx(100 * RISE_V / 230)
    assert found.limit == 1
    assert found.verdict is Verdict.PASS


def test_a_thinner_cable_misses_the_convention_but_not_the_operators_limit() -> None:
    found = rise({"runs.R-inverter.size": "6 mm²"})
    assert constraint(found, "rise_should").verdict is Verdict.CAUTION
    assert constraint(found, "operator_limit").verdict is Verdict.PASS
    assert found.verdict is Verdict.CAUTION
    assert [r.value for r in found.remedies if r.path == "runs.R-inverter.size"] == ["10 mm²"]


@pytest.mark.parametrize(("shift", "verdict"), [(0.001, Verdict.PASS), (-0.001, Verdict.FAIL)])
def test_the_operators_own_limit_binds(shift: float, verdict: Verdict) -> None:
    limit_pct = 100 * RISE_V / 230 + shift
    found = constraint(rise({"supply.utility.rise_max": f"{limit_pct} %"}), "operator_limit")
    assert found.verdict is verdict


def test_an_operator_who_states_no_limit_leaves_the_national_ceiling() -> None:
    """2 % (AS/NZS 4777.1), the strictest in print; 30 m of 6 mm² lift by 2.8 %."""
    far = {
        "supply.utility.rise_max": "none",
        "runs.R-inverter.size": "6 mm²",
        "runs.R-inverter.stretches.0.length": "27 m",
    }
    found = rise(far)
    assert [c.name for c in found.constraints] == ["rise_ceiling", "rise_should"]
    assert constraint(found, "rise_ceiling").limit == 2
    assert found.verdict is Verdict.FAIL


def test_an_operators_limit_nobody_asked_for_leaves_the_rise_unknown() -> None:
    found = rise({"supply.utility.rise_max": REMOVED})
    assert found.verdict is Verdict.UNKNOWN
    assert constraint(found, "rise_should").verdict is Verdict.PASS


def test_inverters_on_a_shared_run_lift_each_other() -> None:
    """Both at 16 A through tails and garage cable, each alone on its own."""
    shared_v = 0.0225 * (3 / 16 + 40 / 25) * 32
    for inverter, own_m in (("INV1", 4), ("INV2", 5)):
        found = constraint(rise({}, inverter, "controller-led"), "rise_should")
        assert found.value == pytest.approx(100 * (shared_v + 0.0225 * own_m / 4 * 16) / 230)


@pytest.mark.parametrize(("line", "shared"), [("L1", True), ("L2", False)])
def test_an_inverter_of_one_phase_lifts_its_own_line_twice_as_much(line: str, shared: bool) -> None:
    """27.3 A out by L1 and back by the neutral, beside 16 A in three lines; on two lines two such inverters
    do not add.
    """
    single = {
        "parts.+": part("example-hybrid-6k-single"),
        "devices.INV1.part": "example-hybrid-6k-single",
        "boards.GB.circuits.C-INV1.phases": ["L1"],
        "devices.+": {
            "id": "INV3", "kind": "inverter", "part": "example-hybrid-6k-single", "link": "disabled"
        },
        "runs.+": run("R-INV3", "GB", "INV3.grid", "6 mm²"),
        "boards.GB.circuits.+": {
            "id": "C-INV3", "run": "R-INV3", "phases": [line],
            "device": {"curve": "B", "rating": "32 A", "direction": "both"},
        },
    }  # fmt: skip
    found = constraint(rise(single, "INV1", "controller-led"), "rise_should")
    single_a = 27.3 * (2 if shared else 1)
    volts = 0.0225 * (3 / 16 + 40 / 25) * (16 + 2 * single_a) + 2 * 0.0225 * 4 / 4 * 27.3
    assert found.value == pytest.approx(100 * volts / 230)


def test_a_split_phase_inverter_lifts_both_lines_once() -> None:
    """27.3 A out by one line and back by the other, so that each is lifted by its own conductor alone."""
    split = {
        "supply.live": [
            {"name": "L1", "voltage": "120 V"}, {"name": "L2", "voltage": "120 V", "angle": "180°"},
        ],
        "boards.MB.circuits.C-inverter.phases": ["L1", "L2"],
    }  # fmt: skip
    found = constraint(rise(split), "rise_should")
    volts = 0.0225 * (3 / 16 + 12 / 10) * 27.3
    assert found.value == pytest.approx(100 * volts / 120)


# Overvoltage


def over(edits: dict[str, Any]) -> Finding:
    return finding(answered({**GIVEN, **edits}), "inverter.overvoltage", "inverter/INV1")


@pytest.mark.parametrize(("shift_v", "verdict"), [(-0.001, Verdict.PASS), (0.001, Verdict.FAIL)])
def test_the_rise_on_top_of_the_highest_voltage(shift_v: float, verdict: Verdict) -> None:
    found = constraint(over({"supply.highest": f"{264.5 - RISE_V + shift_v} V"}), "at_highest")
    assert found.value == pytest.approx(264.5 + shift_v)
    assert found.verdict is verdict


@pytest.mark.parametrize(("shift_v", "verdict"), [(0.001, Verdict.PASS), (-0.001, Verdict.CAUTION)])
def test_the_rise_on_top_of_what_networks_are_allowed(shift_v: float, verdict: Verdict) -> None:
    """EN 50160: 253 V."""
    trips = f"{253 + RISE_V + shift_v} V"
    found = over({"parts.example-hybrid-6k-single.trips_above": trips})
    assert found.verdict is verdict
    assert constraint(found, "at_highest").verdict is Verdict.PASS


@pytest.mark.parametrize("path", ["supply.highest", "parts.example-hybrid-6k-single.trips_above"])
def test_overvoltage_asks_for_what_is_not_known(path: str) -> None:
    assert over({path: REMOVED}).verdict is Verdict.UNKNOWN
