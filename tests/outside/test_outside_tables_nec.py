"""The tables of the rulebook us-2023 against the standards and physics behind them."""

import math

import pytest

from ferrule import rules
from ferrule.rules.entry import Table

BOOK = rules.load("us-2023")
IEC = rules.load("iec-2024")


def table(name: str) -> Table:
    entry = BOOK.entry(name)
    assert isinstance(entry, Table)
    return entry


def read(name: str, row: str | float, column: str | None = None) -> float:
    return float(BOOK.cell(name, row, column).value)


def gauge(size: str) -> int:
    return 1 - int(size[0]) if size.endswith("/0") else int(size)


AWG = [size for size in table("conductor_area").rows if size != "250"]


def test_ambient_factors_are_their_formula() -> None:
    """NEC 2023 table 310.15(B)(1)(1), section 310.15(B): √((Tc − Ta)/(Tc − 30)) at the band's hot end.

    The printed factors are cut or rounded to two places by turns, hence 0.006.
    """
    factors = table("air_temperature_factor")
    compared = 0
    for ambient, cells in zip(factors.rows, factors.cells, strict=True):
        for limit, value in zip(factors.columns, cells, strict=True):
            if value is not None:
                exact = math.sqrt((float(limit) - float(ambient)) / (float(limit) - 30))
                assert value == pytest.approx(exact, abs=0.006), (ambient, limit)
                compared += 1
    assert compared == 39


@pytest.mark.parametrize("size", AWG)
def test_areas_are_those_of_the_wire_gauge(size: str) -> None:
    """ASTM B258: 5 · 92^((36 − n)/39) mil kept to a tenth; NEC 2023 rounds the square to tens or hundreds."""
    diameter_mil = round(5 * 92 ** ((36 - gauge(size)) / 39), 1)
    square = diameter_mil**2
    assert read("conductor_area", size) == round(square, -1 if square < 100_000 else -2)


@pytest.mark.parametrize("size", AWG)
@pytest.mark.parametrize("metal", ["cu", "al"])
def test_resistances_follow_from_the_metal_and_the_strands(size: str, metal: str) -> None:
    """IEC 60287-1-1:2006 table 1 for the metal, ASTM B8 for strands 2 % longer than their conductor.

    Three printed digits of resistance and the rounded area leave 0.6 %.
    """
    area_mm2 = read("conductor_area", size) * math.pi / 4 * 0.0254**2
    resistivity = float(IEC.cell("resistivity_20c", metal).value)
    warming = 1 + float(IEC.cell("temperature_coefficient", metal).value) * (75 - 20)
    ohm_per_kft = 1.02 * resistivity * warming / area_mm2 * 304.8
    assert read("conductor_resistance", size, metal) == pytest.approx(ohm_per_kft, rel=0.006)


@pytest.mark.parametrize("metal", ["cu", "al"])
def test_the_coefficient_at_75_c_is_the_one_at_20_c_seen_from_there(metal: str) -> None:
    """IEC 60287-1-1:2006 table 1 against NEC 2023 chapter 9 table 8: α75 = α20/(1 + 55·α20)."""
    at_20 = float(IEC.cell("temperature_coefficient", metal).value)
    assert round(at_20 / (1 + 55 * at_20), 5) == read("temperature_coefficient", metal)


def test_the_cold_factors_are_those_of_another_country() -> None:
    """NEC 2023 table 690.7(A) and UTE C 15-712-1:2013 print the same factors."""
    other = IEC.entry("cold_voltage_factor")
    assert isinstance(other, Table)
    assert (table("cold_voltage_factor").rows, table("cold_voltage_factor").cells) == (
        other.rows,
        other.cells,
    )
