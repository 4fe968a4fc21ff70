"""A verdict, and the single limit it comes from."""

import math
from enum import IntEnum
from typing import Any, Literal, NamedTuple

from ferrule.fact import Missing
from ferrule.grade import Grade
from ferrule.working import Read, Step, Trace

Sense = Literal["at_most", "at_least", "within", "holds"]


class Verdict(IntEnum):
    """How a question was answered; the higher outweighs the lower."""

    PASS = 0
    CAUTION = 1
    UNKNOWN = 2
    FAIL = 3

    @property
    def word(self) -> str:
        return self.name.lower()


class Constraint(NamedTuple):
    """One limit within a question, by whichever clause or datasheet sets it.

    `text` is a template over `value`, `limit` and `words`; it is filled and formatted where it is shown.
    `margin` is (limit − value)/limit with the sign turned for minima, so that a negative margin is a miss;
    None for temperatures, counts and yes/no. `binding` is False for a missed "should", which can at worst
    be a caution. `find_out` says what is missing when the verdict is unknown. `mend` names a change that
    would help, where no size decides it.
    """

    name: str
    verdict: Verdict
    text: str
    value: float | None = None
    limit: float | None = None
    unit: str = ""
    sense: Sense = "holds"
    margin: float | None = None
    binding: bool = True
    words: tuple[tuple[str, Any], ...] = ()
    find_out: tuple[str, ...] = ()
    waits: bool = False
    mend: str = ""
    steps: tuple[Step, ...] = ()

    @property
    def reads(self) -> tuple[Read, ...]:
        """The rulebook figures this constraint rests on."""
        return tuple(step for step in self.steps if isinstance(step, Read))

    @property
    def grade(self) -> Grade | None:
        """The weakest grade among the figures it rests on; None if it rests on none."""
        return min((step.grade for step in self.steps if isinstance(step, Read)), default=None)


_UNITS_WITHOUT_MARGIN = frozenset({"°C", "K", "count", "dBm", "dB", "dB(A)"})


def at_most(
    name: str,
    text: str,
    t: Trace,
    *,
    value: float,
    limit: float,
    unit: str,
    strict: bool = False,
    binding: bool = True,
    mend: str = "",
    **words: Any,
) -> Constraint:
    """A value that must not exceed its limit; `strict` where equality is not a pass."""
    good = _lower(value, limit, strict)
    margin = (limit - value) / limit if limit and unit not in _UNITS_WITHOUT_MARGIN else None
    return _judged(name, text, t, good, value, limit, unit, "at_most", margin, binding, mend, words)


def at_least(
    name: str,
    text: str,
    t: Trace,
    *,
    value: float,
    limit: float,
    unit: str,
    strict: bool = False,
    binding: bool = True,
    mend: str = "",
    **words: Any,
) -> Constraint:
    """A value that must reach its limit; `strict` where equality is not a pass."""
    good = _lower(limit, value, strict)
    margin = (value - limit) / limit if limit and unit not in _UNITS_WITHOUT_MARGIN else None
    return _judged(name, text, t, good, value, limit, unit, "at_least", margin, binding, mend, words)


def within(
    name: str,
    text: str,
    t: Trace,
    *,
    value: float,
    low: float,
    high: float,
    unit: str,
    binding: bool = True,
    mend: str = "",
    **words: Any,
) -> Constraint:
    """A value that must stay within a window; limit and margin are those of the nearer bound."""
    below, above = (value - low) / low if low else math.inf, (high - value) / high if high else math.inf
    margin, limit = min((below, low), (above, high))
    plain = None if unit in _UNITS_WITHOUT_MARGIN else margin
    good = _lower(low, value) and _lower(value, high)
    return _judged(
        name, text, t, good, value, limit, unit, "within", plain, binding, mend,
        {"low": low, "high": high, **words},
    )  # fmt: skip


def is_so(
    name: str, text: str, t: Trace, good: bool, *, binding: bool = True, mend: str = "", **words: Any
) -> Constraint:
    """A condition that holds or does not."""
    return _judged(name, text, t, good, None, None, "", "holds", None, binding, mend, words)


def _lower(value: float, limit: float, strict: bool = False) -> bool:
    """Whether a value is lower than a limit, or its equal where that will do.

    A residue of binary arithmetic does not tell two values apart: 12 × 38.9 V is 466.8 V.
    """
    return not strict if math.isclose(value, limit, rel_tol=1e-9) else value < limit


def not_known(name: str, missing: Missing) -> Constraint:
    """A limit that cannot be judged yet, with what to find out, from the exception a calculation met."""
    return Constraint(name, Verdict.UNKNOWN, "", find_out=missing.asks, waits=missing.waits)


def _judged(
    name: str,
    text: str,
    t: Trace,
    good: bool,
    value: float | None,
    limit: float | None,
    unit: str,
    sense: Sense,
    margin: float | None,
    binding: bool,
    mend: str,
    words: dict[str, Any],
) -> Constraint:
    missed = Verdict.FAIL if binding else Verdict.CAUTION
    return Constraint(
        name=name,
        verdict=Verdict.PASS if good else missed,
        text=text,
        value=value,
        limit=limit,
        unit=unit,
        sense=sense,
        margin=margin,
        binding=binding,
        words=tuple(words.items()),
        mend="" if good else mend,
        steps=tuple(t.steps),
    )
