"""A number with its unit, rounded to the side that is asked for."""

import math
import re
from collections.abc import Callable, Mapping
from typing import Any, Literal, NamedTuple

from ferrule.quantity import UNITS, unit_of_name

Toward = Literal["nearest", "down", "up"]

_TOWARD: Mapping[Toward, Callable[[float], int]] = {"nearest": round, "down": math.floor, "up": math.ceil}


class Scale(NamedTuple):
    """What a value in the canonical unit is divided by, and the symbol it then has."""

    factor: float
    symbol: str


#: canonical unit -> from which size on a value reads best in which scale, the largest first
_SCALES: Mapping[str, tuple[tuple[float, Scale], ...]] = {
    "A": ((1e3, Scale(1e3, "kA")), (0.1, Scale(1, "A")), (0, Scale(1e-3, "mA"))),
    "V": ((1e4, Scale(1e3, "kV")), (0, Scale(1, "V"))),
    "Ω": ((1e6, Scale(1e6, "MΩ")), (1e4, Scale(1e3, "kΩ")), (0.1, Scale(1, "Ω")), (0, Scale(1e-3, "mΩ"))),
    "W": ((1e3, Scale(1e3, "kW")), (0, Scale(1, "W"))),
    "VA": ((1e3, Scale(1e3, "kVA")), (0, Scale(1, "VA"))),
    "Wh": ((1e3, Scale(1e3, "kWh")), (0, Scale(1, "Wh"))),
    "bit/s": ((1e6, Scale(1e6, "Mbit/s")), (1.25e5, Scale(1e3, "kbit/s")), (0, Scale(1, "bit/s"))),
    "s": ((600, Scale(60, "min")), (0.1, Scale(1, "s")), (0, Scale(1e-3, "ms"))),
}

#: every symbol that may stand behind a number
SYMBOLS = (frozenset(UNITS) | {scale.symbol for scales in _SCALES.values() for _, scale in scales}) - {""}

_UNIT = "|".join(re.escape(symbol) for symbol in sorted(SYMBOLS, key=len, reverse=True))
_BEFORE_UNIT = re.compile(rf"(?<=\d) (?=(?:{_UNIT})(?!\w))")
TIE = "\N{NO-BREAK SPACE}"
"""A space at which no line breaks."""

_BEFORE_LIMIT = re.compile(r"(?<=[≤≥]) (?=\S)")


def number(value: float, digits: int = 3, toward: Toward = "nearest") -> str:
    """A number to so many significant figures, whole above that, with a true minus sign."""
    if not math.isfinite(value):
        return f"{value:g}".replace("-", "−")
    text = f"{rounded(value, digits, toward):.{_places(value, digits)}f}"
    return (text.rstrip("0").rstrip(".") if "." in text else text).replace("-", "−")


def rounded(value: float, digits: int, toward: Toward) -> float:
    """A finite value to so many significant figures, whole above that."""
    step = 10.0 ** -_places(value, digits)
    # A residue of binary arithmetic must not turn an exact value into the next step.
    steps = value / step
    near = round(steps)
    return (near if math.isclose(steps, near, rel_tol=1e-9) else _TOWARD[toward](steps)) * step


def _places(value: float, digits: int) -> int:
    """How many places behind the point show so many figures; beyond the fifteenth nothing is meant."""
    return min(max(digits - 1 - math.floor(math.log10(abs(value))), 0), 15) if value else 0


def scale(value: float, unit: str) -> Scale:
    """The scale in which a value of this size reads best."""
    fitting = (scale for least, scale in _SCALES.get(unit, ()) if value and abs(value) >= least)
    return next(fitting, Scale(1, unit))


def quantity(value: Any, unit: str, digits: int = 3, toward: Toward = "nearest") -> str:
    """A value with its unit: `12.4 kA`, `0.35 Ω`, `−16 °C`; a yes or no and a word as they are."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if not isinstance(value, int | float):
        return str(value)
    factor, symbol = scale(value, unit)
    return with_unit(number(value / factor, digits, toward), symbol)


def with_unit(text: str, symbol: str) -> str:
    """A number's text with the symbol behind it."""
    return text + {"": "", "count": "", "°": "°"}.get(symbol, f" {symbol}")


def word(name: str, value: Any, digits: int = 3) -> str:
    """A named value, in the unit its name ends in."""
    return quantity(value, unit_of_name(name) or "", digits)


def percent(share: float, toward: Literal["down", "up"] = "down") -> str:
    """A share as whole percent; rounded down unless asked otherwise, so that no margin is told too large."""
    return with_unit(number(_TOWARD[toward](round(share * 100, 9))), "%")


def tied(text: str) -> str:
    """The text with a space that does not break between each number and its unit, and before a limit."""
    return _BEFORE_LIMIT.sub(TIE, _BEFORE_UNIT.sub(TIE, text))
