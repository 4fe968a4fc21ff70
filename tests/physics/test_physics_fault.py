"""Loops, limits and fault currents."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.physics.fault import (
    fault_current,
    fault_current_single_phase,
    fault_current_three_phase,
    hot_loop,
    impedance_behind,
    loop_at_end,
    loop_limit,
    loop_of_cable,
    reactive_part,
    resistive_part,
)

ohms = st.floats(0.001, 10)


def test_the_loop_at_the_end_is_the_supply_and_the_cable() -> None:
    cable = loop_of_cable(line_ohm_per_km=7.41, return_ohm_per_km=12.1, length_m=30)
    assert cable == pytest.approx(0.5853)
    assert loop_at_end(external_ohm=0.35, cable_ohm=cable) == pytest.approx(0.9353)


def test_only_the_installations_own_part_is_warmed() -> None:
    assert hot_loop(measured_ohm=0.9353, external_ohm=0.35, hot_factor=1.2) == pytest.approx(1.05236)
    assert hot_loop(measured_ohm=0.8, external_ohm=0, hot_factor=1.5) == pytest.approx(1.2)


@given(trip=st.floats(1, 2_000), factor=st.floats(0.8, 1))
def test_at_its_limit_a_loop_just_trips_the_device(trip: float, factor: float) -> None:
    limit = loop_limit(voltage_v=230, voltage_factor=factor, trip_a=trip)
    assert fault_current(voltage_v=230, voltage_factor=factor, loop_ohm=limit) == pytest.approx(
        trip, rel=1e-12
    )


@given(fault=st.floats(100, 50_000), ratio=st.floats(0, 10))
def test_an_impedance_falls_into_parts_that_make_it_up_again(fault: float, ratio: float) -> None:
    impedance = impedance_behind(voltage_v=230, voltage_factor=1.05, fault_a=fault)
    reactance = reactive_part(impedance_ohm=impedance, r_over_x=ratio)
    resistance = resistive_part(reactance_ohm=reactance, r_over_x=ratio)
    assert math.hypot(resistance, reactance) == pytest.approx(impedance, rel=1e-12)
    assert resistance == pytest.approx(ratio * reactance)


@given(source_r=ohms, source_x=ohms, line_r=ohms, line_x=ohms)
def test_single_phase_with_a_return_of_no_impedance_is_one_line_of_three(
    source_r: float, source_x: float, line_r: float, line_x: float
) -> None:
    supply = {
        "line_to_neutral_v": 230.0,
        "voltage_factor": 1.1,
        "source_r_ohm": source_r,
        "source_x_ohm": source_x,
    }
    three = fault_current_three_phase(**supply, cable_r_ohm=line_r, cable_x_ohm=line_x)
    single = fault_current_single_phase(
        **supply, line_r_ohm=line_r, line_x_ohm=line_x, return_r_ohm=0, return_x_ohm=0
    )
    assert single == pytest.approx(three, rel=1e-12)


@given(source_r=ohms, source_x=ohms, line_r=ohms, return_r=ohms)
def test_the_plain_sum_of_impedances_never_promises_more_current(
    source_r: float, source_x: float, line_r: float, return_r: float
) -> None:
    vector = fault_current_single_phase(
        line_to_neutral_v=230, voltage_factor=1, source_r_ohm=source_r, source_x_ohm=source_x,
        line_r_ohm=line_r, line_x_ohm=0, return_r_ohm=return_r, return_x_ohm=0,
    )  # fmt: skip
    loop = loop_at_end(external_ohm=math.hypot(source_r, source_x), cable_ohm=line_r + return_r)
    assert fault_current(voltage_v=230, voltage_factor=1, loop_ohm=loop) <= vector * (1 + 1e-12)


@given(cable_r=ohms, longer=st.floats(1, 10))
def test_the_farther_the_fault_the_smaller_its_current(cable_r: float, longer: float) -> None:
    def current(resistance_ohm: float) -> float:
        return fault_current_three_phase(
            line_to_neutral_v=230, voltage_factor=1, source_r_ohm=0.02, source_x_ohm=0.03,
            cable_r_ohm=resistance_ohm, cable_x_ohm=0.01,
        )  # fmt: skip

    assert current(cable_r * longer) <= current(cable_r)


def test_no_impedance_at_all_is_an_error() -> None:
    with pytest.raises(ZeroDivisionError):
        fault_current(voltage_v=230, voltage_factor=1, loop_ohm=0)
