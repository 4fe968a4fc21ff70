"""Cables of strings: what they carry, what they lose, and which size is chosen."""

from typing import Any

import pytest

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from ferrule.design import Decided
from houses import REMOVED, answered, constraint, finding

MODULE = "parts.example-mono-430"
ROOF = "runs.R-S1.stretches.0"


def asked(edits: dict[str, Any], question: str = "dc_capacity", run: str = "R-S1") -> Finding:
    return finding(answered(edits), f"run.{question}", f"run/{run}")


def test_the_pipe_below_the_hot_roof_carries_least() -> None:
    """4 mm² on the roof: 44 A × √(40/60) = 35.9 A; in pipe at 35 °C as a cable of 90 °C, two circuits
    together: 42 A × 0.96 × 0.80 = 32.3 A. The string drives 1.25 × 13.9 = 17.4 A.
    """
    found = constraint(asked({"runs.R-S1.size": "4 mm²"}), "string_current")
    assert found.value == pytest.approx(32.256)
    assert found.limit == pytest.approx(17.375)
    assert found.verdict is Verdict.PASS


@pytest.mark.parametrize(
    ("isc", "verdict"), [("25.8 A", Verdict.PASS), ("25.81 A", Verdict.FAIL)], ids=["at", "beyond"]
)
def test_at_the_limit_and_beyond(isc: str, verdict: Verdict) -> None:
    """32.256 A are 1.25 × 25.805 A."""
    found = asked({"runs.R-S1.size": "4 mm²", f"{MODULE}.isc": isc})
    assert constraint(found, "string_current").verdict is verdict


def test_a_cable_with_single_insulation_fails() -> None:
    found = asked({"runs.R-S1.cable": "pvc-multicore"})
    assert constraint(found, "insulation").verdict is Verdict.FAIL
    assert any("double insulation" in remedy.text for remedy in found.remedies)


def test_what_is_lost_at_full_sun_decides_the_size() -> None:
    """S2 over 21 m, 4 mm²: 2 × 21 m × 6.490 Ω/km × 13.2 A = 3.60 V of 260.8 V, 1.38 %; with 6 mm² 0.92 %."""
    result = answered()
    assert str(result.design.choices[Decided("conductor", "R-S2")]) == "6 mm²"
    choice = next(c for c in result.choices if c.decided == Decided("conductor", "R-S2"))
    assert choice.governed_by is not None
    assert choice.governed_by.constraint.name == "drop"
    assert choice.governed_by.constraint.value == pytest.approx(1.379, abs=0.002)
    found = finding(result, "run.dc_drop", "run/R-S2")
    assert found.verdict is Verdict.PASS
    assert found.governed_by.value == pytest.approx(0.919, abs=0.002)


def test_a_cable_that_loses_much_is_a_caution_with_the_size_that_helps() -> None:
    found = asked({"runs.R-S2.size": "4 mm²"}, "dc_drop", "R-S2")
    assert found.verdict is Verdict.CAUTION
    (remedy,) = found.remedies
    assert (remedy.path, remedy.value) == ("runs.R-S2.size", "6 mm²")


def test_a_cable_too_long_for_any_size_takes_the_least_bad() -> None:
    result = answered({"runs.R-S2.stretches.1.length": "200 m"})
    choice = next(c for c in result.choices if c.decided == Decided("conductor", "R-S2"))
    assert not choice.passes
    assert finding(result, "run.dc_drop", "run/R-S2").verdict is Verdict.CAUTION


def test_the_firms_sizes_come_first() -> None:
    assert str(answered(firm=True).design.choices[Decided("conductor", "R-S1")]) == "4 mm²"


@pytest.mark.parametrize(
    ("question", "path"),
    [
        ("dc_capacity", f"{ROOF}.ambient"),
        ("dc_capacity", f"{ROOF}.method"),
        ("dc_capacity", f"{MODULE}.isc"),
        ("dc_capacity", "parts.example-hybrid-6k-single.backfeed"),
        ("dc_drop", f"{ROOF}.length"),
        ("dc_drop", f"{MODULE}.vmp"),
        ("dc_drop", f"{MODULE}.imp"),
    ],
)
def test_what_is_not_known_is_asked_for(question: str, path: str) -> None:
    found = asked({path: REMOVED}, question)
    assert found.verdict is Verdict.UNKNOWN
    assert any(each.find_out for each in found.constraints)


def test_a_circuits_run_is_not_asked() -> None:
    asked_of = {str(f.subject) for f in answered().findings if f.id.startswith("run.dc_")}
    assert asked_of == {"run/R-S1", "run/R-S2"}
