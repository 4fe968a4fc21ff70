"""What is cut, bought and carried, by the clause alone."""

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule import rules
from ferrule.clauses import bind
from ferrule.clauses.handwork.buying import TradeCounts
from ferrule.grade import Grade
from ferrule.working import NotPrinted

CODE = bind(rules.load("iec-2024"))
BUYING = TradeCounts()
ENDS = st.lists(st.sampled_from(["board", "device", "enclosure", "roof", "elsewhere"]), max_size=2)


def ask(name: str, **given: Any) -> Any:
    return getattr(BUYING, name)(CODE.trace(), **given)


def test_every_family_has_it() -> None:
    for edition in rules.editions():
        assert isinstance(bind(rules.load(edition)).procedures.buying, TradeCounts)


def test_a_cut_is_its_route_with_its_stretches_and_ends() -> None:
    assert ask("cut_m", route_m=12, stretches=2, ends=["board", "device"]) == 14.0
    assert ask("cut_m", route_m=0.15, stretches=1, ends=["device", "enclosure"]) == 1.4


@given(route_m=st.floats(0, 500), stretches=st.integers(1, 9), ends=ENDS)
def test_a_cut_is_never_short_and_no_step_too_long(route_m: float, stretches: int, ends: list[str]) -> None:
    allowed_m = {"board": 1.0, "device": 0.6, "enclosure": 0.4, "roof": 0.5, "elsewhere": 0.3}
    needed_m = route_m + 0.2 * stretches + sum(allowed_m[end] for end in ends)
    cut_m = ask("cut_m", route_m=route_m, stretches=stretches, ends=ends)
    assert needed_m - 1e-6 <= cut_m < needed_m + 0.1 + 1e-6
    assert math.isclose(cut_m * 10, round(cut_m * 10), abs_tol=1e-9)


@pytest.mark.parametrize(("count", "spares"), [(0, 0), (1, 2), (20, 2), (21, 3), (30, 3), (31, 4)])
def test_a_tenth_more_of_small_parts_and_two_at_least(count: int, spares: int) -> None:
    assert ask("spares", count=count) == spares


@given(few=st.integers(0, 10_000), more=st.integers(0, 10_000))
def test_who_needs_more_never_buys_less(few: int, more: int) -> None:
    low, high = sorted((few, more))
    assert low + ask("spares", count=low) <= high + ask("spares", count=high)


def test_the_next_longer_patch_cable_is_taken() -> None:
    assert [ask("patch_m", needed_m=m) for m in (0.4, 3.0, 3.1, 50)] == [0.5, 3.0, 5.0, 50.0]
    with pytest.raises(NotPrinted, match=r"a patch cable of 50\.1 m"):
        ask("patch_m", needed_m=50.1)


def test_thick_cable_is_sold_by_the_metre() -> None:
    assert [ask("by_metre", area_mm2=area) for area in (6, 10, 16)] == [False, True, True]


def test_nothing_of_it_was_seen_printed() -> None:
    trace = CODE.trace()
    BUYING.cut_m(trace, route_m=1, stretches=1, ends=["board"])
    assert {read.grade for read in trace.reads()} == {Grade.MEMORY}
