"""Lifting by hand: every multiplier at the ends of its range, and the traps there."""

import pytest

from ferrule.physics.lifting import (
    asymmetry_multiplier,
    distance_multiplier,
    hands_out,
    horizontal_multiplier,
    ladder_angle,
    ladder_foot,
    ladder_length,
    lifting_index,
    recommended_weight,
    reduced_weight,
    team_weight,
    vertical_multiplier,
    weight_at_height,
    weight_at_reach,
)


def horizontal(hands_mm: float) -> float:
    return horizontal_multiplier(hands_mm=hands_mm, nearest_mm=250, farthest_mm=630)


def vertical(hands_mm: float) -> float:
    return vertical_multiplier(hands_mm=hands_mm, best_mm=750, slope=0.3, highest_mm=1_750)


def distance(travel_mm: float) -> float:
    return distance_multiplier(travel_mm=travel_mm, base=0.82, gain_mm=45, least_mm=250, most_mm=1_750)


def asymmetry(twist_deg: float) -> float:
    return asymmetry_multiplier(twist_deg=twist_deg, slope=0.0032, most_deg=135)


def test_hands_nearer_than_the_nearest_allow_no_more() -> None:
    """The trap: 250 over 180 would be 1.39."""
    assert horizontal(0) == horizontal(180) == horizontal(250) == 1
    assert horizontal(500) == 0.5


def test_hands_too_far_out_lift_nothing() -> None:
    assert horizontal(630) == pytest.approx(0.3968, abs=5e-5)
    assert horizontal(630.1) == 0


def test_the_best_height_is_that_of_the_knuckles() -> None:
    assert vertical(750) == 1
    assert vertical(0) == pytest.approx(0.775)
    assert vertical(1_750) == pytest.approx(0.7)
    assert vertical(1_750.1) == 0


def test_a_short_way_counts_as_the_least() -> None:
    """The trap: 0.82 + 45 over 100 would be 1.27."""
    assert distance(0) == distance(100) == distance(250) == 1
    assert distance(1_750) == pytest.approx(0.8457, abs=5e-5)
    assert distance(1_750.1) == 0


def test_aside_to_either_side_is_alike() -> None:
    assert asymmetry(0) == 1
    assert asymmetry(-90) == asymmetry(90) == pytest.approx(0.712)
    assert asymmetry(135) == pytest.approx(0.568)
    assert asymmetry(135.1) == 0


def test_the_product_and_its_index() -> None:
    limit_kg = recommended_weight(
        constant_kg=23, horizontal=0.5, vertical=0.8, distance=0.9, asymmetry=1, frequency=0.5, coupling=0.9
    )
    assert limit_kg == pytest.approx(3.726)
    assert lifting_index(mass_kg=7.452, limit_kg=limit_kg) == pytest.approx(2)
    with pytest.raises(ZeroDivisionError):
        lifting_index(mass_kg=10, limit_kg=0)


def test_hands_out_before_a_load() -> None:
    assert hands_out(body_mm=200, depth_mm=300) == 350


def test_a_weight_in_between_never_leaves_its_ends() -> None:
    assert [
        weight_at_reach(close_kg=25, far_kg=15, hands_mm=hands_mm, nearest_mm=250)
        for hands_mm in (100, 250, 312.5, 630)
    ] == [25, 25, 20, 15]
    ends = {"below_kg": 20.0, "above_kg": 10.0, "from_mm": 1_200.0, "upto_mm": 1_600.0}
    assert weight_at_height(hands_mm=1_200, **ends) == 20
    assert weight_at_height(hands_mm=1_300, **ends) == 17.5
    assert weight_at_height(hands_mm=1_600, **ends) == 10


def test_reductions_multiply() -> None:
    assert reduced_weight(mass_kg=20, often_pct=30, twisted_pct=10) == pytest.approx(12.6)


def test_a_mixed_team() -> None:
    assert team_weight(share=0.5, men=2, man_kg=25, women=1, woman_kg=16) == 33


def test_a_ladder_at_one_to_four() -> None:
    """A foot of 1 m under 4 m: 4.123 m long up to there, a quarter more to stand out 1 m above."""
    assert ladder_foot(height_mm=4_000, steepness=4) == 1_000
    assert ladder_angle(height_mm=4_000, foot_mm=1_000) == pytest.approx(75.96, abs=0.005)
    assert ladder_length(height_mm=4_000, foot_mm=1_000, above_mm=1_000) == pytest.approx(5_154, abs=0.5)
