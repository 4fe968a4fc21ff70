"""Cell temperatures against pvlib's models and a printed exercise."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pvlib import temperature

from ferrule.physics.cell import cell_by_faiman, cell_by_noct, cell_by_sapm

airs = st.floats(-40, 55)
lights = st.floats(0, 1_300)
winds = st.floats(0, 30)


@settings(deadline=None)
@given(air=airs, light=lights, noct=st.floats(40, 60))
def test_noct(air: float, light: float, noct: float) -> None:
    """`pvlib.temperature.ross` (Ross 1980)."""
    ours = cell_by_noct(air_c=air, noct_c=noct, irradiance_w_per_m2=light)
    assert ours == pytest.approx(temperature.ross(light, air, noct=noct), rel=1e-12, abs=1e-9)


@settings(deadline=None)
@given(
    air=airs,
    light=lights,
    wind=winds,
    mounting=st.sampled_from(sorted(temperature.TEMPERATURE_MODEL_PARAMETERS["sapm"])),
)
def test_sapm(air: float, light: float, wind: float, mounting: str) -> None:
    """`pvlib.temperature.sapm_cell` with each mounting of King, Boyson and Kratochvil (SAND2004-3535)."""
    constants = temperature.TEMPERATURE_MODEL_PARAMETERS["sapm"][mounting]
    theirs = temperature.sapm_cell(light, air, wind, **constants)
    ours = cell_by_sapm(
        air_c=air, irradiance_w_per_m2=light, wind_m_per_s=wind,
        a=constants["a"], b=constants["b"], rise_k=constants["deltaT"],
    )  # fmt: skip
    assert ours == pytest.approx(theirs, rel=1e-12, abs=1e-9)


@settings(deadline=None)
@given(air=airs, light=lights, wind=winds, still=st.floats(10, 40), by_wind=st.floats(0, 12))
def test_faiman(air: float, light: float, wind: float, still: float, by_wind: float) -> None:
    """`pvlib.temperature.faiman` (Faiman 2008)."""
    theirs = temperature.faiman(light, air, wind, u0=still, u1=by_wind)
    ours = cell_by_faiman(
        air_c=air, irradiance_w_per_m2=light, wind_m_per_s=wind,
        still_w_per_m2_k=still, by_wind_w_s_per_m3_k=by_wind,
    )  # fmt: skip
    assert ours == pytest.approx(theirs, rel=1e-12, abs=1e-9)


def test_printed_exercise() -> None:
    """Course exercise (jiskha.com question 1415609183): NOCT 40 °C, air 15 °C, 1000 W/m²: cell at 40 °C."""
    assert cell_by_noct(air_c=15, noct_c=40, irradiance_w_per_m2=1000) == 40
