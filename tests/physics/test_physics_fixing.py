"""Fixings: equilibrium, directions that never turn round, and the edges of the formulas."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.physics import fixing

heights = st.lists(st.floats(20, 900), min_size=1, max_size=8)
places = st.lists(st.tuples(st.floats(-400, 400), st.floats(-400, 400)), min_size=2, max_size=8)


def test_an_inverter_on_two_rows() -> None:
    """35 kg, 150 mm off the wall, two fixings 50 mm and two 350 mm above the edge; by hand."""
    weight_n = fixing.weight(mass_kg=35)
    squares_mm2 = 2 * (50**2 + 350**2)
    pull_n = fixing.pull_by_prying(weight_n=weight_n, out_mm=150, height_mm=350, squares_mm2=squares_mm2)
    assert round(weight_n) == 343
    assert round(fixing.shear_share(weight_n=weight_n, count=4)) == 86
    assert round(pull_n) == 72


@given(heights, st.floats(1, 200), st.floats(10, 500))
def test_pulls_balance_the_moment_about_the_edge(
    heights_mm: list[float], mass_kg: float, out_mm: float
) -> None:
    weight_n = fixing.weight(mass_kg=mass_kg)
    squares_mm2 = sum(each**2 for each in heights_mm)
    pulls_n = [
        fixing.pull_by_prying(weight_n=weight_n, out_mm=out_mm, height_mm=each, squares_mm2=squares_mm2)
        for each in heights_mm
    ]
    balance = sum(pull_n * each for pull_n, each in zip(pulls_n, heights_mm, strict=True))
    assert balance == pytest.approx(weight_n * out_mm)


@given(heights, st.floats(1, 200))
def test_a_pattern_set_higher_pulls_less(heights_mm: list[float], higher_mm: float) -> None:
    def most_n(of: list[float]) -> float:
        return fixing.pull_by_prying(
            weight_n=300, out_mm=100, height_mm=max(of), squares_mm2=sum(each**2 for each in of)
        )

    assert most_n([each + higher_mm for each in heights_mm]) < most_n(heights_mm)


@given(places, st.floats(-300, 300))
def test_shears_balance_weight_and_turning_moment(holes: list[tuple[float, float]], aside_mm: float) -> None:
    x_mm, y_mm = (sum(hole[axis] for hole in holes) / len(holes) for axis in (0, 1))
    around = [(x - x_mm, y - y_mm) for x, y in holes]
    squares_mm2 = sum(x**2 + y**2 for x, y in around)
    if squares_mm2 < 1:
        return
    turned = [(aside_mm * x / squares_mm2, aside_mm * y / squares_mm2) for x, y in around]
    for (x, y), (down, across) in zip(around, turned, strict=True):
        shear_n = fixing.shear_aside(
            share_n=1000 / len(holes), weight_n=1000, aside_mm=aside_mm, x_mm=x, y_mm=y,
            squares_mm2=squares_mm2,
        )  # fmt: skip
        assert shear_n == pytest.approx(math.hypot(1000 / len(holes) + 1000 * down, 1000 * across))
    assert sum(down for down, _ in turned) == pytest.approx(0, abs=1e-6)
    moment = sum(down * x + across * y for (x, y), (down, across) in zip(around, turned, strict=True))
    assert moment == pytest.approx(aside_mm, abs=1e-6)


def test_about_the_centroid_the_lower_fixings_are_pressed() -> None:
    pulls_n = [
        fixing.pull_about_centroid(
            pull_n=400, count=4, moment_n=1000, arm_mm=100, distance_mm=distance_mm, squares_mm2=40_000
        )
        for distance_mm in (100, -100)
    ]
    assert pulls_n == [350, -150]


@pytest.mark.parametrize(
    ("exponent", "sum_used"), [(1, 1.0), (1.5, 2 * 0.5**1.5), (2, 0.5)], ids=["added", "concrete", "steel"]
)
def test_half_and_half_together(exponent: float, sum_used: float) -> None:
    assert fixing.together(tension=0.5, shear=0.5, exponent=exponent) == pytest.approx(sum_used)


@given(st.floats(0, 400), st.floats(0, 400))
def test_near_edges_never_more_than_the_area_method_allows(edge_mm: float, spacing_mm: float) -> None:
    """A pair of anchors by the area of its cone (EN 1992-4 clause 7.2.1.4): (1 + s/s_cr)/2 each, at an edge
    (0.7 + 0.3 c/c_cr) times (1 + c/c_cr)/2.
    """
    share = fixing.share_on_side(
        edge_mm=edge_mm, edge_full_mm=120, spacing_mm=spacing_mm, spacing_full_mm=240
    )
    edge, spacing = min(1, edge_mm / 120), min(1, spacing_mm / 240)
    assert share <= (0.7 + 0.3 * edge) * (1 + edge) / 2 * (1 + spacing) / 2 + 1e-12


def test_a_box_tips_when_its_centre_passes_the_edge() -> None:
    """As deep as high to its centre of gravity: 45°; and the push that does it balances the weight."""
    assert fixing.tipping_angle(height_mm=500, inward_mm=500) == pytest.approx(45)
    assert fixing.tipping_push(weight_n=900, inward_mm=150, push_mm=1350) == pytest.approx(100)


def test_partial_factors_part_weight_and_work() -> None:
    """At rest the weight has 1.35; half as much again while people work has 1.5."""
    at_rest = fixing.factored(acting_n=100, permanent=1.35, variable=1.5, allowance=1)
    at_work = fixing.factored(acting_n=100, permanent=1.35, variable=1.5, allowance=1.5)
    assert at_rest == pytest.approx(135)
    assert at_work == pytest.approx(210)
