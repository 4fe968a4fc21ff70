"""What a constraint and a remedy say, with their numbers in their places."""

from collections.abc import Mapping
from typing import NamedTuple

from ferrule.checks.question import Remedy
from ferrule.constraint import Constraint, Verdict
from ferrule.display.numbers import Toward, number, percent, rounded, scale, with_unit, word

#: the word at first sight for each verdict
WORDS: Mapping[Verdict, str] = {
    Verdict.PASS: "good",
    Verdict.CAUTION: "look",
    Verdict.UNKNOWN: "find out",
    Verdict.FAIL: "stop",
}

_MOST_DIGITS = 10

#: how many figures a limit begins with where three would claim more than its source knows
_FIGURES = {"kg": 2}
_IN_STEPS = frozenset({"mm²"})


class _Limit(NamedTuple):
    """A limit, and the side to which rounding it is safe."""

    value: float
    toward: Toward


def filled(constraint: Constraint) -> str:
    """A constraint's text with its numbers; for an unknown one, what to find out."""
    if constraint.verdict is Verdict.UNKNOWN:
        return "Find out: " + "; ".join(constraint.find_out)
    words = {name: word(name, each) for name, each in constraint.words}
    return constraint.text.format_map({**words, **measured(constraint)})


def comparison(kept: Constraint) -> tuple[str, str, str]:
    """Value, sign and limit of a limit that is kept, in brief: ("517 V", "≤", "600 V").

    Empty texts where nothing is measured.
    """
    if kept.value is None or kept.limit is None:
        return "", "", ""
    texts = measured(kept)
    return texts["value"], "≥" if _minimum(kept) else "≤", texts["limit"]


def name(constraint: Constraint) -> str:
    """What a limit is called: `inverter input`."""
    return constraint.name.replace("_", " ")


def margin(constraint: Constraint) -> str:
    """The margin in words: `13 % margin`, `4 % over`, `2 % short`.

    Empty where there is none, where value and limit are equal and say so themselves, and for standard sizes,
    of which the next is what counts.
    """
    if constraint.margin is None or constraint.value is None or constraint.limit is None:
        return ""
    if constraint.unit in _IN_STEPS:
        return ""
    if constraint.margin < 0:
        side = "over" if constraint.value > constraint.limit else "short"
        return f"{percent(-constraint.margin, 'up')} {side}"
    if constraint.verdict is not Verdict.PASS:
        return "no margin"
    return f"{share} margin" if (share := room(constraint)) else ""


def room(kept: Constraint) -> str:
    """The share of a kept limit that is left, in brief: `13 %`, `<1 %`, `ample`; empty as for `margin`."""
    if not kept.margin or kept.unit in _IN_STEPS:
        return ""
    if kept.margin > 1:
        return "ample"
    return "<1 %" if kept.margin < 0.01 else percent(kept.margin)


def remedy(item: Remedy) -> str:
    """A remedy's text with its words; a `margin` among them is a share."""
    words = {
        name: percent(value) if name == "margin" else word(name, value) for name, value in item.words.items()
    }
    return item.text.format_map(words)


def measured(constraint: Constraint) -> dict[str, str]:
    """A constraint's `value` and `limit`, and the `low` and `high` of a window, as texts.

    Each limit is rounded to its safe side, and all get as many figures as show on which side of the limit the
    value lies: 600.04 V never reads 600 V beside a limit of 600 V.
    """
    value, limits = constraint.value, _limits(constraint)
    if value is None or not limits:
        return {"value": "", "limit": ""}
    for digits in range(_FIGURES.get(constraint.unit, 3), _MOST_DIGITS + 1):
        shown = {
            name: _shown(limit.value, limit.toward, digits, constraint) for name, limit in limits.items()
        }
        ours = _shown(value, "nearest", max(digits, 3), constraint)
        if all(_order(ours.value, shown[name].value) == _order(value, limits[name].value) for name in limits):
            return {"value": ours.text, **{name: each.text for name, each in shown.items()}}
    # Apart by no more than binary arithmetic leaves behind: they are equal.
    texts = {name: _shown(limit.value, "nearest", 3, constraint).text for name, limit in limits.items()}
    return {"value": _shown(value, "nearest", 3, constraint).text, **texts}


def _limits(constraint: Constraint) -> dict[str, _Limit]:
    if constraint.limit is None:
        return {}
    limits = {"limit": _Limit(constraint.limit, "up" if _minimum(constraint) else "down")}
    if constraint.sense == "within":
        bounds = dict(constraint.words)
        limits |= {"low": _Limit(bounds["low"], "up"), "high": _Limit(bounds["high"], "down")}
    return limits


def _minimum(constraint: Constraint) -> bool:
    """Whether the limit is one from below."""
    if constraint.sense == "within":
        return bool(constraint.limit == dict(constraint.words)["low"])
    return constraint.sense == "at_least"


class _Shown(NamedTuple):
    """A value as rounded, in the canonical unit, and its text."""

    value: float
    text: str


def _shown(value: float, toward: Toward, digits: int, constraint: Constraint) -> _Shown:
    """A value in the scale of the limit, unless that is far from it."""
    limit = constraint.limit or value
    alike = 0.01 <= abs(value / limit) <= 100 if limit else False
    factor, symbol = scale(limit if alike else value, constraint.unit)
    text = with_unit(number(value / factor, digits, toward), symbol)
    return _Shown(rounded(value / factor, digits, toward) * factor, text)


def _order(a: float, b: float) -> int:
    return (a > b) - (a < b)
