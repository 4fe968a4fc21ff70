"""Currents into an inverter input, and strings that share one."""

from typing import Any

import pytest

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from houses import REMOVED, answered, constraint, finding

MODULE = "parts.example-mono-430"
INPUT = "parts.example-hybrid-6k-single.trackers.PV1"

#: both strings of the demo house on its first input, alike
SHARED = {
    "strings.S2.input": "INV1.PV1",
    "strings.S2.modules": 12,
    "strings.S2.face": "south",
    "runs.R-S2.to": "INV1.PV1",
}


def asked(question: str, edits: dict[str, Any]) -> Finding:
    return finding(answered(edits), f"input.{question}", "input/INV1.PV1")


@pytest.mark.parametrize(
    ("limit", "verdict"), [("13.2 A", Verdict.PASS), ("13.1 A", Verdict.CAUTION)], ids=["at", "beyond"]
)
def test_current_beyond_the_tracker_is_only_lost(limit: str, verdict: Verdict) -> None:
    found = asked("operating_current", {f"{INPUT}.current_max": limit})
    assert found.governed_by.value == pytest.approx(13.2)
    assert found.verdict is verdict


@pytest.mark.parametrize(
    ("limit", "verdict"), [("17.375 A", Verdict.PASS), ("17.3 A", Verdict.FAIL)], ids=["at", "beyond"]
)
def test_short_circuit_current_beyond_the_input_destroys_it(limit: str, verdict: Verdict) -> None:
    """1.25 × 13.9 A."""
    found = asked("short_circuit_current", {f"{INPUT}.short_circuit_max": limit})
    assert found.governed_by.value == pytest.approx(17.375)
    assert found.verdict is verdict


def test_strings_that_share_an_input_add_up() -> None:
    result = answered(SHARED)
    working = finding(result, "input.operating_current", "input/INV1.PV1")
    shorted = finding(result, "input.short_circuit_current", "input/INV1.PV1")
    assert working.governed_by.value == pytest.approx(26.4)
    assert working.verdict is Verdict.CAUTION
    assert shorted.governed_by.value == pytest.approx(34.75)
    assert shorted.verdict is Verdict.FAIL
    assert "fewer strings on {input}" in shorted.remedies[0].text


def test_light_on_the_rear_side_counts() -> None:
    """Ten per cent more: 14.52 A, and 1.25 × 15.29 A."""
    result = answered({f"{MODULE}.rear_gain": "10 %"})
    working = finding(result, "input.operating_current", "input/INV1.PV1").governed_by
    shorted = finding(result, "input.short_circuit_current", "input/INV1.PV1").governed_by
    assert working.value == pytest.approx(14.52)
    assert shorted.value == pytest.approx(19.1125)


@pytest.mark.parametrize(
    ("question", "path"),
    [
        ("operating_current", f"{INPUT}.current_max"),
        ("operating_current", f"{MODULE}.imp"),
        ("short_circuit_current", f"{INPUT}.short_circuit_max"),
        ("short_circuit_current", f"{MODULE}.isc"),
    ],
)
def test_what_is_not_known_is_asked_for(question: str, path: str) -> None:
    found = asked(question, {path: REMOVED})
    assert found.verdict is Verdict.UNKNOWN
    assert found.governed_by.find_out


def test_a_string_alone_is_not_compared() -> None:
    assert not [f for f in answered().findings if f.id == "input.parallel_strings"]


OTHER = {"id": "other", "kind": "module", "name": "Other module", "source": "invented"}


@pytest.mark.parametrize(
    ("edits", "name", "verdict"),
    [
        ({}, "same_count", Verdict.PASS),
        ({"strings.S2.modules": 11}, "same_count", Verdict.FAIL),
        ({}, "same_module", Verdict.PASS),
        ({"parts.+": OTHER, "strings.S2.module": "other"}, "same_module", Verdict.FAIL),
        ({}, "same_face", Verdict.PASS),
        ({"strings.S2.face": "west"}, "same_face", Verdict.CAUTION),
        ({"strings.S2.face": "west", "faces.west.azimuth": "175°"}, "same_face", Verdict.PASS),
        ({"strings.S2.face": "west", "faces.west.tilt": REMOVED}, "same_face", Verdict.UNKNOWN),
    ],
)
def test_strings_that_share_an_input_are_alike(edits: dict[str, Any], name: str, verdict: Verdict) -> None:
    found = asked("parallel_strings", {**SHARED, **edits})
    assert constraint(found, name).verdict is verdict


def test_a_count_that_differs_is_answered_with_one_that_agrees() -> None:
    found = asked("parallel_strings", {**SHARED, "strings.S2.modules": 11})
    assert {(remedy.path, remedy.value) for remedy in found.remedies} == {
        ("strings.S1.modules", "11"),
        ("strings.S2.modules", "12"),
    }
