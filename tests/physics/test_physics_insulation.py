"""Insulation of an array."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.physics.insulation import (
    earth_fault_resistance,
    insulation_by_area,
    insulation_by_leakage,
    insulation_of_both_poles,
)

ohms = st.floats(1e3, 1e10)


@given(positive=ohms, negative=ohms)
def test_both_poles_together_read_less_than_either(positive: float, negative: float) -> None:
    both = insulation_of_both_poles(positive_ohm=positive, negative_ohm=negative)
    assert both < min(positive, negative)
    assert 1 / both == pytest.approx(1 / positive + 1 / negative)


def test_a_larger_array_may_read_less() -> None:
    """40 MΩ·m²: 1.6 MΩ for 25 m² and 0.8 MΩ for 50 m²."""
    assert insulation_by_area(insulation_ohm_m2=40e6, area_m2=25) == pytest.approx(1.6e6)
    assert insulation_by_area(insulation_ohm_m2=40e6, area_m2=50) == pytest.approx(0.8e6)


def test_what_thirty_milliamperes_ask() -> None:
    assert insulation_by_leakage(voltage_v=600, leakage_a=0.03) == pytest.approx(20_000)


@given(fault=st.floats(0, 1e8), meter=st.floats(1e6, 1e8), share=st.floats(0, 1))
def test_the_meters_own_load_tells_the_fault(fault: float, meter: float, share: float) -> None:
    """A fault behind its resistance and the meter form a divider, wherever in the string it sits."""
    seen = 480 * meter / (meter + fault)
    found = earth_fault_resistance(
        meter_ohm=meter, open_v=480, positive_v=seen * share, negative_v=seen * (1 - share)
    )
    assert found == pytest.approx(fault, rel=1e-9, abs=1e-6 * meter)


def test_readings_of_zero_tell_nothing() -> None:
    with pytest.raises(ZeroDivisionError):
        earth_fault_resistance(meter_ohm=1e7, open_v=480, positive_v=0, negative_v=0)
