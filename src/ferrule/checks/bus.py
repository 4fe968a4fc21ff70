"""What a meter reads on a signal bus; whether its terminators, its bias and its load are right."""

from collections.abc import Iterator
from functools import partial

from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import buses, serial_buses
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.clauses.procedures.bus import Expected
from ferrule.constraint import Constraint, is_so
from ferrule.design import Decided, Design
from ferrule.fact import Missing, all_known, known, unknown_of
from ferrule.job.bus import Bus
from ferrule.parts.port import PortBias
from ferrule.physics.bus import Bias, Link, Network, Node
from ferrule.working import Trace

# What a meter reads, for the questions here and for whoever measures later.


def resistance(design: Design, code: Code, bus: str, port: str, t: Trace) -> Expected:
    """What an ohmmeter should show between the lines at a port, everything without power, in Ω.

    Raises `Missing`.
    """
    whole, at = network(design, code, bus, t), list(design.house.bus_ports(bus)).index(port)
    return covered(code.procedures.signal_bus).resistance(t, network=whole, at=at)


def idle_voltage(design: Design, code: Code, bus: str, port: str, t: Trace) -> Expected:
    """What a voltmeter should show between the lines of an RS-485 bus at a port, with power and nobody
    sending, in V.

    Raises `Missing`.
    """
    whole, at = network(design, code, bus, t), list(design.house.bus_ports(bus)).index(port)
    return covered(code.procedures.signal_bus).idle(t, network=whole, at=at)


def network(design: Design, code: Code, bus: str, t: Trace) -> Network:
    """A bus as resistances: its devices in the order of its nodes, its cables in the order of its links.

    Raises `Missing`.
    """
    return design.recall_noted((network, bus, code), t, partial(_network, design, code, bus))


def _network(design: Design, code: Code, bus: str, t: Trace) -> Network:
    given, cable = design.house.buses[bus], design.signal_cable(bus)
    ports = design.house.bus_ports(bus)
    serial = given.kind == "rs485"
    all_known(
        cable.core,
        *unknown_of(ports.items(), "terminator", *(("load", "bias") if serial else ())),
        *unknown_of(given.named_links(), "length_m"),
    )
    terminated, biased = _terminated(design, given), _biased(design, given)
    clause, own = covered(code.procedures.signal_bus), code.trace()
    nodes = [
        Node(
            (port.terminator_of_ohm or clause.terminator_ohm(own)) if name in terminated else None,
            clause.input_ohm(own, kind=given.kind, load=known(port.load) if serial else 1.0),
            _bias(biased.get(name)),
        )
        for name, port in ports.items()
    ]
    places = {name: at for at, name in enumerate(ports)}
    area_mm2 = known(cable.core).area_mm2
    links = [
        Link(
            places[link.start],
            places[link.end],
            clause.core_ohm(own, area_mm2=area_mm2, length_m=known(link.length_m)),
        )
        for link in given.links
    ]
    t.steps += [step for at, step in enumerate(own.steps) if step not in own.steps[:at]]
    return Network(tuple(nodes), tuple(links))


def _bias(given: PortBias | None) -> Bias | None:
    return None if given is None else Bias(given.up_ohm, given.down_ohm, given.supply_v)


def _terminated(design: Design, bus: Bus) -> frozenset[str]:
    """The ports at which a terminator is on: the built-in ones, and those decided."""
    ports = design.house.bus_ports(bus.id)
    built_in = {name for name, port in ports.items() if known(port.terminator) == "built-in"}
    return frozenset(built_in) | frozenset(design.terminators(bus.id))


def _biased(design: Design, bus: Bus) -> dict[str, PortBias]:
    """The ports that bias the bus: those that always do, and those decided. None on a CAN bus."""
    found: dict[str, PortBias] = {}
    if bus.kind == "can":
        return found
    for name, port in design.house.bus_ports(bus.id).items():
        bias = known(port.bias)
        if isinstance(bias, PortBias) and (not bias.switchable or name in design.bus_bias(bus.id)):
            found[name] = bias
    return found


def wanted_terminators(design: Design, code: Code, bus: Bus, t: Trace) -> tuple[str, ...]:
    """The ports a terminator belongs at: both ends of the line, or those the leading device's maker wants.

    Raises `Missing`.
    """
    shape = design.house.lines[bus.id]
    if len(shape.ends) != covered(code.procedures.signal_bus).terminators(t):
        raise Missing(f"one line without branches for bus {bus.id}, before its terminators have a place")
    client = known(bus.client) if bus.kind == "rs485" else ""
    wants = design.house.ports[client].ends if client else None
    if wants == "none":
        return ()
    return tuple(end for end in shape.ends if wants != "last" or end != client)


def ends(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """A terminator at each end of the line, and none in between."""
    bus, ports, t = design.house.buses[subject.id], design.house.bus_ports(subject.id), code.trace()
    if design.house.lines[bus.id].branches:
        return  # the line comes first
    all_known(*unknown_of(ports.items(), "terminator"))
    wanted, on = wanted_terminators(design, code, bus, t), _terminated(design, bus)
    without = [port for port in wanted if port not in on]
    yield is_so(
        "ends",
        "No terminator is on at {without}, where the line ends"
        if without
        else "A terminator is on at {wanted}, where the line ends"
        if wanted
        else "The maker of the device that asks wants no terminators",
        t,
        not without,
        mend="switch the terminator on at {without}, or fit a resistor of that value at its terminals",
        without=" and ".join(without),
        wanted=" and ".join(wanted),
    )
    beyond = [port for port in ports if port in on and port not in wanted]
    yield is_so(
        "between",
        "A terminator is on at {beyond}, where none belongs" if beyond else "None is on elsewhere",
        code.trace(),
        not beyond,
        mend="switch the terminator off at {beyond}; take one out that is built in, or move its device to an "
        "end of the line",
        beyond=" and ".join(beyond),
    )


def resistance_reading(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """What to expect on site, at the ends of the line."""
    for port in design.house.lines[subject.id].ends:
        t = code.trace()
        found = resistance(design, code, subject.id, port, t)
        yield is_so(
            f"reading_{port}",
            "With all power off a meter between the lines at {port} reads {reading_ohm}, "
            + ("from {low_ohm} up" if found.high is None else "from {low_ohm} to {high_ohm}"),
            t,
            True,
            binding=False,
            port=port,
            reading_ohm=found.value,
            low_ohm=found.low,
            high_ohm=found.high,
        )


def fail_safe(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """Receivers that take 0 V for idle need no bias; one that does not needs the voltage of the standard."""
    bus, ports = design.house.buses[subject.id], design.house.bus_ports(subject.id)
    all_known(*unknown_of(ports.items(), "fail_safe", "bias"))
    if all(known(port.fail_safe) for port in ports.values()):
        yield is_so("fail_safe", "Every receiver takes a silent bus for idle by itself", code.trace(), True)
        return
    whole = network(design, code, bus.id, code.trace())
    yield from covered(code.procedures.signal_bus).idle_enough(code.rulebook, network=whole)


def bias_places(design: Design, code: Code, subject: Subject) -> Constraint:
    bus = design.house.buses[subject.id]
    all_known(*unknown_of(design.house.bus_ports(bus.id).items(), "bias"))
    return covered(code.procedures.signal_bus).biased(code.rulebook, places=len(_biased(design, bus)))


def idle_reading(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """What to expect on site, at the ends of the line of a bus that is biased."""
    for port in design.house.lines[subject.id].ends:
        t = code.trace()
        found = idle_voltage(design, code, subject.id, port, t)
        if found.value:
            yield is_so(
                f"reading_{port}",
                "With power on and nobody sending a meter at {port} reads {reading_v} between the lines, "
                "from {low_v} to {high_v}",
                t,
                True,
                binding=False,
                port=port,
                reading_v=found.value,
                low_v=found.low,
                high_v=found.high,
            )


def load(design: Design, code: Code, subject: Subject) -> Constraint:
    bus, ports = design.house.buses[subject.id], design.house.bus_ports(subject.id)
    serial = bus.kind == "rs485"
    all_known(
        *unknown_of(bus.named_links(), "length_m"),  # until then its devices are a plan
        *unknown_of(ports.items(), *(("load", "bias") if serial else ())),
    )
    return covered(code.procedures.signal_bus).load(
        code.rulebook,
        kind=bus.kind,
        loads=[known(port.load) if serial else 1.0 for port in ports.values()],
        biases_ohm=[min(bias.up_ohm, bias.down_ohm) for bias in _biased(design, bus).values()],
    )


def its_terminators(_design: Design, subject: Subject) -> Iterator[Decided]:
    yield Decided("terminators", subject.id)


def its_bias(_design: Design, subject: Subject) -> Iterator[Decided]:
    yield Decided("bus_bias", subject.id)


QUESTIONS = (
    Question(
        "bus.termination",
        "Are terminators on at the two ends of the line and nowhere else?",
        buses,
        each(ends, resistance_reading),
        its_terminators,
    ),
    Question(
        "bus.bias",
        "Does every receiver take the silent bus for idle?",
        serial_buses,
        each(fail_safe, bias_places, idle_reading),
        its_bias,
    ),
    Question("bus.load", "Can one device drive all the others?", buses, each(load), its_bias),
)
