"""What ends a fault while an inverter or a generator feeds the house and can give only so much current."""

from collections.abc import Callable, Iterator

from ferrule.checks import paths
from ferrule.checks.current import design_current_a
from ferrule.checks.feeding import feeds
from ferrule.checks.neutral_earth import position_of, runs_through
from ferrule.checks.protection import device, loop_parts
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import backed_up
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, Verdict, at_least, is_so
from ferrule.design import Decided, Design
from ferrule.fact import Missing, all_known, known
from ferrule.job.earth import Electrode
from ferrule.parts import Generator
from ferrule.parts.devices import BackupPort
from ferrule.physics import fault
from ferrule.quantity import Size
from ferrule.wiring.topology import Link
from ferrule.working import Trace

_WHILE = {"island": "of island mode", "generator": "on the generator"}
_STOPS = {"island": "the inverter stops", "generator": "the generator stops or its own breaker trips"}


def link(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """Without exactly one bond no device sees an earth fault as it should."""
    topology, earthing = design.house.topology, known(design.house.job.supply.earthing)
    position = position_of(design, subject)
    for judged in covered(code.procedures.neutral_earth).bonds(
        code.rulebook,
        position=position,
        earthing=earthing,
        closed=len(topology.closed_bonds(_zone(design, subject), position)),
    ):
        first = f"see to the neutral-earth bonds {_WHILE[position]} first"
        yield judged._replace(name="link", mend="" if judged.verdict is Verdict.PASS else first)


def earth_fault(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """By the residual current device that trips first; else by the overcurrent device; else by the collapse
    of the source. An IT system is asked about once for the house.
    """
    if known(design.house.job.supply.earthing) == "IT":
        return
    way = _way(design, subject)
    devices = paths.devices(design, way)
    if not devices:
        yield from _by_overcurrent(design, code, subject)
        return
    rcd = min((rcd for _, rcd in devices), key=lambda rcd: rcd.residual_a)
    loop_ohm = _earth_loop_ohm(design, code, way, code.trace())
    yield from covered(code.procedures.island_fault).residual(
        code.rulebook,
        residual_a=rcd.residual_a,
        loop_ohm=loop_ohm,
        source_a=_weakest(design, subject)[0],
    )


def waveform(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """Whether that residual current device can see what the inverters may let into the circuit."""
    devices = paths.devices(design, _way(design, subject))
    if not devices:
        return
    rcd = min((rcd for _, rcd in devices), key=lambda rcd: rcd.residual_a)
    clause = covered(code.procedures.residual_current)
    for inverter in design.house.backed_up[subject.id].inverters:
        part, t = design.inverter(inverter), code.trace()
        all_known(part.separation, part.smooth_dc_residual)
        wanted = clause.inverter_type(
            t,
            separated=known(part.separation) == "simple",
            smooth_dc_excluded=known(part.smooth_dc_residual) == "excluded",
        )
        yield is_so(
            "waveform",
            "The RCD is of type {fitted}; the residual current of {inverter} asks for type {wanted}",
            t,
            clause.strictest(code.rulebook, {rcd.type, wanted}) == rcd.type,
            mend="fit an RCD of type {wanted}",
            fitted=rcd.type,
            inverter=inverter,
            wanted=wanted,
        )


def _by_overcurrent(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    way = _way(design, subject)
    loop_t = code.trace()
    loop_ohm = _earth_loop_ohm(design, code, way, loop_t)
    tripped = _at_once(design, code, subject, "earth_fault", loop_ohm, loop_t)
    if tripped is not None:
        yield tripped
        return
    sources = _sources(design, subject)
    all_known(*(source.collapses_safely for source in sources))
    collapses = all(known(source.collapses_safely) for source in sources)
    yield is_so(
        "earth_fault",
        "Nothing trips with what the source gives; its maker declares that the voltage falls in time"
        if collapses
        else "Nothing trips with what the source gives, and the voltage does not fall in time",
        code.trace(),
        False,
        binding=not collapses,
        mend="fit an RCD in {circuit}",
        circuit=subject.id,
    )


def short_circuit(design: Design, code: Code, subject: Subject) -> Constraint:
    """Line to neutral: no residual current device sees it."""
    way, t = _way(design, subject), code.trace()
    loop_ohm = _loop_ohm(design, code, way.links, design.neutral, 0.0, t)
    tripped = _at_once(design, code, subject, "short_circuit", loop_ohm, t)
    if tripped is not None:
        return tripped
    t = code.trace()
    source_a = t.given("source_a", _weakest(design, subject)[0], "short-circuit current of the source")
    rating_a = _tripping_a(design, code, subject, t, source_a)
    return is_so(
        "short_circuit",
        "A short circuit does not trip the circuit's own device with the {source_a} of the source: "
        f"{_STOPS[subject.position]}, and all it feeds goes dark",
        t,
        False,
        binding=False,
        mend="fit a breaker of the quickest curve rated {rating_a}, to leave the rest alive"
        if rating_a
        else "share the loads of {circuit} out over circuits with the quickest and smallest breakers",
        source_a=source_a,
        rating_a=rating_a,
        circuit=subject.id,
    )


def _tripping_a(design: Design, code: Code, subject: Subject, t: Trace, source_a: float) -> float | None:
    """The largest standard rating that the source trips at once and that carries the circuit, if there is
    one; a load that nobody knows rules none out.
    """
    try:
        drawn_a = design_current_a(design, design.house.circuits[subject.id], code.trace())
    except Missing:
        drawn_a = 0.0
    most_a = covered(code.procedures.island_fault).tripped_most_a(t, source_a=source_a)
    ratings_a = covered(code.procedures.conductor).ratings_a(code.rulebook, "mcb")
    return max((rating_a for rating_a in ratings_a if drawn_a <= rating_a <= most_a), default=None)


def _at_once(
    design: Design, code: Code, subject: Subject, name: str, loop_ohm: float, t: Trace
) -> Constraint | None:
    """The constraint passed if the circuit's own device trips at once; None where that is not sure."""
    circuit = design.house.circuits[subject.id]
    source_a, lasts_s = _weakest(design, subject)
    t.given("source_a", source_a, f"short-circuit current of the source {_WHILE[subject.position]}")
    voltage_v = design.house.voltages_v[circuit.phases[0]]
    if subject.position == "generator":  # no limiter: its own impedance comes before that of the cables
        own_ohm = t.calculate(
            fault.impedance_behind, voltage_v=voltage_v, voltage_factor=1.0, fault_a=source_a
        )
        loop_ohm = t.calculate(fault.loop_at_end, external_ohm=own_ohm, cable_ohm=loop_ohm)
    loop_a = t.calculate(fault.fault_current, voltage_v=voltage_v, voltage_factor=1.0, loop_ohm=loop_ohm)
    trip_a = covered(code.procedures.island_fault).trips_at_a(
        t, device=device(design, circuit), lasts_s=lasts_s
    )
    if trip_a is None or min(source_a, loop_a) < trip_a:
        return None
    return at_least(
        name,
        "The source gives {value} for {lasts_s}; the device surely trips at once at {limit}",
        t,
        value=min(source_a, loop_a),
        limit=trip_a,
        unit="A",
        lasts_s=lasts_s,
    )


def cable(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """With all sources together, for as long as the longest of them gives current; inverters add to a
    generator what they feed in beside it.
    """
    sources = _sources(design, subject)
    all_known(*(fact for each in sources for fact in (each.short_circuit_a, each.short_circuit_duration_s)))
    circuit = design.house.circuits[subject.id]
    beside_a = (
        max(sum(feed.current_a for feed in feeds(design) if feed.on(line)) for line in circuit.phases)
        if subject.position == "generator"
        else 0.0
    )
    run = circuit.run
    kind = design.cable(run)
    yield from covered(code.procedures.island_fault).withstand(
        code.rulebook,
        size=design.size(run),
        insulation=kind.insulation,
        metal=kind.conductor,
        source_a=sum(known(source.short_circuit_a) for source in sources) + beside_a,
        lasts_s=max(known(source.short_circuit_duration_s) for source in sources),
    )


def _zone(design: Design, subject: Subject) -> tuple[str, ...]:
    """The terminals that feed a circuit together."""
    zones = design.house.topology.zones(position_of(design, subject))
    return next(zone for zone in zones if _way(design, subject).source in zone)


def _sources(design: Design, subject: Subject) -> list[BackupPort | Generator]:
    """The sheets of what feeds a circuit together."""
    devices = [source.partition(".")[0] for source in _zone(design, subject)]
    if subject.position == "generator":
        return [design.generator(device) for device in devices]
    return [design.backup_port(device) for device in devices]


def _weakest(design: Design, subject: Subject) -> tuple[float, float]:
    """What the weakest source gives by itself, in A, and the shortest time for which one gives it, in s."""
    sources = _sources(design, subject)
    all_known(*(fact for each in sources for fact in (each.short_circuit_a, each.short_circuit_duration_s)))
    return (
        min(known(source.short_circuit_a) for source in sources),
        min(known(source.short_circuit_duration_s) for source in sources),
    )


def _way(design: Design, subject: Subject) -> paths.Way:
    circuit = design.house.circuits[subject.id]
    return next(way for way in paths.ways(design.house, circuit) if way.position == subject.position)


def _earth_loop_ohm(design: Design, code: Code, way: paths.Way, t: Trace) -> float:
    """From the source to the far end of the circuit and back to the bond, wherever that is."""
    links, outside_ohm = way.links, 0.0
    if runs_through(design, [way.source], way.position):
        supply = design.house.job.supply
        back = design.house.topology.path(way.source, "supply", way.position, "neutral")
        links = (*links, *(back or ()))
        if supply.earthing == "TT":
            electrode = known(design.house.job.earth.electrode)
            if not isinstance(electrode, Electrode):
                raise Missing("resistance of the earth electrode, measured")
            outside_ohm = known(electrode.resistance_ohm)
        else:
            outside_ohm = known(supply.loop_max_ohm)
    return _loop_ohm(design, code, links, design.protective, outside_ohm, t)


def _loop_ohm(
    design: Design,
    code: Code,
    links: tuple[Link, ...],
    back: Callable[[str], Size],
    outside_ohm: float,
    t: Trace,
) -> float:
    runs = [leg.run for leg in paths.legs(design.house, links)]
    parts = loop_parts(design, runs, back)
    return covered(code.procedures.island_fault).loop_ohm(t, outside_ohm=outside_ohm, parts=parts)


def rcds(design: Design, subject: Subject) -> Iterator[Decided]:
    return paths.rcd_choices(design.house, design.house.circuits[subject.id])


QUESTIONS = (
    Question(
        "circuit.island_fault",
        "What ends a fault in this circuit while the inverter alone feeds it?",
        backed_up,
        each(link, earth_fault, short_circuit, cable),
    ),
    Question(
        "circuit.island_rcd",
        "Does the RCD see a fault that the inverter feeds?",
        backed_up,
        each(waveform),
        rcds,
    ),
)
