"""Earth electrodes."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.physics.electrode import (
    electrode_limit,
    horizontal,
    horizontal_roughly,
    line_spacing_factor,
    rod,
    rod_roughly,
    rods_in_parallel,
    tape_as_wire,
    touch_voltage,
)

soils = st.floats(5, 5_000)


@given(soil=soils, length=st.floats(0.5, 30), longer=st.floats(1.01, 5))
def test_a_longer_rod_or_better_soil_lowers_the_resistance(soil: float, length: float, longer: float) -> None:
    here = rod(soil_ohm_m=soil, length_m=length, diameter_m=0.016)
    assert rod(soil_ohm_m=soil, length_m=length * longer, diameter_m=0.016) < here
    assert rod(soil_ohm_m=soil / longer, length_m=length, diameter_m=0.016) < here


@pytest.mark.parametrize(("length", "excess"), [(1.2, 0.16), (3.0, 0.0), (6.0, -0.10)])
def test_the_short_rule_for_rods_is_high_for_short_ones_and_low_for_long_ones(
    length: float, excess: float
) -> None:
    exact = rod(soil_ohm_m=100, length_m=length, diameter_m=0.016)
    assert rod_roughly(soil_ohm_m=100, length_m=length) / exact - 1 == pytest.approx(excess, abs=0.006)


@given(soil=soils, length=st.floats(5, 50), depth=st.floats(0.5, 1))
def test_the_short_rule_is_on_the_high_side_for_tapes(soil: float, length: float, depth: float) -> None:
    wire = tape_as_wire(width_m=0.03)
    exact = horizontal(soil_ohm_m=soil, length_m=length, depth_m=depth, diameter_m=wire)
    assert exact < horizontal_roughly(soil_ohm_m=soil, length_m=length) < 1.76 * exact


def test_one_rod_alone_is_itself_and_far_apart_each_counts_in_full() -> None:
    single = rod(soil_ohm_m=100, length_m=3, diameter_m=0.016)
    assert line_spacing_factor(count=1) == 0
    group = {"single_ohm": single, "soil_ohm_m": 100.0}
    assert rods_in_parallel(**group, count=1, spacing_factor=0, spacing_m=3) == single
    far = rods_in_parallel(**group, count=4, spacing_factor=line_spacing_factor(count=4), spacing_m=1e6)
    assert far == pytest.approx(single / 4, rel=1e-5)


@given(count=st.integers(2, 20), spacing=st.floats(3, 50))
def test_neighbours_help_less_the_nearer_they_stand(count: int, spacing: float) -> None:
    single = rod(soil_ohm_m=100, length_m=3, diameter_m=0.016)

    def row(spacing_m: float) -> float:
        return rods_in_parallel(
            single_ohm=single, count=count, spacing_factor=line_spacing_factor(count=count),
            spacing_m=spacing_m, soil_ohm_m=100,
        )  # fmt: skip

    assert single / count < row(spacing * 1.5) < row(spacing) < single


@given(current=st.floats(0.001, 10))
def test_at_the_limit_the_touch_voltage_is_just_reached(current: float) -> None:
    limit = electrode_limit(touch_v=50, current_a=current)
    assert touch_voltage(electrode_ohm=limit, current_a=current) == pytest.approx(50, rel=1e-12)


def test_thirty_milliamperes_at_fifty_volts() -> None:
    assert electrode_limit(touch_v=50, current_a=0.03) == pytest.approx(1666.67, abs=0.01)
