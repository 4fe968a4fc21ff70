"""Residual current devices by the international rules."""

from itertools import product

import pytest

from ferrule import rules
from ferrule.clauses.iec60364.residual_current import TypeByWaveform
from ferrule.constraint import Verdict
from ferrule.working import Trace

BOOK = rules.load("iec-2024")
CLAUSE = TypeByWaveform()


@pytest.mark.parametrize(
    ("separated", "excluded", "wanted"),
    [(False, False, "B"), (False, True, "A"), (True, False, "A"), (True, True, "A")],
)
def test_before_an_inverter(separated: bool, excluded: bool, wanted: str) -> None:
    """IEC 60364-7-712 clause 712.531.3.5.1: type B, but for windings or the maker's word."""
    assert CLAUSE.inverter_type(Trace(BOOK), separated=separated, smooth_dc_excluded=excluded) == wanted


@pytest.mark.parametrize(
    ("kinds", "excluded", "wanted"),
    [
        ({"resistive"}, True, "AC"),
        ({"sockets"}, True, "A"),
        ({"lighting"}, True, "A"),
        ({"resistive", "electronic"}, True, "A"),
        ({"motor"}, True, "A"),
        ({"charger"}, True, "A"),
        ({"charger", "sockets"}, False, "B"),
    ],
)
def test_before_loads(kinds: set[str], excluded: bool, wanted: str) -> None:
    assert CLAUSE.load_type(Trace(BOOK), kinds=kinds, smooth_dc_excluded=excluded) == wanted


def test_smooth_direct_current_must_be_seen_all_the_way_up() -> None:
    assert CLAUSE.upstream_type(Trace(BOOK), wanted="B") == "B"
    assert CLAUSE.upstream_type(Trace(BOOK), wanted="A") == "A"


def test_each_type_covers_those_before_it() -> None:
    order = ["AC", "A", "F", "B"]
    for one, other in product(order, order):
        assert CLAUSE.strictest(BOOK, {one, other}) == max(one, other, key=order.index)


@pytest.mark.parametrize(
    ("kinds", "rating_a", "dwelling", "limit_a"),
    [
        ({"sockets"}, 32, False, 0.03),
        ({"sockets"}, 40, True, None),  # beyond the 32 A of 411.3.3
        ({"lighting"}, 10, True, 0.03),
        ({"lighting"}, 10, False, None),
        ({"charger"}, 63, False, 0.03),
        ({"resistive", "motor", "electronic"}, 16, True, None),
    ],
)
def test_additional_protection(
    kinds: set[str], rating_a: float, dwelling: bool, limit_a: float | None
) -> None:
    assert CLAUSE.additional_a(Trace(BOOK), kinds=kinds, rating_a=rating_a, dwelling=dwelling) == limit_a


@pytest.mark.parametrize(
    ("earthing", "position", "required"),
    [("TT", "grid", True), ("TT", "bypass", True), ("TN-S", "grid", False), ("TN-S", "island", True)],
)
def test_where_every_circuit_needs_one(earthing: str, position: str, required: bool) -> None:
    assert CLAUSE.required(Trace(BOOK), earthing=earthing, position=position) is required


@pytest.mark.parametrize(
    ("leakage_a", "verdicts"),
    [
        (0.009, (Verdict.PASS, Verdict.PASS)),  # 30 % of 30 mA
        (0.0091, (Verdict.PASS, Verdict.CAUTION)),
        (0.015, (Verdict.PASS, Verdict.CAUTION)),  # half of it: it may not trip yet
        (0.0151, (Verdict.FAIL, Verdict.CAUTION)),
    ],
)
def test_leakage_in_normal_service(leakage_a: float, verdicts: tuple[Verdict, Verdict]) -> None:
    found = tuple(c.verdict for c in CLAUSE.leakage(BOOK, leakage_a=leakage_a, residual_a=0.03))
    assert found == verdicts


@pytest.mark.parametrize(
    ("upstream_a", "delayed", "good"),
    [(0.3, True, True), (0.09, True, True), (0.0899, True, False), (0.3, False, False)],
)
def test_selective_is_delayed_and_three_times_as_large(upstream_a: float, delayed: bool, good: bool) -> None:
    found = CLAUSE.selective(BOOK, upstream_a=upstream_a, delayed=delayed, residual_a=0.03)
    assert found.verdict is (Verdict.PASS if good else Verdict.CAUTION)


def test_what_is_on_offer() -> None:
    """Type AC is not offered; leakage decides behind a board, people where they use what hangs on it."""
    assert CLAUSE.types(BOOK) == ("A", "F", "B")
    assert CLAUSE.residuals_a(BOOK, final=True) == (0.03,)
    assert CLAUSE.residuals_a(BOOK, final=False) == (0.3, 0.1, 0.03)
