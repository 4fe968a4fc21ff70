"""Currents of several phases and a lost neutral."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.physics.threephase import (
    current_from_apparent_power,
    current_from_power,
    lagging_angle,
    neutral_current,
    phase_unbalance,
    voltage_with_lost_neutral,
    voltage_with_lost_neutral_split_phase,
)

amperes = st.floats(0, 200)
watts = st.floats(1, 10_000)


def test_three_phases_against_neutral_are_the_line_voltage_form() -> None:
    current = current_from_power(power_w=10_000, lines=3, line_to_neutral_v=400 / math.sqrt(3), cos_phi=0.9)
    assert current == pytest.approx(10_000 / (math.sqrt(3) * 400 * 0.9))
    assert current_from_apparent_power(apparent_va=10_000, lines=3, line_to_neutral_v=230) == pytest.approx(
        14.49, abs=0.005
    )
    assert current_from_power(power_w=5_000, lines=1, line_to_neutral_v=230, cos_phi=1) == pytest.approx(
        21.74, abs=0.005
    )


@given(current=amperes, cos_phi=st.floats(0.1, 1))
def test_a_balanced_load_leaves_the_neutral_empty(current: float, cos_phi: float) -> None:
    angles = [lagging_angle(voltage_deg=supply, cos_phi=cos_phi) for supply in (0.0, -120.0, -240.0)]
    neutral = neutral_current(
        line_1_a=current, line_1_deg=angles[0], line_2_a=current, line_2_deg=angles[1],
        line_3_a=current, line_3_deg=angles[2],
    )  # fmt: skip
    assert neutral == pytest.approx(0, abs=1e-9)


@given(one=amperes, two=amperes, three=amperes)
def test_at_unity_the_neutral_never_carries_more_than_the_largest_line(
    one: float, two: float, three: float
) -> None:
    neutral = neutral_current(
        line_1_a=one, line_1_deg=0, line_2_a=two, line_2_deg=-120, line_3_a=three, line_3_deg=-240
    )
    assert neutral <= max(one, two, three) * (1 + 1e-12) + 1e-12
    closed_form = math.sqrt(max(0, one**2 + two**2 + three**2 - one * two - two * three - three * one))
    assert neutral == pytest.approx(closed_form, abs=1e-5)


@given(one=amperes, two=amperes, three=amperes)
def test_lines_bridged_to_one_phase_add_up_in_the_neutral(one: float, two: float, three: float) -> None:
    neutral = neutral_current(
        line_1_a=one, line_1_deg=0, line_2_a=two, line_2_deg=0, line_3_a=three, line_3_deg=0
    )
    assert neutral == pytest.approx(one + two + three)


def test_a_split_phase_neutral_carries_the_difference() -> None:
    neutral = neutral_current(line_1_a=20, line_1_deg=0, line_2_a=8, line_2_deg=180, line_3_a=0, line_3_deg=0)
    assert neutral == pytest.approx(12)


def test_a_lagging_current_stands_behind_its_voltage() -> None:
    assert lagging_angle(voltage_deg=-120, cos_phi=0.5) == pytest.approx(-180)
    assert lagging_angle(voltage_deg=0, cos_phi=1) == 0


def test_unbalance_is_the_widest_gap() -> None:
    assert phase_unbalance(line_1_va=4_000, line_2_va=900, line_3_va=2_500) == 3_100


@given(own=watts, second=watts, third=watts)
def test_with_a_lost_neutral_the_lightest_load_gets_the_highest_voltage(
    own: float, second: float, third: float
) -> None:
    def voltage(mine: float, one: float, other: float) -> float:
        return voltage_with_lost_neutral(own_w=mine, second_w=one, third_w=other, line_to_neutral_v=230)

    loads = {
        own: voltage(own, second, third),
        second: voltage(second, own, third),
        third: voltage(third, own, second),
    }
    assert loads[min(loads)] == max(loads.values())
    assert max(loads.values()) <= 230 * math.sqrt(3) * (1 + 1e-12)
    assert voltage(own, own, own) == pytest.approx(230)


@given(own=watts, other=watts)
def test_two_loads_in_series_share_the_line_voltage(own: float, other: float) -> None:
    mine = voltage_with_lost_neutral_split_phase(own_w=own, other_w=other, line_to_line_v=240)
    theirs = voltage_with_lost_neutral_split_phase(own_w=other, other_w=own, line_to_line_v=240)
    assert mine + theirs == pytest.approx(240)
    assert (mine < theirs) == (own > other) or mine == pytest.approx(theirs)
