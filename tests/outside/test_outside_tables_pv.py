"""The photovoltaic tables of the rulebook iec-2024 against an independent transcription."""

import math

import pvlib.temperature
import pytest

from ferrule import rules

BOOK = rules.load("iec-2024")
SAPM = pvlib.temperature.TEMPERATURE_MODEL_PARAMETERS["sapm"]

BUILDS = {
    "open_glass_glass": "open_rack_glass_glass",
    "close_roof_glass_glass": "close_mount_glass_glass",
    "open_glass_polymer": "open_rack_glass_polymer",
    "insulated_glass_polymer": "insulated_back_glass_polymer",
}


@pytest.mark.parametrize(("build", "name"), BUILDS.items())
def test_cell_temperature_coefficients(build: str, name: str) -> None:
    """King and others, Sandia report SAND2004-3535, as transcribed by pvlib."""
    assert BOOK.cell("sapm_exponent", build, "a").value == SAPM[name]["a"]
    assert BOOK.cell("sapm_exponent", build, "b").value == SAPM[name]["b"]
    assert BOOK.cell("sapm_cell_difference", build).value == SAPM[name]["deltaT"]


@pytest.mark.parametrize(
    ("mounting", "name"), [("rack", "open_rack_glass_glass"), ("close-roof", "close_mount_glass_glass")]
)
def test_the_high_rise_of_a_mounting_is_the_models_at_a_light_wind(mounting: str, name: str) -> None:
    """The Sandia model in pvlib at 1000 W/m² and 1 m/s, rounded up to whole kelvin."""
    rise_k = pvlib.temperature.sapm_cell(1000, 0, 1, **SAPM[name])
    assert BOOK.cell("cell_temperature_rise", mounting, "high").value == math.ceil(rise_k)
