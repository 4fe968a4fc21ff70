"""Conductor formulas against figures that standards print."""

import math

import pytest

from ferrule.physics.conductor import adiabatic_k, ambient_factor, resistance_at, temperature_factor
from ferrule.quantity import Size

# K and β of the metals: IEC 60364-5-54:2011 table A.54.1
COPPER, ALUMINIUM, STEEL = (226, 234.5), (148, 228), (78, 202)


@pytest.mark.parametrize(
    ("metal", "initial_c", "final_c", "printed"),
    [
        # IEC 60364-4-43:2008 table 43A: thermoplastic, thermosetting and rubber insulation
        (COPPER, 70, 160, 115), (COPPER, 70, 140, 103), (COPPER, 90, 160, 100), (COPPER, 90, 140, 86),
        (COPPER, 90, 250, 143), (COPPER, 60, 200, 141),
        (ALUMINIUM, 70, 160, 76), (ALUMINIUM, 70, 140, 68), (ALUMINIUM, 90, 160, 66),
        (ALUMINIUM, 90, 140, 57), (ALUMINIUM, 90, 250, 94), (ALUMINIUM, 60, 200, 93),
        # IEC 60364-5-54:2011 table A.54.2: separate protective conductors
        (COPPER, 30, 160, 143), (COPPER, 30, 140, 133), (COPPER, 30, 250, 176),
        (ALUMINIUM, 30, 160, 95), (ALUMINIUM, 30, 140, 88), (ALUMINIUM, 30, 250, 116),
        (STEEL, 30, 160, 52), (STEEL, 30, 140, 49), (STEEL, 30, 250, 64),
        # IEC 60364-5-54:2011 table A.54.5: armour and sheaths of steel
        (STEEL, 60, 200, 51), (STEEL, 80, 200, 46),
    ],
)  # fmt: skip
def test_k_is_what_the_tables_print(
    metal: tuple[float, float], initial_c: float, final_c: float, printed: int
) -> None:
    """IEC 60364-4-43:2008 table 43A and IEC 60364-5-54:2011 tables A.54.2 and A.54.5, printed in whole
    numbers; aluminium from 90 to 250 °C is 94.5, which the table cuts.
    """
    k = adiabatic_k(material_factor=metal[0], beta_c=metal[1], initial_c=initial_c, final_c=final_c)
    assert abs(k - printed) <= 0.5


AMBIENT_C = range(10, 85, 5)
IEC_AIR_70 = (1.22, 1.17, 1.12, 1.06, 1.00, 0.94, 0.87, 0.79, 0.71, 0.61, 0.50)
IEC_AIR_90 = (1.15, 1.12, 1.08, 1.04, 1.00, 0.96, 0.91, 0.87, 0.82, 0.76, 0.71, 0.65, 0.58, 0.50, 0.41)
IEC_GROUND_70 = (1.10, 1.05, 1.00, 0.95, 0.89, 0.84, 0.77, 0.71, 0.63, 0.55, 0.45)
IEC_GROUND_90 = (1.07, 1.04, 1.00, 0.96, 0.93, 0.89, 0.85, 0.80, 0.76, 0.71, 0.65, 0.60, 0.53, 0.46, 0.38)


@pytest.mark.parametrize(
    ("limit_c", "reference_c", "row"),
    [(70, 30, IEC_AIR_70), (90, 30, IEC_AIR_90), (70, 20, IEC_GROUND_70), (90, 20, IEC_GROUND_90)],
)
def test_ambient_factors_of_the_iec_tables(
    limit_c: float, reference_c: float, row: tuple[float, ...]
) -> None:
    """IEC 60364-5-52:2009 tables B.52.14 (air, 30 °C) and B.52.15 (ground, 20 °C), printed to two places."""
    for ambient_c, printed in zip(AMBIENT_C, row, strict=False):
        factor = ambient_factor(limit_c=limit_c, ambient_c=ambient_c, reference_c=reference_c)
        assert round(factor, 2) == printed, ambient_c


NEC_UPPER_END_C = (10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60)
NEC_60 = (1.29, 1.22, 1.15, 1.08, 1.00, 0.91, 0.82, 0.71, 0.58, 0.41)
NEC_75 = (1.20, 1.15, 1.11, 1.05, 1.00, 0.94, 0.88, 0.82, 0.75, 0.67, 0.58)
NEC_90 = (1.15, 1.12, 1.08, 1.04, 1.00, 0.96, 0.91, 0.87, 0.82, 0.76, 0.71)


@pytest.mark.parametrize(("limit_c", "row"), [(60, NEC_60), (75, NEC_75), (90, NEC_90)])
def test_ambient_factors_of_the_nec_table(limit_c: float, row: tuple[float, ...]) -> None:
    """NFPA 70-2023 table 310.15(B)(1)(1), whose bands hold the factor of their upper end."""
    for ambient_c, printed in zip(NEC_UPPER_END_C, row, strict=False):
        factor = ambient_factor(limit_c=limit_c, ambient_c=ambient_c, reference_c=30)
        assert round(factor, 2) == printed, ambient_c


@pytest.mark.parametrize(
    ("beta_c", "at_c", "printed"),
    [(234.5, 20, 0.00393), (228, 20, 0.00403), (234.5, 75, 0.00323), (228, 75, 0.00330)],
)
def test_the_rise_of_one_kelvin_is_the_printed_coefficient(
    beta_c: float, at_c: float, printed: float
) -> None:
    """Coefficients at 20 °C of IEC 60287-1-1:2006 table 1, at 75 °C of the notes to NFPA 70-2023 chapter 9
    table 8, for copper and aluminium.
    """
    rise = temperature_factor(beta_c=beta_c, from_c=at_c, to_c=at_c + 1) - 1
    assert round(rise, 5) == printed


def test_the_handy_factor_of_a_textbook_is_within_half_a_per_cent() -> None:
    """Whitfield, The Electrician's Guide, 5.3.6: resistances at 20 °C times 1.20 at 70 °C, which rounds the
    rise to 0.004 a kelvin.
    """
    hot = resistance_at(resistance_ohm_per_km=1, beta_c=234.5, from_c=20, to_c=70)
    assert hot == pytest.approx(1.20, rel=0.005)


@pytest.mark.parametrize(
    ("gauge", "circular_mils"),
    [("18", 1620), ("16", 2580), ("14", 4110), ("12", 6530), ("10", 10380), ("8", 16510), ("6", 26240),
     ("4", 41740), ("3", 52620), ("2", 66360), ("1", 83690), ("1/0", 105600), ("2/0", 133100),
     ("3/0", 167800), ("4/0", 211600)],
)  # fmt: skip
def test_gauge_areas_are_the_printed_circular_mils(gauge: str, circular_mils: int) -> None:
    """NFPA 70-2023 chapter 9 table 8: circular mils, printed to ten (from 100,000 to a hundred) of the
    square of a diameter that ASTM B258 rounds to a tenth of a mil.
    """
    diameter_mil = round(math.sqrt(Size("AWG", gauge).area_mm2 * 4 / math.pi) / 0.0254, 1)
    step = 10 if circular_mils < 100_000 else 100
    assert round(diameter_mil**2 / step) * step == circular_mils


@pytest.mark.parametrize(
    ("size", "printed_mm2", "places"),
    [(Size("AWG", "14"), 2.08, 2), (Size("AWG", "12"), 3.31, 2), (Size("AWG", "6"), 13.30, 2),
     (Size("AWG", "4"), 21.15, 2), (Size("AWG", "1"), 42.41, 2), (Size("AWG", "4/0"), 107.2, 1),
     (Size("kcmil", "250"), 127, 0), (Size("kcmil", "500"), 253, 0)],
)  # fmt: skip
def test_areas_in_square_millimetres(size: Size, printed_mm2: float, places: int) -> None:
    """NFPA 70-2023 chapter 9 table 8, column of areas in mm²."""
    assert round(size.area_mm2, places) == printed_mm2
