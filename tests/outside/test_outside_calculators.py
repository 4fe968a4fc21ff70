"""Calculators against worked examples in print, typed in as a person would."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pvlib import temperature

from ferrule.calculators import CALCULATORS


def results(name: str, **given: str) -> dict[str, Any]:
    return {each.field.key: each.value for each in CALCULATORS[name].work(given).results}


# Strings


def test_fourteen_modules_in_the_cold_of_a_dealers_note() -> None:
    """A French dealer's note for the conformity inspection: 49.7 V, −0.25 %/°C, −20 °C make 55.29 V."""
    found = results(
        "string-voltage", modules="1", voc="49.7 V", voc_coefficient="-0.25 %/K", coldest="-20 °C"
    )
    assert round(found["module"], 2) == 55.29


def test_hot_and_cold_module_of_a_training_course() -> None:
    """Course on grid-connected design, complete example (scribd.com 700875877): 38.1 − 0.145 × (75 − 25) =
    30.85 V hot; 45.8 − 0.133 × (0 − 25) = 49.12 V cold (49.125 before it was cut).
    """
    found = results(
        "string-length", voltage_max="600 V", voltage_min="200 V", voc="45.8 V", voc_coefficient="-133 mV/K",
        vmp="38.1 V", vmp_coefficient="-0.145 V/K", coldest="0 °C", hottest_cell="75 °C",
    )  # fmt: skip
    assert found["hot_module"] == pytest.approx(30.85, abs=0.0005)
    assert found["cold_module"] == pytest.approx(49.125, abs=0.0005)


@pytest.mark.parametrize(("strings", "reverse_a", "needed"), [("2", 12.28, False), ("4", 36.84, True)])
def test_string_fuses_of_an_article(strings: str, reverse_a: float, needed: bool) -> None:
    """Article on fuses for rooftop projects by IS/IEC 62548 (solarsaarthi.com), examples 1 and 2: modules of
    12.28 A marked for 20 A; two strings need no fuse, four need one of 20 A.
    """
    found = results("string-fuse", strings=strings, isc="12.28 A", series_fuse_max="20 A")
    assert found["reverse"] == pytest.approx(reverse_a, abs=0.005)
    assert found["needed"] is needed
    assert found["rating"] == (20 if needed else None)


@given(air_c=st.floats(-30, 45), wind=st.floats(0, 20), light=st.floats(0, 1_200))
def test_cell_temperature_in_wind(air_c: float, wind: float, light: float) -> None:
    """Second way: `pvlib.temperature.sapm_cell`, which carries the parameters of SAND2004-3535."""
    found = results(
        "cell-temperature-wind", air=f"{air_c:.3f} °C", wind=f"{wind:.3f} m/s",
        irradiance=f"{light:.3f} W/m²", build="open_glass_polymer",
    )  # fmt: skip
    parameters = temperature.TEMPERATURE_MODEL_PARAMETERS["sapm"]["open_rack_glass_polymer"]
    theirs = temperature.sapm_cell(round(light, 3), round(air_c, 3), round(wind, 3), **parameters)
    assert found["cell"] == pytest.approx(theirs, abs=1e-9)


# Cables


@pytest.mark.parametrize(
    ("size", "printed"), [("1.5", 30), ("2.5", 18), ("4", 11.2), ("10", 4.5), ("16", 2.8)]
)
def test_volts_an_ampere_and_kilometre(size: str, printed: float) -> None:
    """Electrical installation guide according to IEC standards, 2010, figure G28: single-phase lighting,
    V/(A·km) at power factor 1; the guide cuts 11.25 to 11.2.
    """
    found = results(
        "voltage-drop", length="1 km", size=f"{size} mm²", current="1 A", phases="1", voltage="230 V",
        power_factor="1",
    )  # fmt: skip
    assert 0 <= found["drop"] - printed <= 0.0501


def test_lights_at_the_end_of_a_line() -> None:
    """Electrical installation guide according to IEC standards, 2008, chapter G, example 2 to figure G30:
    20 m of 2.5 mm² with 20 A lose 7.2 V.
    """
    found = results(
        "voltage-drop", length="20 m", size="2.5 mm²", current="20 A", phases="1", voltage="230 V",
        power_factor="1",
    )  # fmt: skip
    assert round(found["drop"], 1) == 7.2


def test_a_cable_in_a_warm_insulated_wall() -> None:
    """Linsley, Basic Electrical Installation Work, chapter on conductor size calculations: 26.09 A, a device
    of 32 A, 35 °C, enclosed in an insulated wall: 10 mm².
    """
    found = results(
        "smallest-conductor", design="26.09 A", rating="32 A", method="A1", insulation="pvc",
        ambient="35 °C", circuits="1", loaded="2",
    )  # fmt: skip
    assert str(found["size"]) == "10 mm²"


@pytest.mark.parametrize(("fault", "printed_mm2"), [("120 A", 0.66), ("328 A", 1.80)])
def test_the_smallest_protective_conductor(fault: str, printed_mm2: float) -> None:
    """engx.theiet.org thread 30488 on the least size of a protective conductor: 0.4 s, k = 115."""
    found = results("adiabatic", fault=fault, time="400 ms", size="1.5 mm²", core="line_pvc")
    assert round(found["smallest"], 2) == printed_mm2
    assert found["survives"] is (printed_mm2 <= 1.5)


# Faults and earth


@pytest.mark.parametrize(
    ("rating", "printed"),
    [("6 A", 7.67), ("10 A", 4.6), ("16 A", 2.875), ("20 A", 2.3), ("32 A", 1.44), ("63 A", 0.73)],
)
def test_loop_limits_of_type_b_breakers(rating: str, printed: float) -> None:
    """Linsley, Basic Electrical Installation Work, table of largest Zs at 230 V for type B breakers."""
    found = results("loop-limit", device="mcb", rating=rating, curve="B", voltage="230 V")
    assert abs(found["loop"] - printed) <= 0.005


def test_loop_limit_for_a_cold_reading() -> None:
    """Reader's question on DIN VDE 0100-600:2017-06 in the trade journal "de" (elektro.net): two thirds of
    230 V over the 160 A of a breaker B32 are 0.958 Ω.
    """
    found = results("loop-limit", device="mcb", rating="32 A", curve="B", voltage="230 V")
    assert round(found["reading"], 3) == 0.958


@pytest.mark.parametrize(("residual", "printed"), [("30 mA", 1667), ("100 mA", 500), ("300 mA", 167)])
def test_electrodes_of_a_tt_system(residual: str, printed: float) -> None:
    """BS 7671:2018 table 41.5: 50 V over the rated residual current, in whole ohms."""
    found = results("tt-check", electrode="20 ohm", residual=residual)
    assert round(found["electrode_most"]) == printed


def test_pipe_by_the_british_code() -> None:
    """A deep pipe worked by the formula of BS 7430 (forum egpet.net, thread 70848): 15 m of 60.3 mm in
    244 Ω·m are 17.076 Ω.
    """
    found = results("rod-electrode", soil="244 ohm m", length="15 m", diameter="60.3 mm")
    assert round(found["resistance"], 3) == 17.076


def test_neutral_of_three_power_factors() -> None:
    """Exercise with answer 4.55 A (forum.allaboutcircuits.com thread 73990): 10 A at power factor 1, 9 A at
    0.9 and 8 A at 0.8, all lagging: 25.842° and 36.870° behind their voltages.
    """
    found = results(
        "neutral-current", line_1="10 A", line_2="9 A", line_3="8 A",
        angle_2="-145.842°", angle_3="-276.870°",
    )  # fmt: skip
    assert round(found["current"], 2) == 4.55


# Batteries


def test_current_and_fuse_of_a_24_volt_inverter() -> None:
    """Wire sizing between inverter and battery, a syllabus for installers of photovoltaic systems (2010):
    2500 W, 85 % and 22 V draw 134 A, and 167 A are to be carried: the next fuse made is 200 A.
    """
    found = results("battery-current", power="2.5 kW", efficiency="85 %", lowest="22 V")
    assert round(found["current"]) == 134
    assert found["fuse"] == 200


def test_fault_current_of_blocks_in_parallel() -> None:
    """Engineering forum eng-tips, thread 345438: blocks of 12 V with 3.16 mΩ, seven in parallel: 26.6 kA."""
    found = results("battery-fault-current", highest="12 V", internal="3.16 mohm", packs="7")
    assert found["at_poles"] == pytest.approx(26_600, abs=50)
