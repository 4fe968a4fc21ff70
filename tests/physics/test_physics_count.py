"""Counts from a division: rounded to the safe side, and not fooled by the last bit of a float."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.physics.count import TOLERANCE, count_at_least, count_at_most, count_below


def test_the_largest_count_is_rounded_down_and_the_least_up() -> None:
    assert count_at_most(limit=600, each=49) == 12
    assert count_below(limit=600, each=49) == 12
    assert count_at_least(needed=120, each=33) == 4


def test_reaching_the_limit_is_allowed_only_where_it_may_be_reached() -> None:
    assert count_at_most(limit=600, each=50) == 12
    assert count_below(limit=600, each=50) == 11
    assert count_at_least(needed=600, each=50) == 12


@pytest.mark.parametrize(
    ("total", "each", "exactly"), [(4.5, 0.3, 15), (0.7, 0.1, 7), (1.1, 0.1, 11), (900, 60, 15)]
)
def test_the_last_bit_of_a_quotient_counts_for_nothing(total: float, each: float, exactly: int) -> None:
    for nudged in (total, total * (1 + 2**-52), total * (1 - 2**-52)):
        assert count_at_most(limit=nudged, each=each) == exactly
        assert count_at_least(needed=nudged, each=each) == exactly
        assert count_below(limit=nudged, each=each) == exactly - 1


@given(each=st.floats(0.1, 1_000), limit=st.floats(0, 100_000))
def test_one_more_would_be_too_many(each: float, limit: float) -> None:
    count = count_at_most(limit=limit, each=each)
    slack = TOLERANCE * each * 2
    assert count * each <= limit + slack
    assert (count + 1) * each > limit - slack


@given(each=st.floats(0.1, 1_000), limit=st.floats(0, 100_000))
def test_below_is_within_or_one_less(each: float, limit: float) -> None:
    assert count_at_most(limit=limit, each=each) - count_below(limit=limit, each=each) in {0, 1}


@given(each=st.floats(0.1, 1_000), needed=st.floats(0, 100_000))
def test_one_less_would_be_too_few(each: float, needed: float) -> None:
    count = count_at_least(needed=needed, each=each)
    assert count * each >= needed - TOLERANCE * each * 2
    assert count == 0 or (count - 1) * each < needed


def test_a_limit_that_none_fits_gives_none() -> None:
    assert count_below(limit=0, each=50) == 0
    assert count_at_most(limit=40, each=50) == 0


def test_nothing_to_count_is_an_error() -> None:
    with pytest.raises(ZeroDivisionError):
        count_at_most(limit=600, each=0)
