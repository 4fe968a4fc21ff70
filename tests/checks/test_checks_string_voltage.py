"""Cold open-circuit voltage of a string against everything that has to bear it."""

from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from ferrule.constraint import Verdict
from ferrule.working import Read
from houses import REMOVED, answered, constraint, finding

MODULE = "parts.example-mono-430"
INVERTER = "parts.example-hybrid-6k-single"
INPUT = f"{INVERTER}.trackers.PV1"

#: twelve modules of exactly 40 V with no change by temperature: 480 V whatever the weather
LEVEL = {f"{MODULE}.voc": "40 V", f"{MODULE}.voc_coefficient": "0 V/K"}


def cold(edits: dict[str, Any]) -> Any:
    return finding(answered(edits), "string.cold_voltage", "string/S1")


def test_twelve_modules_on_the_coldest_morning() -> None:
    """38.9 V × (1 + 0.26 % × 41 K) × 12 = 516.56 V."""
    found = cold({})
    assert found.verdict is Verdict.PASS
    assert found.governed_by.name == "inverter_input"
    assert found.governed_by.value == pytest.approx(516.56, abs=0.01)
    assert {c.name for c in found.constraints} == {
        "inverter_input", "module_system", "connector", "cable", "legal_cap",
    }  # fmt: skip


GEAR = {"inputs": [{"id": "PV1", "isolator": {"voltage_max": "600 V", "current_max": "25 A",
                                              "category": "DC-PV1", "all_poles": "yes"}}]}  # fmt: skip
FUSE = {"rating": "25 A", "voltage_max": "600 V", "breaking_capacity": "10 kA", "poles": "both"}


@pytest.mark.parametrize(
    ("name", "path"),
    [
        ("inverter_input", f"{INPUT}.voltage_max"),
        ("module_system", f"{MODULE}.system_voltage_max"),
        ("connector", f"{MODULE}.connector_voltage_max"),
        ("cable", "parts.pv-single.voltage_max"),
        ("fuse", "strings.S1.fuse.voltage_max"),
        ("isolator", "devices.INV1.inputs.PV1.isolator.voltage_max"),
    ],
)
@pytest.mark.parametrize(("limit", "verdict"), [("480 V", Verdict.FAIL), ("480.1 V", Verdict.PASS)])
def test_each_limit_must_stay_above_the_string(name: str, path: str, limit: str, verdict: Verdict) -> None:
    """Twelve modules of 40 V make 480 V; a limit of as much is no pass."""
    edits: dict[str, Any] = {**LEVEL, "strings.S1.fuse": dict(FUSE), "devices.INV1.inputs": GEAR["inputs"]}
    found = constraint(cold({**edits, path: limit}), name)
    assert found.value == pytest.approx(480)
    assert found.verdict is verdict


@pytest.mark.parametrize(
    ("name", "path"),
    [
        ("inverter_input", f"{INPUT}.voltage_max"),
        ("module_system", f"{MODULE}.system_voltage_max"),
        ("connector", f"{MODULE}.connector_voltage_max"),
        ("cable", "parts.pv-single.voltage_max"),
        ("legal_cap", "site.building"),
        ("inverter_input", "site.coldest"),
    ],
)
def test_an_unknown_limit_is_asked_for(name: str, path: str) -> None:
    found = cold({path: REMOVED})
    assert found.verdict is Verdict.UNKNOWN
    assert constraint(found, name).find_out


def test_a_string_without_a_run_asks_for_its_cable() -> None:
    found = constraint(cold({"runs.R-S1": REMOVED}), "cable")
    assert found.verdict is Verdict.UNKNOWN
    assert "cable run from S1 to INV1.PV1" in found.find_out[0]


def test_the_inverters_own_switch_is_covered_by_its_own_limit() -> None:
    names = {
        c.name for c in cold({"devices.INV1.inputs": [{"id": "PV1", "isolator": "built-in"}]}).constraints
    }
    assert "isolator" not in names


def test_without_a_coefficient_the_table_of_the_rules_serves_crystalline_modules() -> None:
    """Row −20 °C for −16 °C: 1.18 × 38.9 V × 12 = 550.8 V, and the working says so."""
    found = cold({f"{MODULE}.voc_coefficient": REMOVED}).governed_by
    assert found.value == pytest.approx(550.824)
    reads = [step for step in found.steps if isinstance(step, Read)]
    assert [(read.table, read.keys) for read in reads] == [("cold_voltage_factor", ("-20",))]


def test_other_technologies_have_no_table() -> None:
    edits = {f"{MODULE}.voc_coefficient": REMOVED, f"{MODULE}.technology": "thin-film"}
    assert "temperature coefficient of Voc" in cold(edits).governed_by.find_out[0]


def test_colder_than_the_table_only_the_sheet_can_tell() -> None:
    """The factors end at −40 °C; a factor declared for the site still serves."""
    arctic = {f"{MODULE}.voc_coefficient": REMOVED, "site.coldest": "-45 °C"}
    assert "temperature coefficient of Voc" in cold(arctic).governed_by.find_out[0]
    declared = cold({**arctic, "site.cold_factor": 1.25}).governed_by
    assert declared.value == pytest.approx(1.25 * 38.9 * 12)


@pytest.mark.parametrize(
    ("edits", "expected_v"),
    [
        ({"site.cold_factor": 1.2}, 1.2 * 38.9 * 12),  # above the 516.56 V by temperature
        ({"site.cold_factor": 1.05}, 516.56),  # below it: the temperature counts
        ({"site.cold_factor": 1.15, "site.coldest": REMOVED}, 1.15 * 38.9 * 12),  # alone
    ],
    ids=["higher", "lower", "alone"],
)
def test_a_declared_factor_stands_beside_the_temperature(edits: dict[str, Any], expected_v: float) -> None:
    assert cold(edits).governed_by.value == pytest.approx(expected_v, abs=0.01)


def test_too_long_a_string_is_answered_with_a_count_that_passes() -> None:
    found = cold({"strings.S1.modules": 14})
    assert found.verdict is Verdict.FAIL
    (remedy,) = [r for r in found.remedies if r.path == "strings.S1.modules"]
    assert remedy.value == "13"
    assert cold({"strings.S1.modules": 13}).verdict is Verdict.PASS


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    coldest=st.integers(-40, 20),
    colder=st.integers(0, 15),
    modules=st.integers(1, 14),
    more=st.integers(0, 3),
)
def test_colder_or_longer_never_lowers_the_voltage(
    coldest: int, colder: int, modules: int, more: int
) -> None:
    def value(coldest_c: int, count: int) -> float:
        found = cold({"site.coldest": f"{coldest_c} °C", "strings.S1.modules": count})
        return float(constraint(found, "inverter_input").value or 0)

    first = value(coldest, modules)
    assert value(coldest - colder, modules) >= first
    assert value(coldest, modules + more) >= first


@pytest.mark.parametrize(("limit", "short"), [("489.6 V", True), ("489.7 V", False)])
def test_a_coefficient_without_room_is_a_caution(limit: str, short: bool) -> None:
    """480 V, at −16 °C up to 2.0 % more, as down to −20 °C: 489.6 V. With room nothing is said of it."""
    found = cold({**LEVEL, f"{INPUT}.voltage_max": limit})
    assert found.verdict is (Verdict.CAUTION if short else Verdict.PASS)
    said = [c for c in found.constraints if c.name == "straight_line"]
    assert [c.value for c in said] == ([pytest.approx(489.6)] if short else [])


@pytest.mark.parametrize(
    "edits",
    [
        {f"{MODULE}.technology": "thin-film"},
        {f"{MODULE}.voc_coefficient": REMOVED},
        {"site.coldest": REMOVED, "site.cold_factor": 1.0},
    ],
    ids=["not-measured", "by-table", "declared"],
)
def test_only_a_coefficient_of_crystalline_cells_needs_that_room(edits: dict[str, Any]) -> None:
    found = cold({**LEVEL, f"{INPUT}.voltage_max": "480.1 V", **edits})
    assert "straight_line" not in {c.name for c in found.constraints}
