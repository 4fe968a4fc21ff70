"""Operating voltage of a string in heat and cold against the windows of its input."""

from typing import Any

import pytest

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from ferrule.working import Given
from houses import REMOVED, answered, constraint, finding

MODULE = "parts.example-mono-430"
INPUT = "parts.example-hybrid-6k-single.trackers.PV1"


def hot(edits: dict[str, Any], string: str = "S1") -> Finding:
    return finding(answered(edits), "string.hot_voltage", f"string/{string}")


def cold(edits: dict[str, Any]) -> Finding:
    return finding(answered(edits), "string.cold_operating_voltage", "string/S1")


def test_close_to_the_roof_cells_reach_84_degrees() -> None:
    """34 °C and 50 K: 12 × 32.6 × (1 − 0.31 % × 59) = 319.65 V."""
    assert constraint(hot({}), "tracking_low").value == pytest.approx(319.65, abs=0.01)


def test_a_sheet_without_coefficient_of_vmp() -> None:
    """The steepest that those of power and current allow, −0.31 − 0.05 %/K, and the working says so:
    12 × 32.6 × (1 − 0.36 % × 59) = 308.11 V.
    """
    found = constraint(hot({f"{MODULE}.vmp_coefficient": REMOVED}), "tracking_low")
    assert found.value == pytest.approx(308.11, abs=0.01)
    notes = [step.origin for step in found.steps if isinstance(step, Given)]
    assert any("has none of Vmp" in note for note in notes)


@pytest.mark.parametrize(
    ("edits", "expected_v"),
    [
        # its own coefficient: 12 × 32.6 × (1 − 0.35 % × 59)
        ({f"{MODULE}.vmp_coefficient": "-0.35 %/K"}, 310.42),
        # raised above the roof: 36 K, 45 K above 25 °C
        ({"faces.south.mounting": "raised-roof"}, 336.63),
    ],
    ids=["own", "raised"],
)
def test_what_the_heat_leaves(edits: dict[str, Any], expected_v: float) -> None:
    assert constraint(hot(edits), "tracking_low").value == pytest.approx(expected_v, abs=0.01)


#: twelve modules that work at 25 V and show 30 V unloaded, whatever the weather
LEVEL = {
    f"{MODULE}.vmp": "25 V",
    f"{MODULE}.vmp_coefficient": "0 V/K",
    f"{MODULE}.voc": "30 V",
    f"{MODULE}.voc_coefficient": "0 V/K",
}


@pytest.mark.parametrize(
    ("name", "key", "reached", "missed", "verdict"),
    [
        ("tracking_low", "tracking_low", "300 V", "300.1 V", Verdict.FAIL),
        ("full_power_low", "full_power_low", "300 V", "300.1 V", Verdict.CAUTION),
        ("start", "start", "360 V", "360.1 V", Verdict.FAIL),
        ("start_loaded", "start", "300 V", "300.1 V", Verdict.CAUTION),
    ],
)
def test_each_lower_end(name: str, key: str, reached: str, missed: str, verdict: Verdict) -> None:
    """300 V loaded and 360 V unloaded; reaching a window is enough."""
    assert constraint(hot({**LEVEL, f"{INPUT}.{key}": reached}), name).verdict is Verdict.PASS
    assert constraint(hot({**LEVEL, f"{INPUT}.{key}": missed}), name).verdict is verdict


@pytest.mark.parametrize("key", ["tracking_high", "full_power_high"])
def test_each_upper_end_is_a_should(key: str) -> None:
    """300 V in the cold as well; above the window an input only takes less."""
    assert constraint(cold({**LEVEL, f"{INPUT}.{key}": "300 V"}), key).verdict is Verdict.PASS
    assert constraint(cold({**LEVEL, f"{INPUT}.{key}": "299.9 V"}), key).verdict is Verdict.CAUTION


def test_the_working_string_in_the_cold() -> None:
    """12 × 32.6 × (1 + 0.31 % × 41) = 440.92 V."""
    assert constraint(cold({}), "tracking_high").value == pytest.approx(440.92, abs=0.01)


@pytest.mark.parametrize(
    "edits",
    [
        {"site.hottest": REMOVED},
        {"faces.south.mounting": REMOVED},
        {f"{MODULE}.vmp": REMOVED},
        {f"{MODULE}.vmp_coefficient": REMOVED, f"{MODULE}.power_coefficient": REMOVED},
        {f"{MODULE}.vmp_coefficient": REMOVED, f"{MODULE}.isc_coefficient": REMOVED},
        {f"{INPUT}.tracking_low": REMOVED},
    ],
    ids=["air", "mounting", "voltage", "of power", "of current", "window"],
)
def test_what_is_not_known_is_asked_for(edits: dict[str, Any]) -> None:
    found = hot(edits)
    assert found.verdict is Verdict.UNKNOWN
    assert constraint(found, "tracking_low").find_out


def test_everything_missing_is_named_at_once() -> None:
    found = constraint(hot({"site.hottest": REMOVED, "faces.south.mounting": REMOVED}), "tracking_low")
    assert len(found.find_out) == 2


def test_a_short_string_is_answered_with_a_count_that_passes() -> None:
    roomy = {"parts.example-hybrid-6k-single.pv_power_max": "12 kW"}
    found = hot(roomy, "S2")
    assert found.verdict is Verdict.CAUTION
    count, advice = found.remedies
    assert "more modules" in advice.text
    mended = {**roomy, "strings.S2.modules": int(count.value)}
    assert hot(mended, "S2").verdict is Verdict.PASS
    assert finding(answered(mended), "string.cold_voltage", "string/S2").verdict is Verdict.PASS


def test_no_count_is_proposed_that_is_too_much_for_the_inverter() -> None:
    """10 modules would reach the window; with the 12 of the other string they are 9.46 kW of 9 kW allowed."""
    (advice,) = hot({}, "S2").remedies
    assert "more modules" in advice.text
