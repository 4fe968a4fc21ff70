"""Readings carried between conditions, and back."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.physics.module import coefficient_in_amperes, current_at_cell
from ferrule.physics.translation import (
    current_by_procedure_1,
    current_by_procedure_2,
    open_voltage_in_light,
    open_voltage_to_stc,
    short_current_to_stc,
    voltage_by_procedure_1,
    voltage_by_procedure_2,
)

cells = st.floats(-40, 90)
lights = st.floats(100, 1_300)


@given(stc=st.floats(10, 1_500), cell=cells, light=lights, pct=st.floats(-0.5, -0.2), a=st.floats(0.03, 0.07))
def test_voltage_to_the_roof_and_back_is_the_same(
    stc: float, cell: float, light: float, pct: float, a: float
) -> None:
    roof = {"coefficient_pct_per_k": pct, "cell_c": cell, "light_factor": a, "irradiance_w_per_m2": light}
    there = open_voltage_in_light(stc_v=stc, **roof)
    assert open_voltage_to_stc(measured_v=there, **roof) == pytest.approx(stc, rel=1e-12)


@given(stc=st.floats(0.1, 50), cell=cells, light=lights, pct=st.floats(-0.1, 0.1))
def test_current_to_the_roof_and_back_is_the_same(stc: float, cell: float, light: float, pct: float) -> None:
    there = current_at_cell(
        stc_a=stc,
        coefficient_a_per_k=coefficient_in_amperes(stc_a=stc, coefficient_pct_per_k=pct),
        cell_c=cell,
        irradiance_w_per_m2=light,
    )
    back = short_current_to_stc(
        measured_a=there, coefficient_pct_per_k=pct, cell_c=cell, irradiance_w_per_m2=light
    )
    assert back == pytest.approx(stc, rel=1e-12)


@given(brighter=st.floats(1, 5), light=st.floats(100, 1_000))
def test_more_light_never_lowers_the_voltage(brighter: float, light: float) -> None:
    def voltage(irradiance: float) -> float:
        return open_voltage_in_light(
            stc_v=480,
            coefficient_pct_per_k=-0.3,
            cell_c=25,
            light_factor=0.05,
            irradiance_w_per_m2=irradiance,
        )

    assert voltage(light * brighter) >= voltage(light)


def test_voltage_in_the_dark_is_an_error() -> None:
    with pytest.raises(ValueError, match=r"math domain|positive"):
        open_voltage_in_light(
            stc_v=480, coefficient_pct_per_k=-0.3, cell_c=25, light_factor=0.05, irradiance_w_per_m2=0
        )


def test_procedure_1_by_hand() -> None:
    """From 800 W/m² and 45 °C: 7.2 + 7.6 · 0.25 - 0.005 · 20 = 9.0 A; 30 - 0.4 · 1.8 + 2.6 = 31.88 V."""
    current = current_by_procedure_1(
        current_a=7.2, short_circuit_a=7.6, coefficient_a_per_k=0.005,
        from_w_per_m2=800, to_w_per_m2=1000, from_c=45, to_c=25,
    )  # fmt: skip
    assert current == pytest.approx(9.0)
    voltage = voltage_by_procedure_1(
        voltage_v=30, series_ohm=0.4, coefficient_v_per_k=-0.13, from_a=7.2, to_a=current, from_c=45, to_c=25
    )
    assert voltage == pytest.approx(31.88)


@given(cell=cells, light=lights)
def test_procedure_2_at_no_current_from_standard_conditions_is_the_light_form(
    cell: float, light: float
) -> None:
    by_procedure = voltage_by_procedure_2(
        voltage_v=48, open_circuit_v=48, series_ohm=0.4, coefficient_pct_per_k=-0.3, light_factor=0.05,
        from_w_per_m2=1000, to_w_per_m2=light, from_a=0, to_a=0, from_c=25, to_c=cell,
    )  # fmt: skip
    light_form = open_voltage_in_light(
        stc_v=48, coefficient_pct_per_k=-0.3, cell_c=cell, light_factor=0.05, irradiance_w_per_m2=light
    )
    assert by_procedure == pytest.approx(light_form, rel=1e-12)


@given(cell=cells)
def test_both_procedures_agree_where_the_light_stays(cell: float) -> None:
    one = current_by_procedure_1(
        current_a=10, short_circuit_a=10, coefficient_a_per_k=0.005,
        from_w_per_m2=1000, to_w_per_m2=1000, from_c=25, to_c=cell,
    )  # fmt: skip
    two = current_by_procedure_2(
        current_a=10, coefficient_pct_per_k=0.05, from_w_per_m2=1000, to_w_per_m2=1000, from_c=25, to_c=cell
    )
    assert one == pytest.approx(two, rel=1e-12)


def test_conditions_that_do_not_change_leave_a_point_where_it_is() -> None:
    here: dict[str, float] = {"from_w_per_m2": 700, "to_w_per_m2": 700, "from_c": 50, "to_c": 50}
    assert current_by_procedure_2(current_a=6.5, coefficient_pct_per_k=0.05, **here) == 6.5
    voltage = voltage_by_procedure_2(
        voltage_v=31, open_circuit_v=44, series_ohm=0.4, coefficient_pct_per_k=-0.3, light_factor=0.05,
        from_a=6.5, to_a=6.5, **here,
    )  # fmt: skip
    assert voltage == 31
