"""Surge protection of the supply by the international rules (IEC 60364-4-44 clause 443)."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule import rules
from ferrule.clauses.iec60364.supply_surge import RiskLevel
from ferrule.constraint import Constraint, Verdict
from ferrule.fact import Missing
from ferrule.working import Trace

BOOK = rules.load("iec-2024")
CLAUSE = RiskLevel()
HOUSE: dict[str, Any] = {
    "lightning": "none",
    "flashes_per_km2_year": 0.5,
    "surroundings": "urban",
    "overhead_m": 0.0,
    "cable_m": 0.0,
    "high_overhead_m": 0.0,
    "high_cable_m": 0.0,
}


def unprotected(**facts: Any) -> dict[str, Constraint]:
    return {c.name: c for c in CLAUSE.unprotected(BOOK, **{**HOUSE, **facts})}


def test_without_an_assessment_it_is_fitted() -> None:
    found = unprotected(surroundings=None, flashes_per_km2_year=None)
    assert found["risk_assessed"].verdict is Verdict.FAIL


def test_a_cable_in_town_may_go_without() -> None:
    """f_env 850 over 1 km of cable (weight 1) and 0.5 flashes: 1700."""
    found = unprotected(cable_m=1000)["risk_level"]
    assert found.value == pytest.approx(1700)
    assert found.verdict is Verdict.PASS


def test_what_is_not_known_of_the_last_kilometre_is_overhead() -> None:
    """850 / ((2 × 0.6 + 0.4) × 0.5) = 1062.5; nothing known at all: 850 / (2 × 0.5) = 850."""
    assert unprotected(cable_m=400)["risk_level"].value == pytest.approx(1062.5)
    found = unprotected()["risk_level"]
    assert found.value == pytest.approx(850)
    assert found.verdict is Verdict.FAIL


def test_the_country_is_ten_times_as_exposed() -> None:
    found = unprotected(surroundings="rural", cable_m=1000)["risk_level"]
    assert found.value == pytest.approx(170)
    assert found.verdict is Verdict.FAIL


def test_high_voltage_lines_weigh_less() -> None:
    """850 / ((0.4 × 0.5 + 0.2 × 0.5) × 0.5)."""
    found = unprotected(high_overhead_m=500, high_cable_m=500)["risk_level"]
    assert found.value == pytest.approx(850 / 0.15)


def test_the_limit_itself_needs_none() -> None:
    """Below 1000: 850 / (1 × 0.85) is the limit."""
    assert unprotected(cable_m=1000, flashes_per_km2_year=0.85)["risk_level"].verdict is Verdict.PASS
    assert unprotected(cable_m=1000, flashes_per_km2_year=0.851)["risk_level"].verdict is Verdict.FAIL


def test_without_lightning_there_is_no_risk() -> None:
    assert all(c.verdict is Verdict.PASS for c in unprotected(flashes_per_km2_year=0.0).values())


@pytest.mark.parametrize("lightning", ["separated", "bonded"])
def test_a_lightning_rod_always_asks_for_it(lightning: str) -> None:
    found = unprotected(lightning=lightning, cable_m=1000)
    assert found["no_lightning_protection"].verdict is Verdict.FAIL


@pytest.mark.parametrize(
    ("kind", "lightning", "verdict"),
    [
        ("2", "none", Verdict.PASS),
        ("1", "none", Verdict.PASS),
        ("2", "separated", Verdict.FAIL),
        ("1+2", "bonded", Verdict.PASS),
        ("1", "separated", Verdict.PASS),
    ],
)
def test_the_type_at_the_origin(kind: str, lightning: str, verdict: Verdict) -> None:
    assert CLAUSE.origin_type(BOOK, kind=kind, lightning=lightning).verdict is verdict


@pytest.mark.parametrize(
    ("voltage_v", "current_a", "verdicts"),
    [
        (253.0, 5000.0, [Verdict.PASS, Verdict.PASS]),  # 1.1 × 230 V
        (252.9, 4999.0, [Verdict.FAIL, Verdict.FAIL]),
    ],
)
def test_the_device(voltage_v: float, current_a: float, verdicts: list[Verdict]) -> None:
    found = CLAUSE.device(BOOK, earthing="TT", nominal_v=230, voltage_max_v=voltage_v, nominal_a=current_a)
    assert [c.verdict for c in found] == verdicts


def test_in_an_it_system_line_to_neutral_is_not_what_it_must_bear() -> None:
    with pytest.raises(Missing, match="IT system"):
        CLAUSE.least_v(Trace(BOOK), earthing="IT", nominal_v=230)


@pytest.mark.parametrize(("distance_m", "verdict"), [(10.0, Verdict.PASS), (10.1, Verdict.CAUTION)])
def test_one_device_reaches_so_far(distance_m: float, verdict: Verdict) -> None:
    assert CLAUSE.reach(BOOK, distance_m=distance_m).verdict is verdict


@given(st.floats(0, 1000), st.floats(0.01, 50), st.sampled_from(["rural", "suburban", "urban"]))
def test_more_cable_instead_of_overhead_line_never_raises_the_risk(
    cable_m: float, flashes: float, surroundings: str
) -> None:
    some, all_of_it = (
        unprotected(cable_m=m, flashes_per_km2_year=flashes, surroundings=surroundings)["risk_level"].value
        for m in (cable_m, 1000.0)
    )
    assert some is not None
    assert all_of_it is not None
    assert some <= all_of_it * (1 + 1e-9)
