"""Voltage drop to the loads, and what inverters add to the voltage when they feed in."""

import math
from collections.abc import Iterator
from functools import partial
from typing import Literal

from ferrule.checks.current import design_current_a
from ferrule.checks.feeding import feed, feeds, inverter_lines
from ferrule.checks.paths import Leg, Way, legs, length_m, ways
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import feeding_inverters, load_circuits
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, at_most
from ferrule.design import Decided, Design, House
from ferrule.fact import Unknown, all_known, known
from ferrule.job.boards import Circuit
from ferrule.physics import drop, threephase
from ferrule.working import Trace


def drop_limit(design: Design, code: Code, subject: Subject) -> Constraint:
    """Annex G is informative: a missed limit is a caution."""
    circuit, t = design.house.circuits[subject.id], code.trace()
    drop_v = _drop_v(design, code, subject, t)
    way, base_v = _way(design.house, subject), design.house.voltages_v[circuit.phases[0]]
    return at_most(
        "drop_limit",
        "The voltage falls by {drop_v} ({value}) on the way to the end; it should fall by {limit} at most"
        if drop_v < base_v
        else "The current of the circuit cannot flow through so long a cable; the voltage should fall by "
        "{limit} at most",
        t,
        value=t.calculate(drop.drop_pct, drop_v=drop_v, base_v=base_v),
        limit=covered(code.procedures.voltage_change).drop_limit_pct(
            t,
            supply="public" if way.position == "grid" else "private",
            lighting=any(load.kind == "lighting" for load in circuit.loads),
            main_m=math.fsum(length_m(design.house, leg.run) for leg in legs(design.house, way.links)[:-1]),
        ),
        unit="%",
        binding=False,
        drop_v=drop_v,
    )


def drop_most(design: Design, code: Code, subject: Subject) -> Constraint:
    """Beyond what equipment is made for: it then lacks voltage even where the source lacks none."""
    circuit, t = design.house.circuits[subject.id], code.trace()
    drop_v = _drop_v(design, code, subject, t)
    base_v = design.house.voltages_v[circuit.phases[0]]
    return at_most(
        "drop_most",
        "With its source at the nominal voltage the end of the circuit lacks {value}; equipment is made for "
        "a lack of {limit} at most"
        if drop_v < base_v
        else "The current of the circuit cannot flow through so long a cable: the voltage would be used up "
        "on the way; equipment is made for a lack of {limit} at most",
        t,
        value=t.calculate(drop.drop_pct, drop_v=drop_v, base_v=base_v),
        limit=covered(code.procedures.voltage_change).drop_most_pct(t),
        unit="%",
    )


def _drop_v(design: Design, code: Code, subject: Subject, t: Trace) -> float:
    """The drop from the source to the end of a circuit, in V."""

    def found(t: Trace) -> float:
        way = _way(design.house, subject)
        drop_v = math.fsum(_drops_v(design, code, design.house.circuits[subject.id], way, t))
        return t.given("drop_v", drop_v, "all runs from the source to the end of the circuit")

    return design.recall_noted((_drop_v, subject, code), t, found)


def _drops_v(design: Design, code: Code, circuit: Circuit, way: Way, t: Trace) -> Iterator[float]:
    """The drop of each run on the way. A run that no circuit protects carries what feeds it lets through."""
    carried_a = _source_a(design, circuit, way, t)
    for leg in legs(design.house, way.links):
        if leg.circuit is not None:
            carried_a = design_current_a(design, leg.circuit, t)
        single_a = _single_a(design, code, circuit, leg, carried_a)
        yield covered(code.procedures.voltage_change).drop_v(
            t,
            length_m=t.given("length_m", length_m(design.house, leg.run), leg.run),
            size=design.size(leg.run),
            metal=design.cable(leg.run).conductor,
            balanced_a=carried_a - single_a,
            single_a=single_a,
            cos_phi=_cos_phi(circuit, t) if leg.run == circuit.run else None,
        )


def _source_a(design: Design, circuit: Circuit, way: Way, t: Trace) -> float:
    """What the source lets through for good: the main fuse, or the inverter in island mode."""
    if way.position == "grid":
        return t.given("source_a", known(design.house.job.supply.main_fuse).rating_a, "main fuse")
    name = way.source.partition(".")[0]
    inverter = design.inverter(name)
    assert inverter.backup is not None  # it feeds the island
    return t.calculate(
        threephase.current_from_apparent_power,
        apparent_va=t.given("backup_va", known(inverter.backup.power_va), inverter.source),
        lines=len(inverter_lines(design, name)),
        line_to_neutral_v=design.house.voltages_v[circuit.phases[0]],
    )


def _single_a(design: Design, code: Code, circuit: Circuit, leg: Leg, carried_a: float) -> float:
    """How much of a run's current returns by the neutral, as a circuit of one phase sees it: on a three-phase
    circuit what the loads on its own line draw, elsewhere all of it.
    """
    if len(circuit.phases) > 1:
        return 0.0
    if leg.circuit is None or len(leg.circuit.phases) == 1:
        return carried_a
    same_line = (
        design_current_a(design, other, code.trace())
        for other in design.house.circuits.values()
        if other.loads
        and other.phases == circuit.phases
        and leg.run in (design.house.upstream(design.house.runs[other.run].end) or ())
    )
    return min(carried_a, math.fsum(same_line))


def _cos_phi(circuit: Circuit, t: Trace) -> float | None:
    """The power factor of a circuit's loads together; None where nobody knows what they share of it."""
    shares = []
    for load in circuit.loads:
        if isinstance(load.power_w, Unknown):
            return None
        shares.append((load.power_w, load.power_w / load.power_factor))
    power_w, apparent_va = (math.fsum(each) for each in zip(*shares, strict=True))
    return t.given("cos_phi", power_w / apparent_va if apparent_va else 1.0, "loads of the circuit")


# The rise that inverters cause


def rise_v(design: Design, code: Code, inverter: str, t: Trace) -> float:
    """Rise from the point of supply to an inverter with every inverter of the house at its most, in V."""
    return design.recall_noted((rise_v, inverter, code), t, partial(_rise_v, design, code, inverter))


def _rise_v(design: Design, code: Code, inverter: str, t: Trace) -> float:
    own, all_feeds = feed(design, inverter), feeds(design)
    total_v = 0.0
    for run in own.runs:
        here = [other for other in all_feeds if run in other.runs]
        total_v += covered(code.procedures.voltage_change).rise_v(
            t,
            length_m=t.given("length_m", length_m(design.house, run), run),
            size=design.size(run),
            metal=design.cable(run).conductor,
            balanced_a=math.fsum(other.current_a for other in here if len(other.lines) > 1),
            single_a=max(math.fsum(o.current_a for o in here if o.lines == (line,)) for line in own.lines),
        )
    return t.given("rise_v", total_v, "all runs from the point of supply to the inverter")


def _rise_pct(design: Design, code: Code, subject: Subject, t: Trace) -> float:
    return t.calculate(
        drop.drop_pct,
        drop_v=rise_v(design, code, subject.id, t),
        base_v=next(iter(design.house.voltages_v.values())),
    )


def operator_limit(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """What the network operator states counts before any convention."""
    limit_pct: float | Literal["none"] = known(design.house.job.supply.utility.rise_max_pct)
    if limit_pct == "none":
        return None
    t = code.trace()
    return at_most(
        "operator_limit",
        "Feeding in lifts the voltage by {value} up to the inverter; the network operator allows {limit}",
        t,
        value=_rise_pct(design, code, subject, t),
        limit=limit_pct,
        unit="%",
    )


def rise_ceiling(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """Where the operator states no limit, the national documents' own."""
    if design.house.job.supply.utility.rise_max_pct != "none":
        return None
    t = code.trace()
    return at_most(
        "rise_ceiling",
        "Feeding in lifts the voltage by {value} up to the inverter; without an operator's limit {limit} is "
        "the most",
        t,
        value=_rise_pct(design, code, subject, t),
        limit=covered(code.procedures.voltage_change).rise_ceiling_pct(t),
        unit="%",
    )


def rise_should(design: Design, code: Code, subject: Subject) -> Constraint:
    t = code.trace()
    return at_most(
        "rise_should",
        "Feeding in lifts the voltage by {value} up to the inverter; {limit} should not be exceeded",
        t,
        value=_rise_pct(design, code, subject, t),
        limit=covered(code.procedures.voltage_change).rise_should_pct(t),
        unit="%",
        binding=False,
    )


def at_highest(design: Design, code: Code, subject: Subject) -> Constraint:
    part, supply, t = design.inverter(subject.id), design.house.job.supply, code.trace()
    all_known(supply.highest_v, part.trips_above_v)
    return at_most(
        "at_highest",
        "With the network at its highest the inverter sees {value}; it switches off above {limit}",
        t,
        value=t.calculate(
            drop.raised_voltage,
            supply_v=t.given("highest_v", known(supply.highest_v), "supply"),
            rise_v=rise_v(design, code, subject.id, t),
        ),
        limit=known(part.trips_above_v),
        unit="V",
    )


def at_tolerance(design: Design, code: Code, subject: Subject) -> Constraint:
    """Networks may go higher than anybody has measured here: up to what their standard tolerates."""
    part, t = design.inverter(subject.id), code.trace()
    nominal_v = next(iter(design.house.voltages_v.values()))
    return at_most(
        "at_tolerance",
        "With the network as high as it is allowed to be the inverter sees {value}; it switches off above "
        "{limit}",
        t,
        value=t.calculate(
            drop.raised_voltage,
            supply_v=covered(code.procedures.voltage_change).tolerated_v(t, nominal_v=nominal_v),
            rise_v=rise_v(design, code, subject.id, t),
        ),
        limit=known(part.trips_above_v),
        unit="V",
        binding=False,
    )


# Where the conductors run


def _way(house: House, subject: Subject) -> Way:
    position = subject.position or "grid"
    return next(way for way in ways(house, house.circuits[subject.id]) if way.position == position)


def conductors_to_load(design: Design, subject: Subject) -> Iterator[Decided]:
    for leg in legs(design.house, _way(design.house, subject).links):
        yield Decided("conductor", leg.run)


def conductors_to_inverter(design: Design, subject: Subject) -> Iterator[Decided]:
    for run in design.house.upstream(f"{subject.id}.grid") or ():
        yield Decided("conductor", run)


QUESTIONS = (
    Question(
        "circuit.drop",
        "Does enough voltage arrive at the end of the circuit?",
        load_circuits,
        each(drop_limit, drop_most),
        conductors_to_load,
        shared=True,
    ),
    Question(
        "inverter.rise",
        "How far does the inverter lift the voltage when it feeds in?",
        feeding_inverters,
        each(operator_limit, rise_ceiling, rise_should),
        conductors_to_inverter,
        shared=True,
    ),
    Question(
        "inverter.overvoltage",
        "Does the inverter stay on when the network's voltage is high?",
        feeding_inverters,
        each(at_highest, at_tolerance),
        conductors_to_inverter,
        shared=True,
    ),
)
