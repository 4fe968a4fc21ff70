"""The switch between the strings of an input and their inverter."""

from collections.abc import Iterator

from ferrule.checks.array import short_circuit_a
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.string_voltage import highest_on_input_v
from ferrule.checks.subjects import inputs
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, at_most, is_so
from ferrule.design import Decided, Design
from ferrule.fact import Missing, all_known, known
from ferrule.job.array import Isolator
from ferrule.physics import strings as physics


def built_in(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """The inverter's own switch: what it bears is what its input bears, which other questions ask."""
    if design.isolator(subject.id) != "built-in":
        return None
    fitted = known(design.inverter(subject.id.partition(".")[0]).dc_switch)
    text = "The inverter has a DC switch of its own: {fitted}"
    return is_so("built_in", text, code.trace(), fitted, fitted=fitted)


def _separate(design: Design, terminal: str) -> Isolator | None:
    """A switch beside the inverter; None while it is open, for then `built_in` tells what it waits for."""
    try:
        fitted = design.isolator(terminal)
    except Missing:
        return None
    return None if fitted == "built-in" else fitted


def isolator_voltage(design: Design, code: Code, subject: Subject) -> Constraint | None:
    fitted = _separate(design, subject.id)
    if fitted is None:
        return None
    t, cold_v = highest_on_input_v(design, code, subject.id)
    return at_most(
        "isolator_voltage",
        "The string reaches {value} in the cold; the isolator is rated {limit}",
        t,
        value=cold_v,
        limit=known(fitted.voltage_max_v),
        unit="V",
        strict=True,
    )


def switch(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    fitted = _separate(design, subject.id)
    if fitted is None:
        return
    all_known(fitted.current_max_a, fitted.category, fitted.all_poles)
    count = len(design.house.inputs[subject.id])
    yield from covered(code.procedures.dc_isolator).switch(
        code.rulebook,
        count=count,
        together_a=physics.parallel_current(
            string_a=short_circuit_a(design, subject.id, code.trace()), strings=count
        ),
        rating_a=known(fitted.current_max_a),
        category=known(fitted.category),
        all_poles=known(fitted.all_poles),
    )


def dc_isolator(_design: Design, subject: Subject) -> Iterator[Decided]:
    yield Decided("dc_isolator", subject.id)


QUESTIONS = (
    Question(
        "input.isolator",
        "Can the array be switched off under load beside its inverter?",
        inputs,
        each(built_in, isolator_voltage, switch),
        dc_isolator,
    ),
)
