"""Quantities: what a unit is, how a person may write it, and what its suffix in a name means.

Inside the program every quantity is a plain float in one unit, and the unit stands at the end of its name
(`length_m`, `area_mm2`). Text becomes such a float here and nowhere else.
"""

import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Annotated, Any, NamedTuple, TypeVar

F = TypeVar("F", bound=Callable[..., Any])


class QuantityError(ValueError):
    """A text that is not a quantity of the wanted kind; the message says what is allowed."""


class Scale(NamedTuple):
    """How a written unit becomes the canonical one: value × factor + offset."""

    factor: float
    offset: float = 0.0


_FOOT = 0.3048  # exact, international foot
_POUND_KG = 0.45359237  # exact, international avoirdupois pound
_KCMIL_MM2 = math.pi / 4 * 25.4**2 / 1_000  # a thousand circles of 0.001 inch diameter
HORSEPOWER_W = 745.6998715822702  # mechanical horsepower: 550 foot-pounds a second

#: canonical unit -> every accepted spelling of it and of its relatives
UNITS: Mapping[str, Mapping[str, Scale]] = {
    "m": {
        "m": Scale(1),
        "mm": Scale(1e-3),
        "cm": Scale(1e-2),
        "km": Scale(1e3),
        "ft": Scale(_FOOT),
        "in": Scale(_FOOT / 12),
    },
    "mm": {
        "mm": Scale(1),
        "cm": Scale(10),
        "m": Scale(1e3),
        "in": Scale(_FOOT / 12 * 1e3),
        "ft": Scale(_FOOT * 1e3),
    },
    "kg": {"kg": Scale(1), "g": Scale(1e-3), "lb": Scale(_POUND_KG)},
    "N": {"N": Scale(1), "kN": Scale(1e3)},
    "N·m": {"N·m": Scale(1), "Nm": Scale(1)},
    "N/mm²": {"N/mm²": Scale(1), "N/mm2": Scale(1), "MPa": Scale(1)},
    "kN/m²": {"kN/m²": Scale(1), "kN/m2": Scale(1), "kPa": Scale(1), "N/m²": Scale(1e-3), "Pa": Scale(1e-3)},
    "bit/s": {"bit/s": Scale(1), "baud": Scale(1), "kbit/s": Scale(1e3), "Mbit/s": Scale(1e6)},
    "dB(A)": {"dB(A)": Scale(1), "dBA": Scale(1)},
    "dBm": {"dBm": Scale(1)},
    "dB": {"dB": Scale(1)},
    "1/min": {"1/min": Scale(1), "/min": Scale(1), "1/h": Scale(1 / 60), "/h": Scale(1 / 60)},
    "mm²": {"mm²": Scale(1), "mm2": Scale(1), "mm^2": Scale(1), "sqmm": Scale(1), "kcmil": Scale(_KCMIL_MM2)},
    "A": {"A": Scale(1), "mA": Scale(1e-3), "kA": Scale(1e3)},
    "V": {"V": Scale(1), "mV": Scale(1e-3), "kV": Scale(1e3)},
    "Ω": {
        "Ω": Scale(1),
        "ohm": Scale(1),
        "mΩ": Scale(1e-3),
        "mohm": Scale(1e-3),
        "kΩ": Scale(1e3),
        "kohm": Scale(1e3),
        "MΩ": Scale(1e6),
        "Mohm": Scale(1e6),
    },
    "Ω/km": {
        "Ω/km": Scale(1),
        "ohm/km": Scale(1),
        "mΩ/m": Scale(1),
        "mohm/m": Scale(1),
        "mV/A/m": Scale(1),
        "Ω/kft": Scale(1 / _FOOT),
        "ohm/kft": Scale(1 / _FOOT),
    },
    "Ω·mm²/m": {
        "Ω·mm²/m": Scale(1),
        "Ωmm²/m": Scale(1),
        "ohm·mm²/m": Scale(1),
        "ohm mm²/m": Scale(1),
        "ohm mm2/m": Scale(1),
    },
    "Ω·m": {"Ω·m": Scale(1), "Ωm": Scale(1), "ohm·m": Scale(1), "ohm m": Scale(1), "ohmm": Scale(1)},
    "°C": {
        "°C": Scale(1),
        "C": Scale(1),
        "degC": Scale(1),
        "°F": Scale(5 / 9, -160 / 9),
        "F": Scale(5 / 9, -160 / 9),
        "degF": Scale(5 / 9, -160 / 9),
    },
    "K": {"K": Scale(1)},
    "%/K": {"%/K": Scale(1), "%/°C": Scale(1), "%/C": Scale(1)},
    "V/K": {"V/K": Scale(1), "V/°C": Scale(1), "V/C": Scale(1), "mV/K": Scale(1e-3), "mV/°C": Scale(1e-3)},
    "A/K": {"A/K": Scale(1), "A/°C": Scale(1), "mA/K": Scale(1e-3), "mA/°C": Scale(1e-3)},
    "W": {"W": Scale(1), "kW": Scale(1e3), "hp": Scale(HORSEPOWER_W)},
    "VA": {"VA": Scale(1), "kVA": Scale(1e3)},
    "kVA/hp": {"kVA/hp": Scale(1)},
    "Wh": {"Wh": Scale(1), "kWh": Scale(1e3)},
    "Ah": {"Ah": Scale(1)},
    "s": {"s": Scale(1), "ms": Scale(1e-3), "min": Scale(60), "h": Scale(3600)},
    "°": {"°": Scale(1), "deg": Scale(1)},
    "%": {"%": Scale(1)},
    "W/m²": {"W/m²": Scale(1), "W/m2": Scale(1), "kW/m²": Scale(1e3), "kW/m2": Scale(1e3)},
    "m/s": {"m/s": Scale(1), "km/h": Scale(1 / 3.6)},
    "W/(m²·K)": {"W/(m²·K)": Scale(1), "W/m²K": Scale(1), "W/m2K": Scale(1)},
    "W·s/(m³·K)": {"W·s/(m³·K)": Scale(1), "Ws/m³K": Scale(1), "Ws/m3K": Scale(1)},
    "m²": {"m²": Scale(1), "m2": Scale(1), "ft²": Scale(_FOOT**2), "ft2": Scale(_FOOT**2)},
    "Ω·m²": {
        "Ω·m²": Scale(1),
        "ohm·m²": Scale(1),
        "ohm m2": Scale(1),
        "MΩ·m²": Scale(1e6),
        "Mohm·m²": Scale(1e6),
        "Mohm m2": Scale(1e6),
    },
    "Hz": {"Hz": Scale(1)},
    # no kA²s: some sheets mean a thousand A²s by it, others the square of a kiloampere
    "A²s": {"A²s": Scale(1), "A2s": Scale(1)},
    "K·m/W": {"K·m/W": Scale(1), "Km/W": Scale(1), "K m/W": Scale(1)},
    "1/km²/year": {"1/km²/year": Scale(1), "/km²/year": Scale(1), "/km2/year": Scale(1)},
    "": {"": Scale(1)},
}

#: the last part of a name -> its unit; the glossary of suffixes
SUFFIXES: Mapping[str, str] = {
    "m": "m", "mm2": "mm²", "a": "A", "v": "V", "ohm": "Ω", "ohm_per_km": "Ω/km", "ohm_m": "Ω·m", "c": "°C",
    "k": "K", "pct_per_k": "%/K", "v_per_k": "V/K", "a_per_k": "A/K", "w": "W", "va": "VA", "wh": "Wh",
    "ah": "Ah", "s": "s", "deg": "°", "pct": "%", "w_per_m2": "W/m²", "m_per_s": "m/s", "hz": "Hz",
    "a2s": "A²s", "km_per_w": "K·m/W", "per_km2_year": "1/km²/year", "ohm_mm2_per_m": "Ω·mm²/m",
    "kva_per_hp": "kVA/hp", "m2": "m²", "ohm_m2": "Ω·m²", "w_per_m2_k": "W/(m²·K)",
    "w_s_per_m3_k": "W·s/(m³·K)", "mm": "mm", "kg": "kg", "n": "N", "n_m": "N·m", "n_per_mm2": "N/mm²",
    "kn_per_m2": "kN/m²", "bit_per_s": "bit/s", "dba": "dB(A)", "dbm": "dBm", "db": "dB", "per_min": "1/min",
}  # fmt: skip


def unit_of_name(name: str) -> str | None:
    """The unit that a name's suffix promises, or None for a name without one."""
    suffix = suffix_of_name(name)
    return SUFFIXES[suffix] if suffix else None


def suffix_of_name(name: str) -> str | None:
    """The unit suffix of a name, longest match first: `rise_pct_per_k` ends in `pct_per_k`."""
    _, *ends = name.split("_")
    return next((end for at in range(len(ends)) if (end := "_".join(ends[at:])) in SUFFIXES), None)


def bare_name(name: str) -> str:
    """The name without its unit suffix, as a person writes it in a file: `length_m` is `length`."""
    suffix = suffix_of_name(name)
    return name[: -len(suffix) - 1] if suffix else name


_NUMBER = re.compile(r"([+-]?(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?)(?:\s*/\s*([0-9]+))?")

_SMALLEST = 1e-15  # in any unit here; nearer to zero is a slip, and dividing by it would leave the floats
_LONGEST_TEXT = 60  # characters; no quantity needs more, and a hostile file may bring millions

#: characters that look alike, as keyboards and copied datasheets write them
_LOOK_ALIKES = str.maketrans({"\u2126": "Ω", "−": "-", "º": "°", "⋅": "·", "℃": "°C", "℉": "°F"})


def split(text: str) -> tuple[float, str]:
    """Split `30 m` into 30.0 and `m`.

    Raises `QuantityError` where no number stands first or the number is not finite.
    """
    if len(text) > _LONGEST_TEXT:
        raise QuantityError("a number and its unit")
    written = text.strip().translate(_LOOK_ALIKES)
    match = _NUMBER.match(written)
    if match is None or match.group(2):
        raise QuantityError("a number and its unit")
    value = float(match.group(1))
    if not math.isfinite(value):
        raise QuantityError("a finite number and its unit")
    return value, written[match.end() :].strip()


def _nearest(written: str, spellings: Mapping[str, Scale]) -> str | None:
    """The spelling most like what was written; the case of a letter is the commonest slip."""
    from difflib import SequenceMatcher, get_close_matches

    same = [spelling for spelling in spellings if spelling.casefold() == written.casefold()]
    if same:
        return max(same, key=lambda spelling: sum(a == b for a, b in zip(spelling, written, strict=False)))
    close = get_close_matches(written, spellings, n=3)
    return max(  # the first of those as near as each other: °C before °F
        (spelling for spelling in spellings if spelling in close),
        key=lambda spelling: SequenceMatcher(None, spelling, written).ratio(),
        default=None,
    )


class Unit(NamedTuple):
    """The unit of an annotated float and the range in which it makes sense.

    Used as `Annotated[float, Unit("m", 0, 10_000)]`: the annotation tells a reader what to accept, the
    list of calculators what to print, and the test of names what suffix to expect.
    """

    symbol: str
    low: float = -math.inf
    high: float = math.inf
    whole: bool = False

    def parse(self, given: str | float | int) -> float:
        """Turn `30 m`, `98 ft` or (where one unit is possible) `30` into a float in this unit; a whole
        number stays an int.

        Raises `QuantityError` saying what is allowed.
        """
        value = self._convert(given)
        if 0 < abs(value) < _SMALLEST:
            raise QuantityError(self.allowed())
        if not self.low <= value <= self.high:
            raise QuantityError(f"a {'whole ' if self.whole else ''}number {self._limits()}")
        if self.whole and value != int(value):
            raise QuantityError(self.allowed())
        return int(value) if self.whole else value

    def _convert(self, given: str | float | int) -> float:
        spellings = UNITS[self.symbol]
        number, written = self._number_and_unit(given)
        if written == "" and self._one_unit:
            return number
        scale = spellings.get(written)
        if scale is None:
            near = _nearest(written, spellings)
            raise QuantityError(self.allowed() + (f"; did you mean '{near}'?" if near else ""))
        value = number * scale.factor + scale.offset
        if not math.isfinite(value):
            raise QuantityError(self.allowed())
        return value

    def _number_and_unit(self, given: Any) -> tuple[float, str]:
        """The number and the unit as written; a file may bring a bool, a list or a number beyond floats."""
        try:
            if isinstance(given, str):
                return split(given)
            if isinstance(given, float | int) and not isinstance(given, bool) and math.isfinite(given):
                return float(given), ""
        except (QuantityError, OverflowError):
            pass
        raise QuantityError(self.allowed())

    @property
    def _one_unit(self) -> bool:
        """Whether all spellings mean one and the same unit, so that a bare number cannot be misread."""
        return len(set(UNITS[self.symbol].values())) == 1

    def allowed(self) -> str:
        """What may be written, in words."""
        spellings = [s for s in UNITS[self.symbol] if s]
        kind = f"a number with one of the units {', '.join(spellings)}" if spellings else "a plain number"
        if spellings and self._one_unit:
            kind = f"a number, with or without its unit {spellings[0]}"
        if self.whole:
            kind = kind.replace("a number", "a whole number").replace("a plain", "a whole")
        limits = self._limits()
        return f"{kind}, {limits}" if limits else kind

    def _limits(self) -> str:
        """The range in words, empty where there is none."""
        bounds = []
        if math.isfinite(self.low):
            bounds.append(f"not below {self.low:,.13g}")
        if math.isfinite(self.high):
            bounds.append(f"not above {self.high:,.13g}")
        return f"{' and '.join(bounds)} {self.symbol}".strip()

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> Any:
        from pydantic_core import core_schema

        return core_schema.no_info_plain_validator_function(self.parse, metadata={"unit": self})


# One alias for each kind of quantity, with the range beyond which a value is a slip of the pen.
LengthM = Annotated[float, Unit("m", 0, 10_000)]
LengthMm = Annotated[float, Unit("mm", 0, 100_000)]
MassKg = Annotated[float, Unit("kg", 0, 10_000)]
ForceN = Annotated[float, Unit("N", 0, 1e7)]
TorqueNM = Annotated[float, Unit("N·m", 0, 10_000)]
StressNPerMm2 = Annotated[float, Unit("N/mm²", 0, 10_000)]
SurfaceLoadKnPerM2 = Annotated[float, Unit("kN/m²", -50, 50)]
BitRateBitPerS = Annotated[float, Unit("bit/s", 0, 1e9)]
SoundDba = Annotated[float, Unit("dB(A)", 0, 150)]
PowerLevelDbm = Annotated[float, Unit("dBm", -200, 50)]
LevelDb = Annotated[float, Unit("dB", -100, 100)]
LossDb = Annotated[float, Unit("dB", 0, 100)]
FrequencyPerMin = Annotated[float, Unit("1/min", 0, 100)]
AltitudeM = Annotated[float, Unit("m", -430, 6_000)]
AreaMm2 = Annotated[float, Unit("mm²", 0, 2_000)]
CurrentA = Annotated[float, Unit("A", 0, 1_000_000)]
VoltageV = Annotated[float, Unit("V", 0, 100_000)]
ResistanceOhm = Annotated[float, Unit("Ω", 0, 1e12)]
ResistanceOhmPerKm = Annotated[float, Unit("Ω/km", 0, 1_000)]
ResistivityOhmMm2PerM = Annotated[float, Unit("Ω·mm²/m", 0, 10)]
ResistivityOhmM = Annotated[float, Unit("Ω·m", 0, 100_000)]
TemperatureC = Annotated[float, Unit("°C", -90, 1_100)]
DifferenceK = Annotated[float, Unit("K", -200, 1_200)]
PowerW = Annotated[float, Unit("W", 0, 10_000_000)]
ApparentPowerVa = Annotated[float, Unit("VA", 0, 10_000_000)]
EnergyWh = Annotated[float, Unit("Wh", 0, 1e9)]
ChargeAh = Annotated[float, Unit("Ah", 0, 1e6)]
TimeS = Annotated[float, Unit("s", 0, 1e9)]
AngleDeg = Annotated[float, Unit("°", -360, 360)]
SharePct = Annotated[float, Unit("%", -1_000, 1_000)]
IrradianceWPerM2 = Annotated[float, Unit("W/m²", 0, 2_000)]
SpeedMPerS = Annotated[float, Unit("m/s", 0, 100)]
FrequencyHz = Annotated[float, Unit("Hz", 0, 1_000)]
EnergyLetThroughA2s = Annotated[float, Unit("A²s", 0, 1e12)]
ThermalResistivityKmPerW = Annotated[float, Unit("K·m/W", 0, 20)]
RoofAreaM2 = Annotated[float, Unit("m²", 0, 100_000)]
InsulationOhmM2 = Annotated[float, Unit("Ω·m²", 0, 1e12)]
HeatLossWPerM2K = Annotated[float, Unit("W/(m²·K)", 0, 1_000)]
HeatLossByWindWSPerM3K = Annotated[float, Unit("W·s/(m³·K)", 0, 1_000)]
LockedRotorKvaPerHp = Annotated[float, Unit("kVA/hp", 0, 100)]
FlashDensityPerKm2Year = Annotated[float, Unit("1/km²/year", 0, 200)]
CoefficientPctPerK = Annotated[float, Unit("%/K", -5, 5)]
CoefficientVPerK = Annotated[float, Unit("V/K", -10, 10)]
CoefficientAPerK = Annotated[float, Unit("A/K", -10, 10)]
Ratio = Annotated[float, Unit("", -1e6, 1e6)]
PowerFactor = Annotated[float, Unit("", 0, 1)]
Count = Annotated[int, Unit("", 0, 1e6, whole=True)]


def formula(text: str) -> Callable[[F], F]:
    """Write a function's formula beside it, in its own parameter names, so that a working can print it once
    with the names and once with the numbers in their places.
    """

    def note(function: F) -> F:
        function.formula = text  # type: ignore[attr-defined]
        return function

    return note


def parse(text: str, unit: str) -> float:
    """Turn a text into a float in `unit`, without a range. Raises `QuantityError`."""
    return Unit(unit).parse(text)


_GAUGE = r"([1-4]/0|0{1,4}|0?[1-9]|[1-3][0-9]|40)"
_AMERICAN_SIZE = re.compile(
    rf"AWG\s*{_GAUGE}|{_GAUGE}\s*AWG|([1-9][0-9]{{2,3}})\s*(?:kcmil|MCM)", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class Size:
    """A conductor size by its own system and name: `Size("mm²", "4")`, `Size("AWG", "10")`.

    Sizes of different systems are never compared as numbers; `area_mm2` is the metal's cross-section, for
    formulas that need it.
    """

    system: str
    name: str

    @staticmethod
    @lru_cache(maxsize=256)  # a rulebook names the same few sizes again and again
    def parse(text: str) -> "Size":
        """Read `4 mm²`, `4 mm2`, `AWG 10`, `10 AWG`, `1/0 AWG`, `250 kcmil`.

        Raises `QuantityError` saying what is allowed.
        """
        american = _AMERICAN_SIZE.fullmatch(text.strip()) if len(text) <= _LONGEST_TEXT else None
        if american:
            gauge, kcmil = american.group(1) or american.group(2), american.group(3)
            if kcmil:
                return Size("kcmil", kcmil)
            if set(gauge) == {"0"}:  # 00 is the old way to write 2/0
                return Size("AWG", f"{len(gauge)}/0")
            return Size("AWG", gauge.lstrip("0"))
        try:
            if split(text)[1] in {"", "kcmil"}:
                raise QuantityError("mm²")
            area_mm2 = Unit("mm²", 0.01, 2_000).parse(text)
        except QuantityError:
            raise QuantityError(
                "a conductor size such as '4 mm²', 'AWG 10', '1/0 AWG' or '250 kcmil'"
            ) from None
        return Size("mm²", f"{area_mm2:g}")

    @property
    def area_mm2(self) -> float:
        """Cross-section of the metal; AWG by its defining series (ASTM B258), kcmil by the mil."""
        if self.system == "mm²":
            return float(self.name)
        if self.system == "kcmil":
            return float(self.name) * _KCMIL_MM2
        gauge = 1 - int(self.name[0]) if self.name.endswith("/0") else int(self.name)
        diameter_mm: float = 0.127 * 92 ** ((36 - gauge) / 39)
        return math.pi / 4 * diameter_mm**2

    def __str__(self) -> str:
        return f"{self.name} {self.system}"

    @classmethod
    def __get_pydantic_core_schema__(cls, source: Any, handler: Any) -> Any:
        from pydantic_core import core_schema

        def read(given: Any) -> Size:
            return given if isinstance(given, Size) else Size.parse(str(given))

        return core_schema.no_info_plain_validator_function(
            read, json_schema_input_schema=core_schema.str_schema(),
            serialization=core_schema.to_string_ser_schema(),
        )  # fmt: skip
