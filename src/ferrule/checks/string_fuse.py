"""Current that flows back into a faulted string, and the fuses against it."""

from collections.abc import Iterator
from typing import TypedDict

from ferrule.checks.array import backfeed_a, short_circuit_a
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.string_voltage import cold_voltage_v
from ferrule.checks.subjects import strings
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, at_least, at_most, is_so
from ferrule.design import Decided, Design
from ferrule.fact import Missing, all_known, known
from ferrule.job.array import StringFuse
from ferrule.physics import strings as physics


class _Reverse(TypedDict):
    count: int
    short_circuit_a: float
    backfeed_a: float
    module_limit_a: float


def _reverse(design: Design, code: Code, string: str) -> _Reverse:
    """What a faulted string is exposed to."""
    pv = design.house.strings[string]
    part, inverter = design.module(pv), design.inverter(pv.input.partition(".")[0])
    all_known(part.isc_a, part.series_fuse_max_a, inverter.backfeed_a, inverter.battery_feeds_pv_bus)
    return {
        "count": len(design.house.inputs[pv.input]),
        "short_circuit_a": short_circuit_a(design, pv.input, code.trace()),
        "backfeed_a": backfeed_a(design, pv.input),
        "module_limit_a": known(part.series_fuse_max_a),
    }


def unfused(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    if _alone(design, design.house.strings[subject.id].input):
        if design.fuse(subject.id) is None:
            text = "Nothing can flow back: the string is alone on its input, which feeds nothing back"
            yield is_so("alone", text, code.trace(), True)
        return
    exposed = _reverse(design, code, subject.id)
    if design.fuse(subject.id) is None:
        yield from covered(code.procedures.string_fuse).unfused(code.rulebook, **exposed)


def _alone(design: Design, terminal: str) -> bool:
    return len(design.house.inputs[terminal]) == 1 and not backfeed_a(design, terminal)


def _fitted(design: Design, string: str) -> StringFuse | None:
    """The fuse of a string; None as well while it is open, for then `unfused` tells what it waits for."""
    try:
        return design.fuse(string)
    except Missing:
        return None


def fused(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    fuse = _fitted(design, subject.id)
    if fuse is None:
        return
    exposed = _reverse(design, code, subject.id)
    clause = covered(code.procedures.string_fuse)
    yield from clause.of_use(code.rulebook, **exposed)
    yield from clause.fused(
        code.rulebook,
        rating_a=fuse.rating_a,
        poles=known(fuse.poles),
        short_circuit_a=exposed["short_circuit_a"],
        module_limit_a=exposed["module_limit_a"],
    )


def fuse_voltage(design: Design, code: Code, subject: Subject) -> Constraint | None:
    fuse = _fitted(design, subject.id)
    if fuse is None:
        return None
    t = code.trace()
    return at_most(
        "fuse_voltage",
        "The string reaches {value} in the cold; its fuse is rated {limit}",
        t,
        value=cold_voltage_v(design, code, subject.id, t),
        limit=known(fuse.voltage_max_v),
        unit="V",
        strict=True,
    )


def fuse_breaking(design: Design, code: Code, subject: Subject) -> Constraint | None:
    fuse = _fitted(design, subject.id)
    if fuse is None:
        return None
    t, exposed = code.trace(), _reverse(design, code, subject.id)
    highest_a = covered(code.procedures.string_current).highest_a(
        t, short_circuit_a=exposed["short_circuit_a"], count=1
    )
    return at_least(
        "fuse_breaking",
        "The fuse breaks {value}; up to {limit} can flow back",
        t,
        value=known(fuse.breaking_capacity_a),
        limit=t.calculate(
            physics.reverse_current,
            string_a=highest_a,
            strings=exposed["count"],
            backfeed_a=t.given("backfeed_a", exposed["backfeed_a"], "inverter, and battery behind it"),
        ),
        unit="A",
    )


def string_fuse(_design: Design, subject: Subject) -> Iterator[Decided]:
    yield Decided("string_fuse", subject.id)


QUESTIONS = (
    Question(
        "string.fuse",
        "Is a faulted string safe from the current that flows back into it?",
        strings,
        each(unfused, fused, fuse_voltage, fuse_breaking),
        string_fuse,
    ),
)
