"""Factors on currents, voltages and powers."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.physics.scale import (
    current_before_factor,
    scaled_apparent_power,
    scaled_area,
    scaled_current,
    scaled_power,
    scaled_voltage,
)


def test_a_factor_multiplies() -> None:
    assert scaled_current(current_a=10.4, factor=1.25) == 13.0
    assert scaled_voltage(voltage_v=40.0, factor=1.14) == pytest.approx(45.6)
    assert scaled_power(power_w=5000.0, factor=0.8) == 4000.0


@given(current=st.floats(0.1, 1e4), factor=st.floats(0.1, 10))
def test_the_needed_current_is_the_way_back(current: float, factor: float) -> None:
    needed = current_before_factor(current_a=current, factor=factor)
    assert scaled_current(current_a=needed, factor=factor) == pytest.approx(current, rel=1e-12)


def test_shares_of_apparent_power_and_of_area() -> None:
    assert scaled_apparent_power(apparent_va=9000.0, factor=1 / 3) == pytest.approx(3000.0)
    assert scaled_area(area_mm2=16.0, factor=0.5) == 8.0
