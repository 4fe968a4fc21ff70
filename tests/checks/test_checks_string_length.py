"""The longest and the shortest string an input allows."""

from typing import Any

import pytest

from ferrule import display
from ferrule.constraint import Constraint, Verdict
from houses import REMOVED, answered, finding

MODULE = "parts.example-mono-430"
INPUT = "parts.example-hybrid-6k-single.trackers.PV1"

#: modules that show 40 V unloaded and work at 30 V, whatever the weather
LEVEL = {
    f"{MODULE}.vmp": "30 V",
    f"{MODULE}.vmp_coefficient": "0 V/K",
    f"{MODULE}.voc": "40 V",
    f"{MODULE}.voc_coefficient": "0 V/K",
}


def length(edits: dict[str, Any]) -> Constraint:
    return finding(answered(edits), "string.length", "string/S1").governed_by


def test_both_ends_and_what_set_them() -> None:
    """600 V / 43.05 V is 13.9 modules; 90 V / 26.63 V is 3.4 modules."""
    found = length({})
    words = dict(found.words)
    assert (words["low"], words["high"]) == (4, 13)
    assert words["longest_by"] == "the inverter input in the cold"
    assert words["shortest_by"] == "the tracking window in the heat"
    assert found.margin is None
    assert "12 modules; from 4" in display.filled(found)


@pytest.mark.parametrize(
    ("edits", "low", "high", "shortest_by", "longest_by"),
    [
        ({f"{INPUT}.voltage_max": "600 V"}, 3, 14, "tracking", "input"),  # 15 modules would reach 600 V
        ({f"{INPUT}.voltage_max": "601 V"}, 3, 15, "tracking", "input"),
        ({f"{INPUT}.voltage_max": "1 kV", f"{MODULE}.system_voltage_max": "900 V"}, 3, 22, "track", "system"),
        ({f"{INPUT}.voltage_max": "1100 V"}, 3, 24, "tracking", "rules"),  # the house's 1000 V
        ({f"{INPUT}.tracking_low": "90.1 V"}, 4, 14, "tracking", "input"),
        ({f"{INPUT}.start": "240 V"}, 6, 14, "start", "input"),
        ({f"{INPUT}.start": "240.1 V"}, 7, 14, "start", "input"),
    ],
)  # fmt: skip
def test_rounding_is_to_the_safe_side(
    edits: dict[str, Any], low: int, high: int, shortest_by: str, longest_by: str
) -> None:
    words = dict(length({**LEVEL, **edits}).words)
    assert (words["low"], words["high"]) == (low, high)
    assert shortest_by in words["shortest_by"]
    assert longest_by in words["longest_by"]


@pytest.mark.parametrize(
    ("modules", "verdict"),
    [(2, Verdict.FAIL), (3, Verdict.PASS), (14, Verdict.PASS), (15, Verdict.FAIL)],
)
def test_both_ends_are_allowed_themselves(modules: int, verdict: Verdict) -> None:
    assert length({**LEVEL, "strings.S1.modules": modules}).verdict is verdict


def test_no_length_may_fit_at_all() -> None:
    assert length({**LEVEL, f"{INPUT}.tracking_low": "580 V"}).verdict is Verdict.FAIL


def test_the_length_agrees_with_the_voltages_it_comes_from() -> None:
    for modules in (13, 14):
        result = answered({"strings.S1.modules": modules})
        verdicts = {finding(result, q, "string/S1").verdict for q in ("string.length", "string.cold_voltage")}
        assert len(verdicts) == 1


def test_everything_missing_is_named_at_once() -> None:
    found = length({"site.building": REMOVED, "site.hottest": REMOVED, f"{INPUT}.start": REMOVED})
    assert found.verdict is Verdict.UNKNOWN
    assert len(found.find_out) == 3
