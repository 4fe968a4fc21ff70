"""Our table of units against pint, which has its own."""

import pint
import pytest

from ferrule.quantity import UNITS

#: our canonical unit, as pint spells it
CANONICAL = {
    "": "dimensionless", "%": "percent", "%/K": "percent / kelvin", "1/km²/year": "1 / kilometer**2 / year",
    "A": "ampere", "A/K": "ampere / kelvin", "Ah": "ampere * hour", "A²s": "ampere**2 * second",
    "Hz": "hertz", "K": "kelvin", "K·m/W": "kelvin * meter / watt", "V": "volt", "VA": "volt * ampere",
    "V/K": "volt / kelvin",
    "W": "watt", "W/(m²·K)": "watt / meter**2 / kelvin", "W/m²": "watt / meter**2", "Wh": "watt * hour",
    "W·s/(m³·K)": "watt * second / meter**3 / kelvin", "kVA/hp": "kilovolt * ampere / horsepower",
    "m": "meter", "mm²": "millimeter**2", "m²": "meter**2", "m/s": "meter / second", "s": "second",
    "°": "degree", "°C": "degree_Celsius", "Ω": "ohm", "Ω/km": "ohm / kilometer", "Ω·m": "ohm * meter",
    "Ω·mm²/m": "ohm * millimeter**2 / meter", "Ω·m²": "ohm * meter**2",
    "1/min": "1 / minute", "N": "newton", "N/mm²": "newton / millimeter**2", "N·m": "newton * meter",
    "bit/s": "bit / second", "kN/m²": "kilonewton / meter**2",
    "kg": "kilogram", "mm": "millimeter",
}  # fmt: skip

#: the trade's spellings that pint does not read
UNKNOWN_TO_PINT = {
    "mm2", "sqmm", "Ωmm²/m", "ohm mm2/m", "Ωm", "ohmm", "W/m2", "kW/m2", "W/m2K", "Ws/m³K", "Ws/m3K", "m2",
    "ft2", "ohm m2", "Mohm m2", "A2s", "Km/W", "/km²/year", "/km2/year",
    "/min", "/h", "N/mm2", "kN/m2",
}  # fmt: skip

#: logarithmic levels, which pint keeps apart from other units
LEVELS = {"dB", "dBm", "dB(A)"}

#: spellings that pint reads as something else: coulomb, farad, a count of threads, and a slash that ends at
#: the next factor
ANOTHER_THING_TO_PINT = {"C", "F", "%/C", "V/C", "Nm", "W/m²K"}

ureg: pint.UnitRegistry[float] = pint.UnitRegistry()


def _known_spellings() -> list[tuple[str, str]]:
    skipped = UNKNOWN_TO_PINT | ANOTHER_THING_TO_PINT
    return [
        (symbol, text)
        for symbol, texts in UNITS.items()
        for text in texts
        if symbol not in LEVELS and text not in skipped
    ]


@pytest.mark.parametrize(("symbol", "written"), _known_spellings())
@pytest.mark.parametrize("number", [0.0, 1.0, -40.0, 123.456])
def test_a_spelling_means_what_pint_means_by_it(symbol: str, written: str, number: float) -> None:
    """The default registry of pint (its definitions cite NIST SP 811 and the CODATA constants)."""
    scale = UNITS[symbol][written]
    theirs = ureg.Quantity(number, ureg.parse_units(written)).to(CANONICAL[symbol]).magnitude
    assert number * scale.factor + scale.offset == pytest.approx(theirs, rel=1e-12, abs=1e-12)


def test_the_left_out_spellings_are_really_unknown_or_other() -> None:
    """So that the comparison above leaves out no more than it must."""
    unknown, other = set(), set()
    for symbol in UNITS.keys() - LEVELS:
        for written in UNITS[symbol]:
            try:
                unit = ureg.parse_units(written)
            except (pint.errors.UndefinedUnitError, pint.errors.DefinitionSyntaxError):
                unknown.add(written)
            else:
                if unit.dimensionality != ureg.parse_units(CANONICAL[symbol]).dimensionality:
                    other.add(written)
    assert unknown == UNKNOWN_TO_PINT
    assert other == ANOTHER_THING_TO_PINT
