"""Protection of alternating-current cables against overload."""

from collections.abc import Iterator

from ferrule.checks.current import cable_kind, design_current_a, laid, starting_current_a
from ferrule.checks.feeding import inverter_lines
from ferrule.checks.protection import device as device_of
from ferrule.checks.protection import lines_of, protector
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import circuits, runs_without_device
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint
from ferrule.design import Decided, Design
from ferrule.fact import all_known, known
from ferrule.job.boards import Circuit
from ferrule.physics import threephase


def device(design: Design, code: Code, subject: Subject) -> Constraint:
    circuit, t = design.house.circuits[subject.id], code.trace()
    return covered(code.procedures.conductor).device(
        t,
        design_a=design_current_a(design, circuit, t),
        kind=circuit.device.kind,
        rating_a=design.rating_a(circuit.id),
    )


def conductor(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    circuit, t = design.house.circuits[subject.id], code.trace()
    yield from covered(code.procedures.conductor).conductor(
        t,
        design_a=design_current_a(design, circuit, t),
        kind=circuit.device.kind,
        rating_a=design.rating_a(circuit.id),
        size=design.size(circuit.run),
        cable=cable_kind(design, circuit.run),
        stretches=laid(design, circuit.run),
        loaded=loaded(circuit.phases),
    )


def starting(design: Design, code: Code, subject: Subject) -> Constraint | None:
    circuit, t = design.house.circuits[subject.id], code.trace()
    start_a = starting_current_a(design, circuit, t)
    if start_a is None:
        return None
    return covered(code.procedures.short_circuit).starting(
        t, start_a=start_a, device=device_of(design, circuit)
    )


def loaded(lines: list[str]) -> int:
    """How many conductors heat a cable: of three phases the neutral carries only what is uneven."""
    return 3 if len(lines) > 1 else 2


# Cables that have no device of their own


def device_before(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """On the network the device before it protects a cable, even through an inverter; else the main fuse.
    What a generator gives passes neither.
    """
    found = protector(design.house, subject.id)
    if found is None or subject.id in design.house.generator_runs.values():
        return
    t, owner = code.trace(), found.circuit
    kind, rating_a = device_before_it(design, owner)
    t.given("rating_a", rating_a, f"device of {owner.id}" if owner else "main fuse")
    yield from covered(code.procedures.conductor).conductor(
        t,
        design_a=rating_a,
        kind=kind,
        rating_a=rating_a,
        size=design.size(subject.id),
        cable=cable_kind(design, subject.id),
        stretches=laid(design, subject.id),
        loaded=loaded(lines_of(design.house, subject.id)),
    )


def device_before_it(design: Design, circuit: Circuit | None) -> tuple[str, float]:
    """Kind and rated current of a circuit's device, or of the main fuse."""
    if circuit is not None:
        return circuit.device.kind, design.rating_a(circuit.id)
    fuse = known(design.house.job.supply.main_fuse)
    return fuse.kind, fuse.rating_a


def source_limit(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """In island mode no device stands before it: it must carry what the inverters give for good."""
    house, t = design.house, code.trace()
    run = house.runs[subject.id]
    island = next((i for i in house.islands if {run.start, run.end} <= i.terminals), None)
    if island is None:
        return None
    sources = [s for s in island.sources if s in (run.start, run.end)] or island.sources
    inverters = [source.partition(".")[0] for source in sources]
    all_known(*(design.backup_port(inverter).power_va for inverter in inverters))
    source_a = 0.0
    for inverter in inverters:
        power_va = known(design.backup_port(inverter).power_va)
        source_a += t.calculate(
            threephase.current_from_apparent_power,
            apparent_va=t.given("backup_va", power_va, design.inverter(inverter).source),
            lines=len(inverter_lines(design, inverter)),
            line_to_neutral_v=house.voltages_v[lines_of(house, subject.id)[0]],
        )
    return covered(code.procedures.conductor).limited(
        t,
        source_a=source_a,
        size=design.size(subject.id),
        cable=cable_kind(design, subject.id),
        stretches=laid(design, subject.id),
        loaded=loaded(lines_of(house, subject.id)),
    )


def device_and_conductor(design: Design, subject: Subject) -> Iterator[Decided]:
    yield Decided("rating", subject.id)
    yield Decided("curve", subject.id)
    yield Decided("conductor", design.house.circuits[subject.id].run)


def own_conductor(_design: Design, subject: Subject) -> Iterator[Decided]:
    yield Decided("conductor", subject.id)


QUESTIONS = (
    Question(
        "circuit.overload",
        "Do the device and the conductor carry the circuit's current, and does one protect the other?",
        circuits,
        each(device, conductor, starting),
        device_and_conductor,
    ),
    Question(
        "run.overload",
        "Does a cable without a device of its own carry all that comes through it?",
        runs_without_device,
        each(device_before, source_limit),
        own_conductor,
    ),
)
