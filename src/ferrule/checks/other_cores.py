"""The neutral and the protective conductor of each alternating-current cable."""

import math
from collections.abc import Iterator

from ferrule.checks.current import cable_kind
from ferrule.checks.protection import device, lines_of, protector, run_of
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.short_circuit import highest_fault_a
from ferrule.checks.subjects import circuits, runs_without_device
from ferrule.checks.wired import combined_runs
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, Verdict
from ferrule.design import Decided, Design
from ferrule.fact import all_known, known


def neutral_size(design: Design, code: Code, subject: Subject) -> Constraint:
    run = run_of(design.house, subject)
    return covered(code.procedures.other_cores).neutral(
        code.trace(),
        line=design.size(run),
        neutral=design.neutral(run),
        lines=len(lines_of(design.house, run)),
    )


def protective_size(design: Design, code: Code, subject: Subject) -> Constraint:
    """By the lines; where it is thinner and the network feeds it, by the fault it must bear."""
    run, clause = run_of(design.house, subject), covered(code.procedures.other_cores)
    line, protective = design.size(run), design.protective(run)
    judged = clause.protective(code.trace(), line=line, protective=protective)
    found = protector(design.house, run)
    if judged.verdict is Verdict.PASS or found is None:
        return judged
    t = code.trace()
    return clause.protective_in_fault(
        t,
        line=line,
        protective=protective,
        cable=cable_kind(design, run),
        fault_a=highest_fault_a(design, code, run, t),
        device=device(design, found.circuit),
    )


def separate(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """Beside single conductors it is no core of a cable."""
    run = run_of(design.house, subject)
    cable, stretches = design.cable(run), design.house.runs[run].stretches
    if cable.build == "multicore":
        return None
    all_known(*(stretch.method for stretch in stretches))
    return covered(code.procedures.other_cores).separate(
        code.trace(),
        protective=design.protective(run),
        metal=cable.conductor,
        methods=[known(stretch.method) for stretch in stretches],
    )


def combined(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """Where the network's PEN runs on into the house."""
    run = run_of(design.house, subject)
    runs, split = combined_runs(design.house)
    if run not in runs or known(split) == "supply":
        return None
    return covered(code.procedures.other_cores).combined(
        code.trace(), protective=design.protective(run), metal=design.cable(run).conductor
    )


def reinforced(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """Where the inverters behind a cable leak all the time."""
    house, t = design.house, code.trace()
    run = run_of(house, subject)
    behind = [
        design.inverter(device.id)
        for device in house.job.devices
        if device.kind == "inverter" and run in (house.upstream(f"{device.id}.grid") or ())
    ]
    all_known(*(part.leakage_max_a for part in behind))
    leakage_a = t.given("leakage_a", math.fsum(known(p.leakage_max_a) for p in behind), "inverters behind it")
    return covered(code.procedures.other_cores).reinforced(
        t,
        protective=design.protective(run),
        metal=design.cable(run).conductor,
        leakage_a=leakage_a,
        doubled=house.runs[run].second_protective,
    )


def own_neutral(design: Design, subject: Subject) -> Iterator[Decided]:
    yield Decided("neutral", run_of(design.house, subject))


def own_protective(design: Design, subject: Subject) -> Iterator[Decided]:
    yield Decided("protective", run_of(design.house, subject))


QUESTIONS = (
    Question(
        "circuit.neutral",
        "Is the circuit's neutral thick enough for its lines?",
        circuits,
        each(neutral_size),
        own_neutral,
    ),
    Question(
        "circuit.protective",
        "Is the circuit's protective conductor thick enough?",
        circuits,
        each(protective_size, separate, reinforced),
        own_protective,
    ),
    Question(
        "run.neutral",
        "Is the neutral of a cable without a device of its own thick enough for its lines?",
        runs_without_device,
        each(neutral_size),
        own_neutral,
    ),
    Question(
        "run.protective",
        "Is the protective conductor of a cable without a device of its own thick enough?",
        runs_without_device,
        each(protective_size, separate, combined, reinforced),
        own_protective,
    ),
)
