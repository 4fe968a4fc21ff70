"""Protection of AC circuits against overload."""

from collections.abc import Iterator

from ferrule.checks.current import cable_kind, design_current_a, laid
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import circuits
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint
from ferrule.design import Decided, Design


def device(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    circuit = design.house.circuits[subject.id]
    yield from covered(code.procedures.conductor).device(
        code.rulebook,
        design_a=design_current_a(design, circuit, code.trace()),
        kind=circuit.device.kind,
        rating_a=design.rating_a(circuit.id),
    )


def conductor(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    circuit = design.house.circuits[subject.id]
    yield from covered(code.procedures.conductor).conductor(
        code.rulebook,
        design_a=design_current_a(design, circuit, code.trace()),
        kind=circuit.device.kind,
        rating_a=design.rating_a(circuit.id),
        size=design.size(circuit.run),
        cable=cable_kind(design, circuit.run),
        stretches=laid(design, circuit.run),
        loaded=3 if len(circuit.phases) > 1 else 2,
    )


def device_and_conductor(design: Design, subject: Subject) -> Iterator[Decided]:
    yield Decided("rating", subject.id)
    yield Decided("conductor", design.house.circuits[subject.id].run)


QUESTIONS = (
    Question(
        "circuit.overload",
        "Do the device and the conductor carry the circuit's current, and does one protect the other?",
        circuits,
        each(device, conductor),
        device_and_conductor,
    ),
)
