"""Module voltage and current by linear coefficients."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.physics.module import (
    above_the_line,
    coefficient_in_amperes,
    coefficient_in_volts,
    current_at_cell,
    operating_coefficient,
    voltage_at_cell,
)

falling = st.floats(-0.5, -0.001)


def test_standard_conditions_leave_the_datasheet_as_it_is() -> None:
    assert voltage_at_cell(stc_v=49.5, coefficient_v_per_k=-0.13, cell_c=25) == 49.5
    assert current_at_cell(stc_a=13.9, coefficient_a_per_k=0.006, cell_c=25, irradiance_w_per_m2=1000) == 13.9


def test_ten_below_zero_adds_thirty_five_kelvin_of_voltage() -> None:
    coefficient = coefficient_in_volts(stc_v=50, coefficient_pct_per_k=-0.28)
    assert coefficient == pytest.approx(-0.14)
    assert voltage_at_cell(stc_v=50, coefficient_v_per_k=coefficient, cell_c=-10) == pytest.approx(54.9)


@given(coefficient=falling, cell=st.floats(-40, 80), colder=st.floats(0, 60))
def test_colder_never_lowers_a_voltage_that_falls_with_heat(
    coefficient: float, cell: float, colder: float
) -> None:
    warm = voltage_at_cell(stc_v=50, coefficient_v_per_k=coefficient, cell_c=cell)
    assert voltage_at_cell(stc_v=50, coefficient_v_per_k=coefficient, cell_c=cell - colder) >= warm


@given(stc=st.floats(1, 100), pct=st.floats(-1, 1))
def test_a_coefficient_in_per_cent_is_that_share_a_kelvin(stc: float, pct: float) -> None:
    in_volts = coefficient_in_volts(stc_v=stc, coefficient_pct_per_k=pct)
    assert voltage_at_cell(stc_v=stc, coefficient_v_per_k=in_volts, cell_c=125) == pytest.approx(
        stc * (1 + pct)
    )
    assert coefficient_in_amperes(stc_a=stc, coefficient_pct_per_k=pct) == in_volts


@given(share=st.floats(0, 1.5))
def test_current_follows_the_light(share: float) -> None:
    full = current_at_cell(stc_a=10, coefficient_a_per_k=0.005, cell_c=60, irradiance_w_per_m2=1000)
    part = current_at_cell(stc_a=10, coefficient_a_per_k=0.005, cell_c=60, irradiance_w_per_m2=1000 * share)
    assert full == pytest.approx(10.175)
    assert part == pytest.approx(share * full)


@given(stc=st.floats(5, 100), of_voltage=st.floats(-0.6, -0.1), of_current=st.floats(-0.1, 0.1))
def test_the_coefficient_of_voltage_is_that_of_power_without_the_current(
    stc: float, of_voltage: float, of_current: float
) -> None:
    """Small changes of a product add up: a second way to it, over a hundredth of a kelvin."""
    step_k, isc_a = 0.01, 10.0
    power = (1 + of_voltage / 100 * step_k) * (1 + of_current / 100 * step_k)
    found = operating_coefficient(
        vmp_v=stc,
        power_coefficient_pct_per_k=100 * (power - 1) / step_k,
        isc_a=isc_a,
        isc_coefficient_a_per_k=of_current / 100 * isc_a,
    )
    assert found == pytest.approx(stc * of_voltage / 100, abs=1e-5)


def test_above_the_line() -> None:
    assert above_the_line(voltage_v=480, shortfall_pct=2) == pytest.approx(489.6)
