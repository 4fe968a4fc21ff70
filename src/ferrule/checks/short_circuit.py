"""Short circuits on the network: what the devices break, and what cables bear until they do."""

import math
from collections.abc import Callable, Iterator
from functools import partial

from ferrule.checks.current import cable_kind
from ferrule.checks.feeding import feeds
from ferrule.checks.protection import device, lines_of, loop_parts, protector, run_of, way
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import circuits, runs_without_device
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, at_least
from ferrule.design import Decided, Design, House
from ferrule.fact import all_known, known
from ferrule.quantity import Size
from ferrule.working import Trace


def highest_fault_a(design: Design, code: Code, run: str, t: Trace) -> float:
    """The highest prospective fault current where the device before a cable stands, in A."""
    return design.recall_noted((highest_fault_a, run, code), t, partial(_highest_fault_a, design, code, run))


def _highest_fault_a(design: Design, code: Code, run: str, t: Trace) -> float:
    house = design.house
    found = protector(house, run)
    assert found is not None  # the network feeds it
    lines = lines_of(house, run)
    return covered(code.procedures.short_circuit).highest_a(
        t,
        origin_a=t.given("origin_a", known(house.job.supply.fault_current_max_a), "supply"),
        line_to_neutral_v=house.voltages_v[lines[0]],
        parts=loop_parts(design, found.before, design.neutral),
        lines=len(lines),
        inverters_a=math.fsum(feed.current_a for feed in feeds(design) if feed.on(lines[0])),
    )


# Breaking capacity


def breaking_capacity(design: Design, code: Code, subject: Subject) -> Constraint | None:
    run, t = run_of(design.house, subject), code.trace()
    if not way(design.house, run):
        return None
    return covered(code.procedures.short_circuit).breaks(
        t,
        fault_a=highest_fault_a(design, code, run, t),
        breaking_capacity_a=design.breaking_capacity_a(subject.id),
    )


def breaking_capacity_in_island(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """What all inverters of the island give together."""
    island = design.house.backed_up.get(subject.id)
    if island is None:
        return None
    t, ports = code.trace(), [design.backup_port(inverter) for inverter in island.inverters]
    all_known(*(port.short_circuit_a for port in ports))
    return at_least(
        "breaking_capacity_in_island",
        "In island mode a fault drives {limit}; the device breaks {value}",
        t,
        value=design.breaking_capacity_a(subject.id),
        limit=math.fsum(known(port.short_circuit_a) for port in ports),
        unit="A",
    )


# What conductors bear


def line_withstand(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    return _withstand(design, code, subject, "line", design.size)


def neutral_withstand(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    return _withstand(design, code, subject, "neutral", design.neutral)


def _withstand(
    design: Design, code: Code, subject: Subject, conductor: str, size: Callable[[str], Size]
) -> Iterator[Constraint]:
    run, t = run_of(design.house, subject), code.trace()
    found = protector(design.house, run)
    if found is not None and (conductor == "line" or size(run) != design.size(run)):
        yield from covered(code.procedures.short_circuit).withstand(
            t,
            conductor=conductor,
            fault_a=highest_fault_a(design, code, run, t),
            device=device(design, found.circuit),
            size=size(run),
            cable=cable_kind(design, run),
        )


def far_end(design: Design, code: Code, subject: Subject) -> Constraint | None:
    run, t = run_of(design.house, subject), code.trace()
    found, origin_ohm = protector(design.house, run), _neutral_loop_ohm(design.house)
    if found is None or origin_ohm is None:
        return None
    return covered(code.procedures.short_circuit).far_end(
        t,
        fault_a=covered(code.procedures.short_circuit).lowest_a(
            t,
            origin_ohm=origin_ohm,
            line_to_neutral_v=design.house.voltages_v[lines_of(design.house, run)[0]],
            parts=loop_parts(design, way(design.house, run), design.neutral),
        ),
        device=device(design, found.circuit),
    )


def _neutral_loop_ohm(house: House) -> float | None:
    """In a TN system the loop by the neutral is the earth loop, or nearly so; elsewhere it may be stated."""
    supply = house.job.supply
    if known(supply.earthing).startswith("TN"):
        return known(supply.loop_max_ohm)
    return supply.neutral_loop_max_ohm


def breaking_device(_design: Design, subject: Subject) -> Iterator[Decided]:
    yield Decided("breaking_capacity", subject.id)


def live_conductors(design: Design, subject: Subject) -> Iterator[Decided]:
    run = run_of(design.house, subject)
    yield Decided("conductor", run)
    yield Decided("neutral", run)
    if subject.kind == "circuit":
        yield Decided("curve", subject.id)


QUESTIONS = (
    Question(
        "circuit.breaking_capacity",
        "Can the circuit's device break the highest fault current at its place?",
        circuits,
        each(breaking_capacity, breaking_capacity_in_island),
        breaking_device,
    ),
    Question(
        "circuit.short_circuit",
        "Do the circuit's live conductors bear a short circuit until its device has ended it?",
        circuits,
        each(line_withstand, neutral_withstand, far_end),
        live_conductors,
    ),
    Question(
        "run.short_circuit",
        "Do the live conductors of a cable without a device of its own bear a short circuit?",
        runs_without_device,
        each(line_withstand, neutral_withstand, far_end),
        live_conductors,
    ),
)
