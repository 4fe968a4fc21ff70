"""Sound at a distance and of several sources."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.physics.sound import level_at_distance, level_of_equal, levels_together

levels = st.floats(0, 120)
distances = st.floats(1, 1_000)


@given(levels, distances, distances)
def test_further_away_is_never_louder(level: float, one: float, other: float) -> None:
    near, far = sorted((one, other))
    assert level_at_distance(level_dba=level, distance_m=far) <= level_at_distance(
        level_dba=level, distance_m=near
    )


@given(levels, levels)
def test_two_together_are_at_most_three_decibels_louder_than_the_louder(one: float, other: float) -> None:
    together = levels_together(one_dba=one, other_dba=other)
    assert max(one, other) <= together <= max(one, other) + 10 * math.log10(2) + 1e-9
    assert together == pytest.approx(levels_together(one_dba=other, other_dba=one))


@given(levels)
def test_two_equal_ones_by_either_way(level: float) -> None:
    assert level_of_equal(level_dba=level, count=2) == pytest.approx(
        levels_together(one_dba=level, other_dba=level)
    )


def test_nearer_than_a_metre_the_sheet_stands() -> None:
    assert level_at_distance(level_dba=42, distance_m=0.2) == 42


def test_less_than_nothing_is_not_heard() -> None:
    assert level_at_distance(level_dba=20, distance_m=100) == 0
