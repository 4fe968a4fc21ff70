"""An alternating-current cable's rated voltage against the supply."""

from typing import Any

import pytest

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from houses import REMOVED, answered, finding


def of(edits: dict[str, Any], house: str = "meter-led", run: str = "R-inverter") -> Finding:
    return finding(answered(edits, house), "run.voltage", f"run/{run}")


@pytest.mark.parametrize(
    ("rated", "verdict"),
    [
        ("450 V", Verdict.PASS),
        ("230 V", Verdict.PASS),
        ("229 V", Verdict.FAIL),
        (REMOVED, Verdict.UNKNOWN),
    ],
)
def test_it_is_held_against_the_voltage_from_line_to_earth(rated: Any, verdict: Verdict) -> None:
    assert of({"parts.pvc-multicore.voltage_max": rated}).verdict is verdict


@pytest.mark.parametrize(
    ("earthing", "verdict"), [("TT", Verdict.PASS), ("IT", Verdict.FAIL), (REMOVED, Verdict.UNKNOWN)]
)
def test_a_first_fault_of_an_it_system_raises_the_other_lines(earthing: Any, verdict: Verdict) -> None:
    """230 V × √3 = 398 V."""
    edits = {"parts.pvc-multicore.voltage_max": "300 V", "supply.earthing": earthing}
    found = of(edits, "changeover-led", "R-INV1")
    assert found.verdict is verdict
    if earthing == "IT":
        assert found.governed_by.limit == pytest.approx(398.37, abs=0.01)


def test_cables_of_direct_current_are_asked_with_their_own() -> None:
    asked = {str(f.subject) for f in answered().findings if f.id == "run.voltage"}
    assert "run/R-inverter" in asked
    assert not asked & {"run/R-S1", "run/R-battery"}
