"""The cables between the array and its inverter."""

from collections.abc import Iterator

from ferrule.checks.array import backfeed_a, operating_a, short_circuit_a
from ferrule.checks.current import cable_kind, laid
from ferrule.checks.paths import length_m
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import string_runs
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint
from ferrule.design import Decided, Design
from ferrule.fact import all_known, known


def insulation(design: Design, code: Code, subject: Subject) -> Constraint:
    doubled = design.cable(subject.id).double_insulated
    return covered(code.procedures.dc_conductor).insulation(code.rulebook, doubled=doubled)


def carries(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    string = design.house.string_runs[subject.id]
    part, inverter = design.module(string), design.inverter(string.input.partition(".")[0])
    stretches = design.house.runs[subject.id].stretches
    all_known(
        part.isc_a, inverter.backfeed_a, inverter.battery_feeds_pv_bus,
        *(f for s in stretches for f in (s.length_m, s.method, s.ambient_c, s.circuits)),
    )  # fmt: skip
    fuse = design.fuse(string.id)
    yield from covered(code.procedures.dc_conductor).carries(
        code.rulebook,
        count=len(design.house.inputs[string.input]),
        short_circuit_a=short_circuit_a(design, string.input, code.trace()),
        backfeed_a=backfeed_a(design, string.input),
        fuse_a=None if fuse is None else fuse.rating_a,
        size=design.size(subject.id),
        cable=cable_kind(design, subject.id),
        stretches=laid(design, subject.id),
    )


def drops(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    string = design.house.string_runs[subject.id]
    part = design.module(string)
    all_known(part.vmp_v, part.imp_a, *(s.length_m for s in design.house.runs[subject.id].stretches))
    yield from covered(code.procedures.dc_conductor).drops(
        code.rulebook,
        length_m=length_m(design.house, subject.id),
        current_a=operating_a(design, string.input, code.trace()),
        voltage_v=known(part.vmp_v) * design.modules(string.id),
        size=design.size(subject.id),
        cable=cable_kind(design, subject.id),
    )


def conductor(_design: Design, subject: Subject) -> Iterator[Decided]:
    yield Decided("conductor", subject.id)


QUESTIONS = (
    Question(
        "run.dc_capacity",
        "Does the cable of the string carry its current on the hot roof?",
        string_runs,
        each(insulation, carries),
        conductor,
    ),
    Question(
        "run.dc_drop",
        "Does the cable of the string lose little enough?",
        string_runs,
        each(drops),
        conductor,
    ),
)
