"""Cell temperatures."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.physics.cell import cell_by_faiman, cell_by_noct, cell_by_rise, cell_by_sapm

airs = st.floats(-40, 55)
lights = st.floats(0, 1_300)
winds = st.floats(0, 30)


def test_nominal_conditions_give_the_nominal_temperature() -> None:
    assert cell_by_noct(air_c=20, noct_c=45, irradiance_w_per_m2=800) == 45
    assert cell_by_rise(air_c=35, rise_k=33, irradiance_w_per_m2=1000) == 68


def test_a_nominal_temperature_is_a_rise_in_full_sun() -> None:
    by_rise = cell_by_rise(air_c=30, rise_k=(46 - 20) / 0.8, irradiance_w_per_m2=640)
    assert cell_by_noct(air_c=30, noct_c=46, irradiance_w_per_m2=640) == pytest.approx(by_rise)


@given(air=airs, wind=winds)
def test_in_the_dark_a_cell_is_as_cold_as_the_air(air: float, wind: float) -> None:
    dark = {"air_c": air, "irradiance_w_per_m2": 0.0}
    assert cell_by_noct(**dark, noct_c=45) == air
    assert cell_by_sapm(**dark, wind_m_per_s=wind, a=-3.47, b=-0.0594, rise_k=3) == air
    assert cell_by_faiman(**dark, wind_m_per_s=wind, still_w_per_m2_k=25, by_wind_w_s_per_m3_k=6.84) == air


@given(air=airs, light=lights, wind=winds, more=st.floats(0, 10))
def test_more_wind_never_heats_and_more_sun_never_cools(
    air: float, light: float, wind: float, more: float
) -> None:
    def sapm(irradiance: float, speed: float) -> float:
        return cell_by_sapm(
            air_c=air, irradiance_w_per_m2=irradiance, wind_m_per_s=speed, a=-2.98, b=-0.0471, rise_k=1
        )

    def faiman(irradiance: float, speed: float) -> float:
        return cell_by_faiman(
            air_c=air, irradiance_w_per_m2=irradiance, wind_m_per_s=speed,
            still_w_per_m2_k=25, by_wind_w_s_per_m3_k=6.84,
        )  # fmt: skip

    for model in (sapm, faiman):
        assert model(light, wind + more) <= model(light, wind)
        assert model(light + more, wind) >= model(light, wind)
