"""What the main fuse bears, and the meter behind it."""

from typing import Any

import pytest

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from houses import REMOVED, answered, constraint, finding


def asked(edits: dict[str, Any], house: str = "meter-led") -> Finding:
    return finding(answered(edits, house), "supply.main_fuse", "supply/supply")


@pytest.mark.parametrize(("rating", "verdict"), [("32 A", Verdict.PASS), ("31 A", Verdict.FAIL)])
def test_what_is_fed_in_never_rests(rating: str, verdict: Verdict) -> None:
    """Two inverters of 16 A in each line."""
    edits = {"supply.main_fuse.rating": rating}
    found = constraint(asked(edits, "controller-led"), "fed_in")
    assert found.value == 32
    assert found.verdict is verdict


def test_everything_on_at_once_is_only_a_look() -> None:
    """2.3 kW more on a circuit of L1 are 10 A more from that line."""
    power = "boards.MB.circuits.C-kitchen.loads.0.power"
    less, more = (
        constraint(asked({power: watts}, "controller-led"), "drawn") for watts in ("2.5 kW", "4.8 kW")
    )
    assert (more.value or 0) - (less.value or 0) == pytest.approx(10)
    small = asked({"supply.main_fuse.rating": "25 A"}, "controller-led")
    assert constraint(small, "drawn").verdict is Verdict.CAUTION


@pytest.mark.parametrize(("demand", "verdict"), [("63 A", Verdict.PASS), ("64 A", Verdict.FAIL)])
def test_a_demand_that_somebody_reckoned_counts(demand: str, verdict: Verdict) -> None:
    found = constraint(asked({"supply.demand_max": demand}), "drawn")
    assert found.verdict is verdict


@pytest.mark.parametrize(
    ("edits", "verdict"),
    [
        ({"parts.example-meter-direct.current_max": "63 A"}, Verdict.PASS),
        ({"parts.example-meter-direct.current_max": "60 A"}, Verdict.FAIL),
        ({"parts.example-meter-direct.current_max": REMOVED}, Verdict.UNKNOWN),
        ({"parts.example-meter-direct.connection": REMOVED}, Verdict.UNKNOWN),
    ],
)
def test_a_direct_meter_carries_what_the_main_fuse_lets_through(
    edits: dict[str, Any], verdict: Verdict
) -> None:
    assert constraint(asked(edits), "meter").verdict is verdict


def test_a_meter_with_transformers_carries_nothing() -> None:
    found = asked({"parts.example-meter-direct.connection": "transformer"})
    assert "meter" not in {c.name for c in found.constraints}


def test_a_main_fuse_nobody_has_read() -> None:
    assert asked({"supply.main_fuse": REMOVED}).verdict is Verdict.UNKNOWN
