"""Voltage drop and fault loops against printed tables and worked examples."""

import math

import pytest

from ferrule.physics.conductor import resistance_per_km
from ferrule.physics.drop import drop_dc, drop_single_phase, drop_three_phase
from ferrule.physics.electrode import electrode_limit
from ferrule.physics.fault import loop_limit, loop_of_cable

FOOT_M = 0.3048


@pytest.mark.parametrize(("area_mm2", "printed"), [(1.5, 30), (2.5, 18), (4, 11.2), (10, 4.5), (16, 2.8)])
def test_volts_an_ampere_and_kilometre_of_an_installation_guide(area_mm2: float, printed: float) -> None:
    """Electrical installation guide according to IEC standards, 2010, figure G28: single-phase lighting,
    V/(A·km) at power factor 1, made with the 0.0225 Ω·mm²/m of IEC 60364-5-52:2009 annex G. The guide cuts
    11.25 to 11.2.
    """
    drop = drop_single_phase(
        length_m=1000,
        resistance_ohm_per_km=resistance_per_km(resistivity_ohm_mm2_per_m=0.0225, area_mm2=area_mm2),
        reactance_ohm_per_km=0.08,
        cos_phi=1,
        current_a=1,
    )
    assert 0 <= drop - printed <= 0.0501


def test_two_wire_circuit_of_a_training_course() -> None:
    """Newton, electrician's training course, "Voltage drop" (electrician2.com, 1999): No. 16 copper of
    4.99 ohm a thousand feet, 100 feet, 4 amperes: 4.0 volts.
    """
    drop = drop_dc(length_m=100 * FOOT_M, resistance_ohm_per_km=4.99 / FOOT_M, current_a=4)
    assert round(drop, 1) == 4.0


@pytest.mark.parametrize(("feet", "ohm_per_kft", "printed"), [(200, 1.7, 11.8), (500, 1.7, 29)])
def test_three_phase_circuit_of_a_trade_journal(feet: float, ohm_per_kft: float, printed: float) -> None:
    """EC&M, "The basics of calculating voltage drop": No. 12 copper, ohms to neutral of NEC table 9, 20
    amperes at 480 volts: 11.8 volts line to line over 200 feet, 29 volts over 500 feet.
    """
    to_neutral = drop_three_phase(
        length_m=feet * FOOT_M,
        resistance_ohm_per_km=ohm_per_kft / FOOT_M,
        reactance_ohm_per_km=0,
        cos_phi=1,
        current_a=20,
    )
    digits = 1 if isinstance(printed, float) else 0
    assert round(math.sqrt(3) * to_neutral, digits) == printed


def test_the_annex_g_form_is_close_to_the_exact_phasor() -> None:
    """Second way: the difference of the two end voltages as complex numbers, for a long loaded cable."""
    impedance = complex(3.6, 0.08) * 0.04
    current = 32 * complex(0.8, -0.6)
    exact = abs(230 + 2 * impedance * current) - 230
    drop = drop_single_phase(
        length_m=40, resistance_ohm_per_km=3.6, reactance_ohm_per_km=0.08, cos_phi=0.8, current_a=32
    )
    assert drop == pytest.approx(exact, rel=0.02)


@pytest.mark.parametrize(
    ("line_ohm_per_km", "return_ohm_per_km", "printed_mohm_per_m"),
    [(18.1, 18.1, 36.2), (12.1, 18.1, 30.2), (7.41, 12.1, 19.51), (7.41, 7.41, 14.82), (4.61, 12.1, 16.71),
     (4.61, 7.41, 12.02), (3.08, 7.41, 10.49), (1.83, 4.61, 6.44), (1.15, 3.08, 4.23), (0.727, 1.83, 2.557),
     (0.524, 1.15, 1.674)],
)  # fmt: skip
def test_line_and_protective_conductor_together(
    line_ohm_per_km: float, return_ohm_per_km: float, printed_mohm_per_m: float
) -> None:
    """IET On-Site Guide table I1: (R1 + R2) in mΩ/m at 20 °C, of conductors by IEC 60228:2004 table 2."""
    loop = loop_of_cable(line_ohm_per_km=line_ohm_per_km, return_ohm_per_km=return_ohm_per_km, length_m=1)
    assert 1000 * loop == pytest.approx(printed_mohm_per_m, abs=1e-9)


@pytest.mark.parametrize(
    ("rating_a", "printed"),
    [
        (6, 7.67),
        (10, 4.6),
        (16, 2.875),
        (20, 2.3),
        (25, 1.84),
        (32, 1.44),
        (40, 1.15),
        (50, 0.92),
        (63, 0.73),
    ],
)
def test_loop_limits_of_type_b_breakers(rating_a: float, printed: float) -> None:
    """Linsley, Basic Electrical Installation Work, table of largest Zs at 230 V for type B breakers, which
    trip at once from five times their rating.
    """
    limit = loop_limit(voltage_v=230, voltage_factor=1, trip_a=5 * rating_a)
    assert abs(limit - printed) <= 0.005


def test_loop_limit_for_a_cold_reading() -> None:
    """Reader's question on DIN VDE 0100-600:2017-06 in the trade journal "de" (elektro.net): two thirds of
    230 V over 160 A is 0.958 Ω.
    """
    assert round(loop_limit(voltage_v=230, voltage_factor=2 / 3, trip_a=160), 3) == 0.958


@pytest.mark.parametrize(("tripping_a", "printed"), [(0.03, 1667), (0.3, 167)])
def test_electrode_limits_of_residual_current_devices(tripping_a: float, printed: float) -> None:
    """BS 7671:2018 table 41.5 note and IET Guidance Note 3: 50 V over the rated residual current, in whole
    ohms.
    """
    assert round(electrode_limit(touch_v=50, current_a=tripping_a)) == printed
