"""What an inverter is asked to feed by itself in an outage."""

from collections.abc import Iterator
from typing import NamedTuple

from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import backed_up
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, Verdict, at_least, at_most, is_so
from ferrule.design import Design, Island
from ferrule.fact import Fact, Missing, Unknown, all_known, known
from ferrule.job.boards import Circuit, Load
from ferrule.job.devices import ChangeoverDevice
from ferrule.physics import motor, scale, threephase
from ferrule.working import Trace

SHED = "let the island signal take a load off, or move a circuit to the network's side"


class OnLine(NamedTuple):
    """A load's running and starting power, in VA; on one line, or in all."""

    running_va: float
    start_va: float
    motor: bool


class Limit(NamedTuple):
    """What inverters give, in VA; where their sheet is silent on one line, a sure share and what to ask."""

    power_va: float
    ask: str = ""


def lines_of(design: Design, inverter: str) -> tuple[str, ...]:
    """The lines an inverter is connected to. Raises `Missing` where the job does not say."""
    lines = tuple(design.house.voltages_v)
    if design.inverter(inverter).phases == "3" or len(lines) == 1:
        return lines
    port = f"{inverter}.grid"
    for circuit in design.house.circuits.values():
        run = design.house.runs[circuit.run]
        if port in (run.start, run.end):
            return tuple(circuit.phases)
    raise Missing(f"which line conductor {inverter} is connected to")


def _island(design: Design, subject: Subject) -> Island:
    return next(island for island in design.house.islands if island.inverters[0] == subject.id)


def _loads(design: Design, island: Island) -> list[tuple[Circuit, Load]]:
    """The loads that an island feeds, without those its signal takes off."""
    circuits = design.house.circuits
    return [
        (circuits[circuit], load)
        for circuit, fed_by in design.house.backed_up.items()
        if fed_by is island
        for load in circuits[circuit].loads
        if not load.shed
    ]


def _share(circuit: Circuit, load: Load, line: str) -> float:
    """The share of a load that flows on a line. On which of three lines a single-phase load hangs nobody
    says, so it counts on each.
    """
    if line not in circuit.phases:
        return 0.0
    return 1.0 if len(circuit.phases) == 3 and not load.three_phase else 1 / len(circuit.phases)


def _running(design: Design, subject: Subject, line: str | None) -> list[float]:
    """Running power of each load, in VA: on a line, or as a whole."""
    loads = _loads(design, _island(design, subject))
    all_known(*(load.power_w for _, load in loads))
    shares = (1.0 if line is None else _share(circuit, load, line) for circuit, load in loads)
    return [
        share * known(load.power_w) / load.power_factor
        for share, (_, load) in zip(shares, loads, strict=True)
        if share
    ]


def _starting(design: Design, code: Code, subject: Subject, line: str | None, t: Trace) -> list[OnLine]:
    """Running and starting power of each load: on a line, or as a whole."""
    clause = covered(code.procedures.backup)
    asks: list[Fact[float]] = []
    found = []
    for circuit, load in _loads(design, _island(design, subject)):
        share = 1.0 if line is None else _share(circuit, load, line)
        multiple = load.start_multiple
        if isinstance(multiple, Unknown):
            usual = clause.start_multiple(t, kind=load.kind)
            multiple = Unknown(f"{multiple.ask}: {load.name}") if usual is None else usual
        asks += [load.power_w, multiple]
        if share and not isinstance(load.power_w, Unknown) and not isinstance(multiple, Unknown):
            running_va = share * load.power_w / load.power_factor
            start_va = motor.starting_power(running_va=running_va, start_multiple=multiple)
            found.append(OnLine(running_va, start_va, load.kind == "motor"))
    all_known(*asks)
    return found


def _limit(design: Design, code: Code, subject: Subject, line: str | None, t: Trace, *, peak: bool) -> Limit:
    """What the inverters of an island give together on a line, or as a whole."""
    total_va, asks = 0.0, []
    for inverter in _island(design, subject).inverters:
        port, lines = design.backup_port(inverter), lines_of(design, inverter)
        power = port.peak_power_va if peak else port.power_va
        on_line = port.phase_peak_power_max_va if peak else port.phase_power_max_va
        if line is not None and line not in lines:
            continue
        if line is None or len(lines) == 1:
            total_va += t.given("power_va", known(power), inverter)
        elif not isinstance(on_line, Unknown):
            total_va += t.given("phase_power_va", on_line, inverter)
        else:
            share = covered(code.procedures.backup).phase_share(t) if len(lines) == 3 else 1 / len(lines)
            total_va += t.calculate(scale.scaled_apparent_power, apparent_va=known(power), factor=share)
            asks.append(f"{on_line.ask} of {inverter}")
    return Limit(total_va, "; ".join(asks))


def _at_most(constraint: Constraint, limit: Limit) -> Constraint:
    """A limit that is only a sure share may pass a load, and fails none. Raises `Missing`."""
    if limit.ask and constraint.verdict > Verdict.PASS:
        raise Missing(limit.ask)
    return constraint


def phase_load(design: Design, code: Code, subject: Subject) -> Constraint:
    t = code.trace()
    limit = _limit(design, code, subject, subject.position, t, peak=False)
    value_va = t.given(
        "load_va", sum(_running(design, subject, subject.position)), "loads of the chosen circuits"
    )
    return _at_most(
        at_most(
            "phase_load",
            "The chosen circuits draw {value} on {line}; {inverters} can give {limit} there",
            t,
            value=value_va,
            limit=limit.power_va,
            unit="VA",
            mend=SHED,
            line=subject.position,
            inverters=", ".join(_island(design, subject).inverters),
        ),
        limit,
    )


def whole_load(design: Design, code: Code, subject: Subject) -> Constraint:
    t = code.trace()
    limit = _limit(design, code, subject, None, t, peak=False)
    return at_most(
        "whole_load",
        "The chosen circuits draw {value} in all; {inverters} can give {limit}",
        t,
        value=t.given("load_va", sum(_running(design, subject, None)), "loads of the chosen circuits"),
        limit=limit.power_va,
        unit="VA",
        mend=SHED,
        inverters=", ".join(_island(design, subject).inverters),
    )


def changeover_current(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    terminals = _island(design, subject).terminals
    for device in design.house.job.devices:
        if isinstance(device, ChangeoverDevice) and f"{device.id}.house" in terminals:
            t = code.trace()
            load_va = t.given("load_va", sum(_running(design, subject, subject.position)), "chosen circuits")
            yield at_most(
                "changeover_current",
                "The chosen circuits draw {value} on {line}; {changeover} is rated {limit}",
                t,
                value=t.calculate(
                    threephase.current_from_apparent_power,
                    apparent_va=load_va,
                    lines=1,
                    line_to_neutral_v=design.house.voltages_v[subject.position],
                ),
                limit=known(design.changeover(device.id).current_max_a),
                unit="A",
                mend=SHED,
                line=subject.position,
                changeover=device.id,
            )


def largest_start(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """All run, and the load whose start adds most starts last."""
    return _start(design, code, subject, subject.position)


def largest_start_in_all(design: Design, code: Code, subject: Subject) -> Constraint | None:
    return _start(design, code, subject, None)


def _start(design: Design, code: Code, subject: Subject, line: str | None) -> Constraint | None:
    t = code.trace()
    loads = _starting(design, code, subject, line, t)
    if not loads:
        return None
    limit = _limit(design, code, subject, line, t, peak=True)
    largest = max(loads, key=lambda load: load.start_va - load.running_va)
    value_va = t.calculate(
        motor.power_at_largest_start,
        running_va=sum(load.running_va for load in loads),
        motor_running_va=largest.running_va,
        motor_start_va=largest.start_va,
    )
    return _at_most(
        at_most(
            "largest_start" if line else "largest_start_in_all",
            "The largest start takes {value} on {line}; for a short time there is {limit}"
            if line
            else "The largest start takes {value} in all; for a short time there is {limit}",
            t,
            value=value_va,
            limit=limit.power_va,
            unit="VA",
            mend="fit a soft starter, or move the load that starts hardest to the network's side",
            line=line or "",
        ),
        limit,
    )


def all_at_once(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """After an outage everything may start together."""
    t = code.trace()
    loads = _starting(design, code, subject, subject.position, t)
    if not loads:
        return None
    limit = _limit(design, code, subject, subject.position, t, peak=True)
    value_va = t.given("start_va", sum(load.start_va for load in loads), "all loads starting")
    return _at_most(
        at_most(
            "all_at_once",
            "All starting at once take {value} on {line}; for a short time there is {limit}",
            t,
            value=value_va,
            limit=limit.power_va,
            unit="VA",
            binding=False,
            mend="delay one of the loads on {line}",
            line=subject.position,
        ),
        limit,
    )


def start_time(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """Only where a motor's start needs more than the inverters give for ever."""
    t = code.trace()
    loads = _starting(design, code, subject, subject.position, t)
    added_va = max((load.start_va - load.running_va for load in loads if load.motor), default=0.0)
    steady = _limit(design, code, subject, subject.position, t, peak=False)
    if sum(load.running_va for load in loads) + added_va <= steady.power_va:
        return
    for inverter in _island(design, subject).inverters:
        t = code.trace()
        yield at_least(
            "start_time",
            "{inverter} gives its short-time power for {value}; a start may last {limit}",
            t,
            value=known(design.backup_port(inverter).peak_time_s),
            limit=covered(code.procedures.backup).start_time_s(t),
            unit="s",
            binding=False,
            mend="fit a soft starter, or take an inverter that gives its short-time power for longer",
            inverter=inverter,
        )


def all_phases(design: Design, code: Code, subject: Subject) -> Constraint:
    """A lost or bridged phase burns the motor; unlocked inverters do not turn it at all."""
    island = design.house.backed_up[subject.id]
    return is_so(
        "all_phases",
        "The motor gets three phases from {inverters}"
        if (good := _three_phases(design, island))
        else "The motor does not get three phases from {inverters}",
        code.trace(),
        good,
        mend="move {circuit} to the network's side, or take a three-phase inverter",
        inverters=", ".join(island.inverters),
        circuit=subject.id,
    )


def _lines(design: Design, island: Island) -> set[str]:
    return {line for inverter in island.inverters for line in lines_of(design, inverter)}


def _three_phases(design: Design, island: Island) -> bool:
    if any(design.inverter(inverter).phases == "3" for inverter in island.inverters):
        return True
    if _lines(design, island) < set(design.house.voltages_v):
        return False
    locked = [design.inverter_device(inverter).phase_locked for inverter in island.inverters]
    all_known(*locked)
    return all(locked)


def shared_neutral(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    others = [circuit for circuit in _sharing(design, subject.id) if circuit not in design.house.backed_up]
    yield from covered(code.procedures.backup).shared_neutral(code.rulebook, others=others)


def one_phase(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """Currents of several phases cancel in a shared neutral; those of one add up there."""
    circuits = [design.house.circuits[circuit] for circuit in (subject.id, *_sharing(design, subject.id))]
    lines = sorted({line for circuit in circuits for line in circuit.phases})
    if len(lines) == 1:
        return None
    island = design.house.backed_up[subject.id]
    good = set(lines) <= _lines(design, island) and (
        len(island.inverters) == 1 or _three_phases(design, island)
    )
    return is_so(
        "one_phase",
        "Circuits of {lines} share the neutral, and the island feeds them with as many phases"
        if good
        else "Circuits of {lines} share the neutral; fed from one phase it carries the sum of their currents",
        code.trace(),
        good,
        mend="run a neutral for each circuit",
        lines=", ".join(lines),
    )


def _sharing(design: Design, circuit: str) -> list[str]:
    """The circuits that share a circuit's neutral, directly or by way of another, whichever says so."""
    circuits = design.house.circuits
    found = [circuit]
    for one in found:
        says = circuits[one].neutral_shared_with
        told = [other.id for other in circuits.values() if one in other.neutral_shared_with]
        found += [other for other in dict.fromkeys([*says, *told]) if other not in found]
    return found[1:]


def heater(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    for load in design.house.circuits[subject.id].loads:
        if load.kind == "resistive" and not load.shed:
            t = code.trace()
            yield at_most(
                "heater",
                "{load} takes {value} whenever it likes; from {limit} on it should stay on the network",
                t,
                value=known(load.power_w),
                limit=covered(code.procedures.backup).heater_most_w(t),
                unit="W",
                strict=True,
                binding=False,
                mend="let the island signal take {load} off, or move it to the network's side",
                load=load.name,
            )


def charger(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    for load in design.house.circuits[subject.id].loads:
        if load.kind == "charger":
            yield is_so(
                "charger",
                "{load} is taken off in island mode"
                if load.shed
                else "{load} does not know of the island and empties the battery",
                code.trace(),
                load.shed,
                binding=False,
                mend="let the island signal take {load} off, or move it to the network's side",
                load=load.name,
            )


def island_lines(design: Design) -> Iterator[Subject]:
    """Each line of each island, named after its first inverter: `backup/INV1@L1`."""
    for island in design.house.islands:
        circuits = [
            design.house.circuits[c] for c, fed_by in design.house.backed_up.items() if fed_by is island
        ]
        used = {line for circuit in circuits if circuit.loads for line in circuit.phases}
        yield from (
            Subject("backup", island.inverters[0], line) for line in design.house.voltages_v if line in used
        )


def motors(design: Design) -> Iterator[Subject]:
    """The backed-up circuits with a three-phase motor."""
    return (
        subject
        for subject in backed_up(design)
        if any(load.kind == "motor" and load.three_phase for load in design.house.circuits[subject.id].loads)
    )


def neutrals(design: Design) -> Iterator[Subject]:
    """The backed-up circuits that share their neutral."""
    return (subject for subject in backed_up(design) if _sharing(design, subject.id))


def doubtful(design: Design) -> Iterator[Subject]:
    """The backed-up circuits with a heater or a charger."""
    return (
        subject
        for subject in backed_up(design)
        if any(load.kind in {"resistive", "charger"} for load in design.house.circuits[subject.id].loads)
    )


QUESTIONS = (
    Question(
        "backup.load",
        "Can the inverter feed the chosen circuits by itself?",
        island_lines,
        each(phase_load, whole_load, changeover_current),
    ),
    Question(
        "backup.start",
        "Can the inverter start what hangs on the chosen circuits?",
        island_lines,
        each(largest_start, largest_start_in_all, all_at_once, start_time),
    ),
    Question(
        "backup.three_phase_motor",
        "Does the three-phase motor get all its phases in an outage?",
        motors,
        each(all_phases),
    ),
    Question(
        "backup.shared_neutral",
        "Does the circuit share its neutral with what another source feeds?",
        neutrals,
        each(shared_neutral, one_phase),
    ),
    Question(
        "backup.allowed",
        "May these loads hang on the backup?",
        doubtful,
        each(heater, charger),
    ),
)
