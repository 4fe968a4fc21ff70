"""Voltage drop and rise."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.physics.conductor import resistance_per_km
from ferrule.physics.drop import drop_dc, drop_pct, drop_single_phase, drop_three_phase, raised_voltage

lengths = st.floats(0.1, 1_000)
resistances = st.floats(0.05, 40)
reactances = st.floats(0, 0.4)
currents = st.floats(0.1, 400)
power_factors = st.floats(0, 1)


def test_a_run_out_and_back_drops_twice_its_length() -> None:
    assert drop_dc(length_m=20, resistance_ohm_per_km=5.09, current_a=10) == pytest.approx(2.036)


@given(length=lengths, resistance=resistances, current=currents)
def test_direct_current_drops_like_single_phase_at_unity(
    length: float, resistance: float, current: float
) -> None:
    single = drop_single_phase(
        length_m=length,
        resistance_ohm_per_km=resistance,
        reactance_ohm_per_km=0.08,
        cos_phi=1,
        current_a=current,
    )
    assert single == drop_dc(length_m=length, resistance_ohm_per_km=resistance, current_a=current)


@given(length=lengths, resistance=resistances, reactance=reactances, cos_phi=power_factors, current=currents)
def test_single_phase_drops_twice_what_three_phases_do(
    length: float, resistance: float, reactance: float, cos_phi: float, current: float
) -> None:
    cable = {"length_m": length, "resistance_ohm_per_km": resistance, "reactance_ohm_per_km": reactance}
    load = {"cos_phi": cos_phi, "current_a": current}
    assert drop_single_phase(**cable, **load) == pytest.approx(
        2 * drop_three_phase(**cable, **load), rel=1e-12
    )


@given(
    area=st.floats(0.5, 300),
    thicker=st.floats(1, 5),
    length=lengths,
    shorter=st.floats(0.01, 1),
    current=currents,
)
def test_a_thicker_conductor_or_a_shorter_run_never_drops_more(
    area: float, thicker: float, length: float, shorter: float, current: float
) -> None:
    def drop(area_mm2: float, length_m: float) -> float:
        per_km = resistance_per_km(resistivity_ohm_mm2_per_m=0.0225, area_mm2=area_mm2)
        return drop_single_phase(
            length_m=length_m,
            resistance_ohm_per_km=per_km,
            reactance_ohm_per_km=0.08,
            cos_phi=0.8,
            current_a=current,
        )

    assert drop(area * thicker, length) <= drop(area, length)
    assert drop(area, length * shorter) <= drop(area, length)


@given(resistance=resistances, reactance=reactances, cos_phi=power_factors)
def test_no_power_factor_drops_more_than_the_impedance_allows(
    resistance: float, reactance: float, cos_phi: float
) -> None:
    drop = drop_three_phase(
        length_m=1000,
        resistance_ohm_per_km=resistance,
        reactance_ohm_per_km=reactance,
        cos_phi=cos_phi,
        current_a=1,
    )
    assert drop <= math.hypot(resistance, reactance) * (1 + 1e-12)


def test_shares_and_the_voltage_an_inverter_sees() -> None:
    rise_v = drop_single_phase(
        length_m=40, resistance_ohm_per_km=3.08, reactance_ohm_per_km=0.08, cos_phi=1, current_a=21.7
    )
    assert drop_pct(drop_v=rise_v, base_v=230) == pytest.approx(2.325, abs=0.0005)
    assert raised_voltage(supply_v=248, rise_v=rise_v) == pytest.approx(253.35, abs=0.005)


def test_a_power_factor_above_one_is_an_error() -> None:
    with pytest.raises(ValueError, match="math domain"):
        drop_three_phase(
            length_m=1, resistance_ohm_per_km=1, reactance_ohm_per_km=0, cos_phi=1.1, current_a=1
        )
