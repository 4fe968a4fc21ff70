"""Electrodes, residual current devices, breakers and bonding against printed tables."""

import pytest

from ferrule import rules
from ferrule.clauses.iec60364.bonding import HalfTheProtective
from ferrule.clauses.iec60364.earthing import OwnElectrode
from ferrule.clauses.iec60364.island_fault import LimitedSource
from ferrule.clauses.values import Device
from ferrule.constraint import Verdict
from ferrule.quantity import Size
from ferrule.working import Trace

BOOK = rules.load("iec-2024")


@pytest.mark.parametrize(("residual_a", "printed_ohm"), [(0.03, 1667), (0.1, 500), (0.3, 167), (0.5, 100)])
def test_the_largest_electrode_for_a_residual_current_device(residual_a: float, printed_ohm: int) -> None:
    """BS 7671:2018 table 41.5, where 50 V over the rated current is rounded to whole ohms."""

    def verdict(electrode_ohm: float) -> Verdict:
        (found,) = OwnElectrode().touch_voltage(BOOK, electrode_ohm=electrode_ohm, residual_a=residual_a)
        return found.verdict

    assert verdict(printed_ohm - 0.5) is Verdict.PASS
    assert verdict(printed_ohm + 0.5) is Verdict.FAIL


@pytest.mark.parametrize(
    ("curve", "rating_a", "loop_ohm"),
    [("B", 6, 7.28), ("B", 16, 2.73), ("B", 32, 1.37), ("C", 6, 3.64), ("C", 16, 1.37), ("D", 6, 1.82)],
)
def test_the_current_that_trips_a_breaker_from_the_printed_loops(
    curve: str, rating_a: float, loop_ohm: float
) -> None:
    """BS 7671:2018 table 41.3: largest loop = 0.95 × 230 V over the current that trips at once."""
    trip_a = LimitedSource().trips_at_a(Trace(BOOK), device=Device("mcb", rating_a, curve), lasts_s=0.1)
    assert trip_a is not None
    assert 0.95 * 230 / trip_a == pytest.approx(loop_ohm, abs=0.005)


@pytest.mark.parametrize(
    ("protective", "printed"),
    [("10", "6"), ("16", "10"), ("25", "16"), ("35", "25"), ("50", "25"), ("95", "25")],
)
def test_main_bonding_by_the_largest_protective_conductor(protective: str, printed: str) -> None:
    """DIN VDE 0100-540:2012 clause 544.1 as tables for the trade print it, in sizes that are made."""
    clause = HalfTheProtective()

    def passes(size: Size) -> bool:
        (found,) = clause.main(BOOK, size=size, largest_protective=Size.parse(f"{protective} mm²"))
        return found.verdict is Verdict.PASS

    assert str(next(size for size in clause.sizes(BOOK) if passes(size))) == f"{printed} mm²"
