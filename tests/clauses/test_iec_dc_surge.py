"""Surge protection of an array's lines by the international rules."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule import rules
from ferrule.clauses.iec60364.dc_surge import CriticalLength
from ferrule.constraint import Constraint, Verdict

BOOK = rules.load("iec-2024")
CLAUSE = CriticalLength()


def unprotected(
    route_m: float, flashes: float, *, building: str = "dwelling", lightning: str = "none"
) -> dict[str, Constraint]:
    found = CLAUSE.unprotected(
        BOOK, route_m=route_m, flashes_per_km2_year=flashes, building=building, lightning=lightning
    )
    return {constraint.name: constraint for constraint in found}


def protected(
    kind: str = "2",
    *,
    nominal_a: float = 5000.0,
    places: str = "inverter",
    farthest_m: float = 8.0,
    lightning: str = "none",
) -> dict[str, Constraint]:
    found = CLAUSE.protected(
        BOOK, kind=kind, nominal_a=nominal_a, places=places, farthest_m=farthest_m, lightning=lightning
    )
    return {constraint.name: constraint for constraint in found}


@pytest.mark.parametrize(
    ("building", "flashes", "critical_m"),
    [("dwelling", 2.3, 50.0), ("ground", 2.5, 80.0), ("other", 4.5, 100.0)],
)
def test_from_the_critical_length_on_protection_is_needed(
    building: str, flashes: float, critical_m: float
) -> None:
    """115, 200 and 450 over the flash density; at the length itself it is needed."""
    for route_m, verdict in ((critical_m - 0.1, Verdict.PASS), (critical_m, Verdict.FAIL)):
        found = unprotected(route_m, flashes, building=building)["critical_length"]
        assert found.limit == pytest.approx(critical_m)
        assert found.verdict is verdict


def test_a_place_without_lightning_needs_none() -> None:
    found = unprotected(500, 0)
    assert {constraint.verdict for constraint in found.values()} == {Verdict.PASS}


@pytest.mark.parametrize(
    ("lightning", "verdict"),
    [("none", Verdict.PASS), ("separated", Verdict.FAIL), ("bonded", Verdict.FAIL)],
)
def test_a_lightning_protection_system_needs_it_whatever_the_length(lightning: str, verdict: Verdict) -> None:
    assert unprotected(1, 0.5, lightning=lightning)["no_lightning_protection"].verdict is verdict


@pytest.mark.parametrize(
    ("lightning", "kind", "verdict"),
    [
        ("none", "2", Verdict.PASS),
        ("none", "1", Verdict.FAIL),
        ("separated", "2", Verdict.PASS),
        ("separated", "1+2", Verdict.PASS),
        ("bonded", "2", Verdict.FAIL),
        ("bonded", "1", Verdict.PASS),
        ("bonded", "1+2", Verdict.PASS),
    ],
)
def test_type_by_lightning_protection(lightning: str, kind: str, verdict: Verdict) -> None:
    assert protected(kind, lightning=lightning)["surge_type"].verdict is verdict


@pytest.mark.parametrize(("nominal_a", "verdict"), [(5000.0, Verdict.PASS), (4999.0, Verdict.FAIL)])
def test_nominal_current(nominal_a: float, verdict: Verdict) -> None:
    assert protected(nominal_a=nominal_a)["surge_current"].verdict is verdict


def test_more_than_ten_metres_want_a_device_at_each_end() -> None:
    assert protected(farthest_m=10)["surge_places"].verdict is Verdict.PASS
    assert protected(farthest_m=10.1)["surge_places"].verdict is Verdict.FAIL
    assert "surge_places" not in protected(farthest_m=40, places="both-ends")


@given(route_m=st.floats(0.1, 500), flashes=st.floats(0.1, 20), longer=st.floats(1, 3), more=st.floats(1, 3))
def test_longer_cables_or_more_lightning_never_need_less(
    route_m: float, flashes: float, longer: float, more: float
) -> None:
    before = unprotected(route_m, flashes)["critical_length"].verdict
    assert unprotected(route_m * longer, flashes)["critical_length"].verdict >= before
    assert unprotected(route_m, flashes * more)["critical_length"].verdict >= before
