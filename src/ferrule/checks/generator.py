"""A generator: its own cable, and what ends a fault while it feeds the house."""

from collections.abc import Iterator
from typing import Literal

from ferrule.checks import paths
from ferrule.checks.current import cable_kind, laid
from ferrule.checks.island_fault import cable, earth_fault, link, short_circuit
from ferrule.checks.question import Question, Subject, each
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint
from ferrule.design import Decided, Design
from ferrule.fact import all_known, known
from ferrule.job.devices import GeneratorDevice


def wired(design: Design) -> Iterator[Subject]:
    """The generators that a run joins to the house."""
    return (
        Subject("generator", device.id)
        for device in design.house.devices.values()
        if isinstance(device, GeneratorDevice) and design.house.generator_runs.get(device.id)
    )


def on_generator(design: Design) -> Iterator[Subject]:
    """The circuits that a generator feeds from their heads."""
    return (
        Subject("circuit", circuit.id, "generator")
        for circuit in design.house.circuits.values()
        if any(way.position == "generator" and way.forward for way in paths.ways(design.house, circuit))
    )


def overload(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """By the breaker on the set; a device at the cable's other end serves as well (IEC 60364-4-43:2008 clause
    433.2.2) and is asked about with its circuit. Without either the set itself must be too weak (clause 436).
    """
    house, part, t = design.house, design.generator(subject.id), code.trace()
    run = house.generator_runs[subject.id]
    if run in house.circuit_of_run:
        return
    clause = covered(code.procedures.conductor)
    all_known(part.breaker_a, part.phases)
    breaker_a: float | Literal["none"] = known(part.breaker_a)
    loaded = 3 if known(part.phases) == "3" else 2
    if breaker_a != "none":
        t.given("rating_a", breaker_a, f"breaker of the generator: {part.source}")
        yield from clause.conductor(
            t,
            design_a=breaker_a,
            kind="mcb",
            rating_a=breaker_a,
            size=design.size(run),
            cable=cable_kind(design, run),
            stretches=laid(design, run),
            loaded=loaded,
        )
        return
    judged = clause.limited(
        t,
        source_a=t.given("source_a", known(part.short_circuit_a), f"short-circuit current: {part.source}"),
        size=design.size(run),
        cable=cable_kind(design, run),
        stretches=laid(design, run),
        loaded=loaded,
    )
    yield judged._replace(
        text="Without a breaker the generator gives up to {value}; its cable carries {limit} as laid"
    )


def withstand(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """All that the set gives, for as long as it gives it: its own breaker need not trip at once."""
    part, run = design.generator(subject.id), design.house.generator_runs[subject.id]
    all_known(part.short_circuit_a, part.short_circuit_duration_s)
    kind = design.cable(run)
    yield from covered(code.procedures.island_fault).withstand(
        code.rulebook,
        size=design.size(run),
        insulation=kind.insulation,
        metal=kind.conductor,
        source_a=known(part.short_circuit_a),
        lasts_s=known(part.short_circuit_duration_s),
    )


def own_cable(design: Design, subject: Subject) -> Iterator[Decided]:
    yield Decided("conductor", design.house.generator_runs[subject.id])


def rcds(design: Design, subject: Subject) -> Iterator[Decided]:
    return paths.rcd_choices(design.house, design.house.circuits[subject.id])


QUESTIONS = (
    Question(
        "generator.cable",
        "Does the generator's own cable carry what the generator gives, in service and in a fault?",
        wired,
        each(overload, withstand),
        own_cable,
    ),
    Question(
        "circuit.generator_earth_fault",
        "What ends an earth fault in this circuit while a generator feeds it?",
        on_generator,
        each(link, earth_fault),
        rcds,
    ),
    Question(
        "circuit.generator_short_circuit",
        "What ends a short circuit in this circuit while a generator feeds it?",
        on_generator,
        each(short_circuit, cable),
    ),
)
