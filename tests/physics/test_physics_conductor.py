"""Resistance, steady heating and fault heating of a conductor."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.physics.conductor import (
    adiabatic_k,
    ambient_factor,
    area_in_other_metal,
    cable_resistance,
    capacity_as_laid,
    conductor_temperature,
    let_through,
    longest_time,
    resistance_at,
    resistance_per_km,
    smallest_area,
    temperature_factor,
    withstand,
)

areas = st.floats(0.5, 300)
currents = st.floats(0.1, 10_000)


def test_resistance_of_a_length() -> None:
    per_km = resistance_per_km(resistivity_ohm_mm2_per_m=0.0225, area_mm2=2.5)
    assert per_km == pytest.approx(9.0)
    assert cable_resistance(resistance_ohm_per_km=per_km, length_m=50) == pytest.approx(0.45)


@given(area=areas, more=st.floats(1.001, 10), length=st.floats(0.1, 500))
def test_thicker_is_less_and_longer_is_more(area: float, more: float, length: float) -> None:
    thin = resistance_per_km(resistivity_ohm_mm2_per_m=0.0225, area_mm2=area)
    thick = resistance_per_km(resistivity_ohm_mm2_per_m=0.0225, area_mm2=area * more)
    assert thick < thin
    short = cable_resistance(resistance_ohm_per_km=thin, length_m=length)
    assert short < cable_resistance(resistance_ohm_per_km=thin, length_m=length * more)


@given(start=st.floats(-40, 120), end=st.floats(-40, 120))
def test_a_warmed_conductor_cools_back_to_the_same_resistance(start: float, end: float) -> None:
    warm = resistance_at(resistance_ohm_per_km=7.41, beta_c=234.5, from_c=start, to_c=end)
    assert (warm > 7.41) == (end > start) or warm == pytest.approx(7.41)
    back = resistance_at(resistance_ohm_per_km=warm, beta_c=234.5, from_c=end, to_c=start)
    assert back == pytest.approx(7.41, rel=1e-12)


def test_the_factor_alone_is_the_same_correction() -> None:
    factor = temperature_factor(beta_c=228, from_c=20, to_c=90)
    warm = resistance_at(resistance_ohm_per_km=3.08, beta_c=228, from_c=20, to_c=90)
    assert 3.08 * factor == pytest.approx(warm, rel=1e-15)


def test_no_current_is_left_at_the_limit() -> None:
    assert ambient_factor(limit_c=70, ambient_c=30, reference_c=30) == 1.0
    assert ambient_factor(limit_c=70, ambient_c=70, reference_c=30) == 0.0
    assert ambient_factor(limit_c=70, ambient_c=95, reference_c=30) == 0.0
    with pytest.raises(ValueError, match="math domain"):
        ambient_factor(limit_c=20, ambient_c=10, reference_c=30)


def test_every_factor_of_the_laying_counts() -> None:
    capacity = capacity_as_laid(tabulated_a=46, temperature_factor=0.87, grouping_factor=0.8, soil_factor=1)
    assert capacity == pytest.approx(32.016)


@given(ambient=st.floats(-20, 69), share=st.floats(0.01, 2))
def test_full_load_reaches_the_limit_and_less_stays_below(ambient: float, share: float) -> None:
    capacity = 25 * ambient_factor(limit_c=70, ambient_c=ambient, reference_c=30)
    reached = conductor_temperature(
        ambient_c=ambient, limit_c=70, current_a=share * capacity, capacity_a=capacity
    )
    assert (reached <= 70 + 1e-9) == (share <= 1)
    assert reached > ambient


@given(current=currents, time=st.floats(0.1, 5), k=st.floats(40, 230))
def test_the_smallest_area_just_stands_the_fault(current: float, time: float, k: float) -> None:
    energy = let_through(current_a=current, time_s=time)
    area = smallest_area(let_through_a2s=energy, k_factor=k)
    assert withstand(k_factor=k, area_mm2=area) == pytest.approx(energy, rel=1e-12)
    assert longest_time(k_factor=k, area_mm2=area, current_a=current) == pytest.approx(time, rel=1e-12)


@given(initial=st.floats(0, 150), rise=st.floats(0, 150))
def test_the_hotter_the_end_the_larger_k(initial: float, rise: float) -> None:
    smaller = adiabatic_k(material_factor=226, beta_c=234.5, initial_c=initial, final_c=initial + rise)
    larger = adiabatic_k(material_factor=226, beta_c=234.5, initial_c=initial, final_c=initial + rise + 1)
    assert 0 <= smaller < larger


def test_a_fault_that_cools_is_an_error() -> None:
    with pytest.raises(ValueError, match="math domain"):
        adiabatic_k(material_factor=226, beta_c=234.5, initial_c=90, final_c=70)


def test_a_metal_of_smaller_k_needs_more_of_itself() -> None:
    assert area_in_other_metal(area_mm2=16, line_k_factor=115, protective_k_factor=76) == pytest.approx(
        24.21, abs=0.005
    )
