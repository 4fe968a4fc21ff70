"""Voltage drop and rise by the international rules (IEC 60364-5-52:2009 annex G)."""

import math
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule import rules
from ferrule.clauses.iec60364.voltage_change import AnnexG
from ferrule.quantity import Size
from ferrule.working import Trace

BOOK = rules.load("iec-2024")
CLAUSE = AnnexG()
SIZES = ("1.5", "2.5", "4", "6", "10", "16", "25", "35", "50", "70", "95", "120")

lengths_m = st.floats(0.1, 500)
currents_a = st.floats(0.1, 200)
factors = st.floats(0.1, 1) | st.none()


def drop_v(
    size: str,
    *,
    length_m: float = 20,
    balanced_a: float = 0.0,
    single_a: float = 0.0,
    cos_phi: float | None = 1.0,
    metal: str = "cu",
) -> float:
    return CLAUSE.drop_v(
        Trace(BOOK),
        length_m=length_m,
        size=Size("mm²", size),
        metal=metal,
        balanced_a=balanced_a,
        single_a=single_a,
        cos_phi=cos_phi,
    )


def test_out_by_the_line_and_back_by_the_neutral() -> None:
    """2 × 0.0225 × 20 / 2.5 × 16 V."""
    assert drop_v("2.5", single_a=16) == pytest.approx(5.76)


def test_three_lines_alike_lose_half_as_much_to_the_neutral() -> None:
    """0.0225 × 20 / 2.5 × 16 V."""
    assert drop_v("2.5", balanced_a=16) == pytest.approx(2.88)


def test_what_is_balanced_and_what_is_not_add_up() -> None:
    assert drop_v("2.5", balanced_a=10, single_a=6) == pytest.approx(
        drop_v("2.5", balanced_a=10) + drop_v("2.5", single_a=6)
    )


def test_a_lagging_current_meets_the_reactance_too() -> None:
    """2 × 0.04 × (0.0225 × 1000 / 35 × 0.8 + 0.08 × 0.6) × 50 V."""
    assert drop_v("35", length_m=40, single_a=50, cos_phi=0.8) == pytest.approx(
        2 * 0.04 * (22.5 / 35 * 0.8 + 0.08 * 0.6) * 50
    )


def test_aluminium_loses_more() -> None:
    """0.036 against 0.0225."""
    assert drop_v("16", single_a=10, metal="al") == pytest.approx(1.6 * drop_v("16", single_a=10))


@given(st.sampled_from(SIZES), currents_a, st.floats(0, 1))
def test_a_power_factor_nobody_knows_is_the_worst_one(size: str, current_a: float, cos_phi: float) -> None:
    worst_v = drop_v(size, single_a=current_a, cos_phi=None)
    assert worst_v >= drop_v(size, single_a=current_a, cos_phi=cos_phi) * (1 - 1e-12)
    assert worst_v == pytest.approx(2 * 0.02 * math.hypot(22.5 / float(size), 0.08) * current_a)


@given(st.sampled_from(range(len(SIZES) - 1)), lengths_m, currents_a, currents_a, factors)
def test_a_thicker_conductor_never_loses_more(
    at: int, length_m: float, balanced_a: float, single_a: float, cos_phi: float | None
) -> None:
    thin, thick = (
        drop_v(size, length_m=length_m, balanced_a=balanced_a, single_a=single_a, cos_phi=cos_phi)
        for size in SIZES[at : at + 2]
    )
    assert thick < thin


@given(lengths_m, st.floats(0.1, 0.99), currents_a, factors)
def test_a_shorter_run_never_loses_more(
    length_m: float, share: float, current_a: float, cos_phi: float | None
) -> None:
    whole = drop_v("6", length_m=length_m, single_a=current_a, cos_phi=cos_phi)
    part = drop_v("6", length_m=share * length_m, single_a=current_a, cos_phi=cos_phi)
    assert part < whole
    assert part == pytest.approx(share * whole)


@given(st.sampled_from(SIZES), lengths_m, currents_a, currents_a)
def test_a_rise_is_the_drop_of_the_same_active_current(
    size: str, length_m: float, balanced_a: float, single_a: float
) -> None:
    rise_v = CLAUSE.rise_v(
        Trace(BOOK), length_m=length_m, size=Size("mm²", size), metal="cu",
        balanced_a=balanced_a, single_a=single_a,
    )  # fmt: skip
    assert rise_v == drop_v(size, length_m=length_m, balanced_a=balanced_a, single_a=single_a, cos_phi=1)


@pytest.mark.parametrize(
    ("supply", "lighting", "limit_pct"),
    [("public", True, 3), ("public", False, 5), ("private", True, 6), ("private", False, 8)],
)
def test_the_limits_of_table_g_52_1(
    supply: Literal["public", "private"], lighting: bool, limit_pct: float
) -> None:
    assert limit(supply, lighting, 100) == limit_pct


@pytest.mark.parametrize(("main_m", "limit_pct"), [(101, 5.005), (150, 5.25), (200, 5.5), (400, 5.5)])
def test_long_main_runs_may_lose_a_little_more(main_m: float, limit_pct: float) -> None:
    """0.005 % for each metre beyond 100 m, 0.5 % at most."""
    assert limit("public", False, main_m) == pytest.approx(limit_pct)


def limit(supply: Literal["public", "private"], lighting: bool, main_m: float) -> float:
    return CLAUSE.drop_limit_pct(Trace(BOOK), supply=supply, lighting=lighting, main_m=main_m)


def test_the_limits_of_a_rise() -> None:
    """1 % by practice; 2 % (AS/NZS 4777.1) is the strictest of the national ceilings."""
    assert CLAUSE.rise_should_pct(Trace(BOOK)) == 1
    assert CLAUSE.rise_ceiling_pct(Trace(BOOK)) == 2


def test_a_public_network_may_reach_253_v() -> None:
    """EN 50160: 230 V and a tenth."""
    assert CLAUSE.tolerated_v(Trace(BOOK), nominal_v=230) == pytest.approx(253)
