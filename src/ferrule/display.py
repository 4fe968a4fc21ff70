"""Numbers, verdicts and workings as people read them. Nothing else in the program formats a number."""

import math
import re
from collections.abc import Iterator, Mapping
from typing import Any

from ferrule.checks.question import Finding, Remedy
from ferrule.constraint import Constraint, Verdict
from ferrule.quantity import SUFFIXES, bare_name, unit_of_name
from ferrule.working import Calculated, Given, Read, Step

#: the word at first sight for each verdict
WORDS: Mapping[Verdict, str] = {
    Verdict.PASS: "good",
    Verdict.CAUTION: "look",
    Verdict.UNKNOWN: "find out",
    Verdict.FAIL: "stop",
}

_SCALES: Mapping[str, tuple[tuple[float, float, str], ...]] = {
    "A": ((1e4, 1e3, "kA"), (0.1, 1, "A"), (0, 1e-3, "mA")),
    "V": ((1e5, 1e3, "kV"), (0, 1, "V")),
    "Ω": ((1e6, 1e6, "MΩ"), (1e4, 1e3, "kΩ"), (0.1, 1, "Ω"), (0, 1e-3, "mΩ")),
    "W": ((1e3, 1e3, "kW"), (0, 1, "W")),
    "VA": ((1e3, 1e3, "kVA"), (0, 1, "VA")),
    "Wh": ((1e3, 1e3, "kWh"), (0, 1, "Wh")),
    "s": ((60 * 10, 60, "min"), (0.1, 1, "s"), (0, 1e-3, "ms")),
}


def number(value: float, digits: int = 3, toward: str = "nearest") -> str:
    """A number to so many significant figures, whole above that; `toward` is nearest, down or up."""
    if value == 0 or not math.isfinite(value):
        return f"{value:g}"
    places = digits - 1 - math.floor(math.log10(abs(value)))
    step = 10.0 ** -min(places, 9) if places > 0 else 1.0
    # A residue of binary arithmetic must not turn an exact value into the next step.
    whole = value / step
    near = round(whole)
    if math.isclose(whole, near, rel_tol=1e-9):
        steps = near
    else:
        steps = {"down": math.floor, "up": math.ceil}.get(toward, round)(whole)
    text = f"{steps * step:.{max(places, 0)}f}"
    return (text.rstrip("0").rstrip(".") if "." in text else text).replace("-", "−")


def quantity(value: Any, unit: str, digits: int = 3, toward: str = "nearest") -> str:
    """A value with its unit: `12.4 kA`, `0.35 Ω`, `−16 °C`."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if not isinstance(value, int | float):
        return str(value)
    for least, factor, scaled in _SCALES.get(unit, ()):
        if abs(value) >= least:
            value, unit = value / factor, scaled
            break
    shown = {"count": "", "°": "°"}.get(unit, f" {unit}" if unit else "")
    return number(value, digits, toward) + shown


def percent(share: float) -> str:
    """A share as whole percent, rounded to the cautious side."""
    return number(math.floor(share * 100 + 1e-9), 6) + " %"


def filled(constraint: Constraint) -> str:
    """A constraint's text with its numbers; for an unknown one, what to find out."""
    if constraint.verdict is Verdict.UNKNOWN:
        return "Find out: " + "; ".join(constraint.find_out)
    value, limit = _told_apart(constraint)
    words = {name: word(name, each) for name, each in constraint.words}
    return constraint.text.format_map({**words, "value": value, "limit": limit, **_bounds(constraint)})


def _bounds(constraint: Constraint) -> dict[str, str]:
    bounds = dict(constraint.words)
    return {
        name: quantity(bounds[name], constraint.unit, toward=toward)
        for name, toward in (("low", "up"), ("high", "down"))
        if name in bounds
    }


def _told_apart(constraint: Constraint) -> tuple[str, str]:
    """Value and limit, with as many figures as keep a miss from looking like a match."""
    if constraint.value is None or constraint.limit is None:
        return "", ""
    toward = {"at_most": "down", "at_least": "up"}.get(constraint.sense, "nearest")
    for digits in (3, 4, 5, 6):
        value = quantity(constraint.value, constraint.unit, digits)
        limit = quantity(constraint.limit, constraint.unit, digits, toward)
        if value != limit or constraint.value == constraint.limit:
            break
    return value, limit


def word(name: str, value: Any) -> str:
    """A template's parameter, in the unit its name ends in."""
    return quantity(value, unit_of_name(name) or "")


def remedy(item: Remedy) -> str:
    words = {name: word(name, value) for name, value in item.words.items()}
    if isinstance(item.words.get("margin"), float):
        words["margin"] = percent(item.words["margin"])
    return item.text.format_map(words)


def margin(constraint: Constraint) -> str:
    """The margin in words, empty where there is none."""
    if constraint.margin is None or constraint.verdict is Verdict.UNKNOWN:
        return ""
    return (
        f"{percent(constraint.margin)} margin"
        if constraint.margin >= 0
        else f"over by {percent(-constraint.margin)}"
    )


# Workings


def working(steps: tuple[Step, ...]) -> Iterator[str]:
    """One line for each step of a working."""
    for step in steps:
        if isinstance(step, Given):
            origin = f"  ({step.origin})" if step.origin else ""
            yield f"{_plain(step.name)} = {word(step.name, step.value)}{origin}"
        elif isinstance(step, Read):
            keys = f" [{', '.join(step.keys)}]" if step.keys else ""
            shown = quantity(step.value, step.unit, 4)
            yield f"{_plain(step.table)}{keys} = {shown}  ({step.source}; {step.grade.word})"
        else:
            yield from _calculated(step)


def _calculated(step: Calculated) -> Iterator[str]:
    unit = result_unit(step.function)
    expression = str(getattr(step.function, "formula", ""))
    name = _plain(step.function.__name__)
    yield f"{name} = {_with_names(expression)}"
    yield f"{' ' * len(name)} = {_with_numbers(expression, step.inputs)} = {quantity(step.value, unit, 4)}"


def result_unit(function: Any) -> str:
    """The unit in which an annotated function answers."""
    metadata = getattr(function.__annotations__.get("return"), "__metadata__", ())
    return next((each.symbol for each in metadata if hasattr(each, "symbol")), "")


_NAME = re.compile(r"[A-Za-z_][A-Za-z_0-9]*")
_SIGNS = (("**", "^"), ("*", "×"), ("-", "−"))


def _with_names(expression: str) -> str:
    return _signs(_NAME.sub(lambda m: _plain(bare_name(m.group())), expression))


def _with_numbers(expression: str, inputs: Mapping[str, Any]) -> str:
    def replaced(match: re.Match[str]) -> str:
        name = match.group()
        return word(name, inputs[name]) if name in inputs else name

    return _NAME.sub(replaced, _signs(expression))


def _signs(text: str) -> str:
    for written, sign in _SIGNS:
        text = text.replace(written, sign)
    return text


def _plain(name: str) -> str:
    base = bare_name(name) if name.rpartition("_")[2] in SUFFIXES else name
    return base.replace("_", " ")


def headline(finding: Finding) -> str:
    """A finding in one line: what governs, with its numbers and margin."""
    governing = finding.governed_by
    shown = margin(governing)
    return filled(governing) + (f"  ({shown})" if shown else "")
