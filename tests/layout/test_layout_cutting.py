"""Pieces on the lengths one can buy, against every way there is to cut them."""

from functools import cache
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ferrule.layout.cutting import Piece, Plan, Stock, Uncuttable, cut
from ferrule.layout.cutting_bound import Kind, bound, filled

DRUM = Stock("drum", 100_000)
COIL = Stock("coil", 25_000)


def plan(*lengths_m: float, stock: tuple[Stock, ...] = (DRUM,), kerf_mm: float = 0) -> Plan:
    pieces = [Piece(f"W{at}", 1000 * length_m) for at, length_m in enumerate(lengths_m)]
    return cut(pieces, stock, kerf_mm=kerf_mm)


def test_the_shorter_coil_where_it_is_enough() -> None:
    found = plan(12, 12, stock=(DRUM, COIL))
    assert [(each.stock, each.pieces, each.left_mm) for each in found.cuts] == [("coil", ("W0", "W1"), 1000)]
    assert (found.bought_mm, found.least_bought_mm, found.proved) == (25_000, 25_000, True)


def test_one_drum_before_four_coils() -> None:
    assert [each.stock for each in plan(25, 25, 25, 25, stock=(DRUM, COIL)).cuts] == ["drum"]


def test_what_is_in_the_van_comes_first() -> None:
    rest = Stock("rest", 13_000, limit=1, bought=False)
    found = plan(12, 14, stock=(COIL, rest))
    assert [(each.stock, each.bought) for each in found.cuts] == [("rest", False), ("coil", True)]
    assert plan(12, 12, stock=(Stock("rest", 13_000, 2, bought=False),)).bought_mm == 0


def test_a_rest_that_saves_nothing_stays_whole() -> None:
    rest = Stock("rest", 5_000, limit=1, bought=False)
    assert [each.stock for each in plan(5, 20, stock=(COIL, rest)).cuts] == ["coil"]


def test_each_cut_takes_its_kerf() -> None:
    bar = Stock("bar", 6_000)
    assert len(plan(3, 3, stock=(bar,), kerf_mm=0).cuts) == 1
    assert len(plan(3, 3, stock=(bar,), kerf_mm=3).cuts) == 2
    (only,) = plan(2.998, 2.999, stock=(bar,), kerf_mm=3).cuts
    assert only.left_mm == 0
    (only,) = plan(2, 2, stock=(bar,), kerf_mm=3).cuts
    assert only.left_mm == 1994


def test_a_residue_of_arithmetic_is_no_millimetre() -> None:
    assert 12.35 * 1000 + 12.65 * 1000 <= 25_000.000001
    assert len(plan(12.35, 12.65, stock=(COIL,)).cuts) == 1


def test_the_longest_is_cut_first() -> None:
    assert plan(3, 9, 5).cuts[0].pieces == ("W1", "W2", "W0")


def test_nothing_to_cut() -> None:
    assert plan() == Plan((), 0, 0)


@pytest.mark.parametrize(
    ("lengths_m", "stock", "told"),
    [
        ([3, 101], (DRUM, COIL), r"W1 of 101 m is longer than every length there is \(at most 100 m\)"),
        ([3], (), "W0 of 3 m is longer than every length there is"),
        ([3], (DRUM._replace(limit=0),), "W0 of 3 m is longer than every length there is"),
        ([60, 60], (DRUM._replace(limit=1),), "not enough to cut all pieces from, of which W0 of 60 m"),
        ([float("nan")], (DRUM,), "W0: 1 pieces of nan mm cannot be cut"),
        ([0], (DRUM,), "W0: 1 pieces of 0 mm cannot be cut"),
        ([1], (Stock("rest", 9_000, bought=False),), "rest: say how many of them are there already"),
        ([1], (Stock("rest", float("inf")),), "rest: a length of inf mm cannot be cut from"),
    ],
)  # fmt: skip
def test_what_cannot_be_cut(lengths_m: list[float], stock: tuple[Stock, ...], told: str) -> None:
    with pytest.raises(Uncuttable, match=told):
        plan(*lengths_m, stock=stock)


def test_a_negative_kerf_is_none() -> None:
    with pytest.raises(Uncuttable, match="a cut of -1 mm is none"):
        plan(1, kerf_mm=-1)


LENGTHS = st.lists(st.integers(1, 40), min_size=1, max_size=7)
STOCK = st.lists(
    st.builds(Stock, st.just("s"), st.integers(20, 60), st.none() | st.integers(1, 3), st.just(True)),
    min_size=1,
    max_size=3,
)
RESTS = st.lists(st.builds(Stock, st.just("r"), st.integers(5, 45), st.just(1), st.just(False)), max_size=2)


def exhaustive(lengths: tuple[int, ...], stock: tuple[Stock, ...], kerf: int) -> tuple[float, float] | None:
    """The best (bought, number of lengths) of all ways to share the pieces out, by subsets."""

    @cache
    def best(left: frozenset[int], used: tuple[int, ...]) -> tuple[float, float] | None:
        if not left:
            return (0, 0)
        first, *others = sorted(left)
        found = []
        for at, each in enumerate(stock):
            if each.limit is not None and used[at] >= each.limit:
                continue
            for size in range(len(others) + 1):
                for chosen in combinations(others, size):
                    taken = (first, *chosen)
                    if sum(lengths[i] for i in taken) + kerf * size <= each.length_mm:
                        after = best(left - set(taken), (*used[:at], used[at] + 1, *used[at + 1 :]))
                        if after:
                            found.append((after[0] + each.length_mm * each.bought, after[1] + 1))
        return min(found, default=None)

    return best(frozenset(range(len(lengths))), (0,) * len(stock))


@settings(deadline=None)
@given(LENGTHS, STOCK, RESTS, st.integers(0, 2))
def test_no_other_way_is_better(
    lengths: list[int], bought: list[Stock], rests: list[Stock], kerf: int
) -> None:
    stock = [each._replace(name=f"{each.name}{at}") for at, each in enumerate(bought + rests)]
    best = exhaustive(tuple(lengths), tuple(stock), kerf)
    pieces = [Piece(str(at), length) for at, length in enumerate(lengths)]
    if best is None:
        with pytest.raises(Uncuttable):
            cut(pieces, stock, kerf_mm=kerf)
        return
    found = cut(pieces, stock, kerf_mm=kerf)
    assert (found.bought_mm, len(found.cuts)) == best
    assert found.least_bought_mm == found.bought_mm
    assert found.proved


@settings(deadline=None, max_examples=50)
@given(st.lists(st.integers(1, 60), min_size=1, max_size=25), RESTS, st.integers(0, 2))
def test_a_plan_is_whole(lengths: list[int], rests: list[Stock], kerf: int) -> None:
    """Every piece once, no length overfull or used too often, nothing below the bound; twice the same."""
    stock = [Stock("a", 60), Stock("b", 85), *(each._replace(name=f"r{at}") for at, each in enumerate(rests))]
    pieces = [Piece(str(at), length) for at, length in enumerate(lengths)]
    found = cut(pieces, stock, kerf_mm=kerf)
    assert sorted(name for each in found.cuts for name in each.pieces) == sorted(
        piece.name for piece in pieces
    )
    for each in found.cuts:
        used = sum(lengths[int(name)] for name in each.pieces) + kerf * (len(each.pieces) - 1)
        assert used <= each.length_mm == next(one.length_mm for one in stock if one.name == each.stock)
    for at in range(len(rests)):
        assert sum(each.stock == f"r{at}" for each in found.cuts) <= 1
    free = sum(each.length_mm + kerf for each in rests)
    by_weight = max(sum(lengths) + kerf * len(lengths) - free, 0) * 60 / (60 + kerf)
    assert by_weight <= found.least_bought_mm + 1e-6
    assert found.least_bought_mm <= found.bought_mm
    assert found == cut(pieces, stock, kerf_mm=kerf)


@settings(deadline=None, max_examples=50)
@given(st.lists(st.integers(1, 60), min_size=2, max_size=12))
def test_one_piece_more_never_takes_less(lengths: list[int]) -> None:
    stock = [Stock("a", 60), Stock("b", 85)]
    all_but_last, all_of_them = (
        cut([Piece("p", length) for length in some], stock, kerf_mm=1) for some in (lengths[:-1], lengths)
    )
    assert all_but_last.bought_mm <= all_of_them.bought_mm


@given(st.lists(st.tuples(st.floats(0, 9), st.integers(1, 9), st.integers(1, 3)), min_size=1, max_size=4),
       st.integers(1, 30))  # fmt: skip
def test_the_fullest_length(given: list[tuple[float, int, int]], room: int) -> None:
    worth, sizes, most = ([each[at] for each in given] for at in range(3))
    best, pattern = filled(worth, [int(size) for size in sizes], [int(each) for each in most], room)

    @cache
    def reached(at: int, left: int) -> float:
        if at == len(sizes):
            return 0.0
        return max(n * worth[at] + reached(at + 1, left - n * int(sizes[at]))
                   for n in range(min(int(most[at]), left // int(sizes[at])) + 1))  # fmt: skip

    assert best == pytest.approx(reached(0, room))
    assert sum(n * size for n, size in zip(pattern, sizes, strict=True)) <= room
    assert sum(n * each for n, each in zip(pattern, worth, strict=True)) == pytest.approx(best)


def test_pieces_longer_than_half_take_a_length_each() -> None:
    """By weight alone 4 would do."""
    found = bound([51], [6], [Kind(100, 100, None)], enough=float("inf"))
    assert found.cost == pytest.approx(600)
    assert found.whole == ((0, (1,)),) * 6


def test_a_search_that_stops_claims_no_more_than_the_bound() -> None:
    """Forty pieces of forty lengths out of bars of five odd ones are more than is tried."""
    pieces = [Piece(str(at), 311 + 83 * at) for at in range(40)]
    stock = [Stock(str(length), length) for length in (2133, 3157, 3611, 4411, 6223)]
    found = cut(pieces, stock, kerf_mm=3)
    assert sum(piece.length_mm for piece in pieces) <= found.least_bought_mm <= found.bought_mm
    assert found.bought_mm < 1.02 * found.least_bought_mm
