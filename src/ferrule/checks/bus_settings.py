"""Whether all devices of a signal bus mean the same: who is on it, who asks, and how they talk."""

from collections.abc import Iterator
from typing import Any, NamedTuple

from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import buses, serial_buses, signals
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, is_so
from ferrule.design import Design
from ferrule.fact import all_known, known, unknown_of

_TALKING = frozenset({"inverter", "battery", "meter", "controller", "changeover"})


def joined(design: Design, code: Code, _subject: Subject) -> Constraint | None:
    """What leads, every inverter and every battery with a port hang together, bus by bus."""
    house = design.house
    listed = known(house.job.buses)
    all_known(*(fact for bus in listed for fact in unknown_of(bus.named_links(), "length_m")))
    with_ports = {name.partition(".")[0] for name in house.ports}
    talking = [d.id for d in house.job.devices if d.kind in _TALKING and d.id in with_ports]
    if not talking:
        return None
    group = {device: {device} for device in talking}
    for bus in listed:
        met = {node.port.partition(".")[0] for node in bus.nodes} & group.keys()
        together = set[str]().union(*(group[device] for device in met))
        group |= dict.fromkeys(together, together)
    alone = [device for device in talking if device not in group[talking[0]]]
    return is_so(
        "joined",
        "No bus joins {alone} to {first}" if alone else "A bus reaches every device that has to talk",
        code.trace(),
        not alone,
        mend="lead a bus to {alone}",
        alone=" and ".join(alone),
        first=talking[0],
    )


def one_line(design: Design, code: Code, subject: Subject) -> Constraint:
    """A line that nobody has measured is a plan only."""
    all_known(*unknown_of(design.house.buses[subject.id].named_links(), "length_m"))
    branches = design.house.lines[subject.id].branches
    return is_so(
        "one_line",
        "More than two cables meet at {branches}; a bus is one line from device to device"
        if branches
        else "The bus is one line from device to device",
        code.trace(),
        not branches,
        mend="lead the cable on from device to device",
        branches=" and ".join(branches),
    )


def client_at_end(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """Common practice: terminator, bias and screen then sit where the asking device is."""
    bus = design.house.buses[subject.id]
    if bus.kind == "can":
        return None
    client = known(bus.client)
    at_end = client in design.house.lines[bus.id].ends
    return is_so(
        "client_at_end",
        "{client}, which asks, is at an end of the line"
        if at_end
        else "{client}, which asks, should be at an end of the line",
        code.trace(),
        at_end,
        binding=False,
        mend="lead the line so that it begins at {client}",
        client=client,
    )


def leader(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """With a site controller, no inverter asks the meter as well: two that regulate hunt each other."""
    bus, house = design.house.buses[subject.id], design.house
    if bus.kind == "can":
        return None
    client = known(bus.client).partition(".")[0]
    kind, led_by = house.devices[client].kind, house.job.architecture
    kinds = {house.devices[node.port.partition(".")[0]].kind for node in bus.nodes}
    if led_by == "controller-led":
        good = kind == "controller" or not kinds & {"inverter", "meter"}
        mend = "let the controller ask, and leave the inverter's meter port empty"
    else:
        good = kind in {"inverter", "controller"} or not kinds & {"inverter"}
        mend = "let the inverter that leads ask"
    return is_so(
        "leader",
        "{client} asks, as it should where the house is {led_by}"
        if good
        else "{client} asks; where the house is {led_by}, another device does",
        code.trace(),
        good,
        mend=mend,
        client=client,
        led_by=led_by,
    )


def roles(design: Design, code: Code, subject: Subject) -> Constraint:
    """One asks, all others answer."""
    bus = design.house.buses[subject.id]
    ports = design.house.bus_ports(bus.id)
    all_known(bus.client, *unknown_of(ports.items(), "role"))
    wrong = [
        name
        for name, port in ports.items()
        if known(port.role) not in {"either", "client" if name == known(bus.client) else "server"}
    ]
    return is_so(
        "roles",
        "{client} asks and the others answer; {wrong} cannot be set to that"
        if wrong
        else "{client} asks and the others answer",
        code.trace(),
        not wrong,
        mend="name the port that asks as the client, and use a port that answers on every other device",
        client=known(bus.client),
        wrong=" and ".join(wrong),
    )


def addresses(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """An address twice is refused while the job is read."""
    bus = design.house.buses[subject.id]
    answering = [node for node in bus.nodes if node.port != known(bus.client)]
    all_known(*unknown_of(((node.port, node) for node in answering), "address"))
    t = code.trace()
    low, high = covered(code.procedures.signal_bus).addresses(t)
    for node in answering:
        port, address = design.house.ports[node.port], known(node.address)
        least, most = max(low, port.address_low or low), min(high, port.address_high or high)
        yield is_so(
            f"address_{node.port}",
            "{port} has address {address}; it can be from {least} to {most}",
            t,
            least <= address <= most,
            mend="give {port} another address",
            port=node.port,
            address=address,
            least=least,
            most=most,
        )


class _Set(NamedTuple):
    """What is set on a bus, the ports that cannot be set to it, and what all of them can be set to."""

    value: Any
    without: list[str]
    shared: list[Any]


def _set(design: Design, subject: Subject, given: Any, allowed: str) -> _Set:
    """`allowed` is the fact of a port that lists what it can be set to. Raises `Missing`."""
    ports = design.house.bus_ports(subject.id)
    all_known(given, *unknown_of(ports.items(), allowed))
    value, lists = known(given), {name: getattr(port, allowed) for name, port in ports.items()}
    read = {name: {_read(each) for each in takes} for name, takes in lists.items()}
    without = [name for name, takes in read.items() if _read(value) not in takes]
    shared = [each for each in next(iter(lists.values())) if all(_read(each) in s for s in read.values())]
    return _Set(value, without, sorted(shared))


def _read(setting: str | float) -> str:
    """A setting as a person reads it: the case of its letters does not matter."""
    return str(setting).casefold()


def polarity(design: Design, code: Code, subject: Subject) -> Constraint:
    """One core is the positive one at every device, whatever its makers call the terminals."""
    bus, ports = design.house.buses[subject.id], design.house.bus_ports(subject.id)
    nodes = [(node.port, node) for node in bus.nodes]
    all_known(bus.client, *unknown_of(ports.items(), "plus", "minus"), *unknown_of(nodes, "first_core"))
    positive = {name: node.first_core == ports[name].plus for name, node in nodes}
    crossed = [name for name in positive if positive[name] != positive[known(bus.client)]]
    return is_so(
        "polarity",
        "The core that is positive at {client} lands on the negative terminal at {crossed}"
        if crossed
        else "The same core is positive at every device",
        code.trace(),
        not crossed,
        mend="swap the two wires at {crossed}",
        client=known(bus.client),
        crossed=" and ".join(crossed),
    )


def speed(design: Design, code: Code, subject: Subject) -> Constraint:
    bus = design.house.buses[subject.id]
    found = _set(design, subject, bus.speed_bit_per_s, "speeds_bit_per_s")
    return is_so(
        "speed",
        "{without} cannot be set to {set_bit_per_s}"
        if found.without
        else "Every device takes {set_bit_per_s}",
        code.trace(),
        not found.without,
        mend="set all of them to {shared_bit_per_s}" if found.shared else "use devices that share a speed",
        without=" and ".join(found.without),
        set_bit_per_s=found.value,
        shared_bit_per_s=max(found.shared, default=0.0),
    )


def parity(design: Design, code: Code, subject: Subject) -> Constraint | None:
    bus = design.house.buses[subject.id]
    if bus.kind == "can":
        return None
    found = _set(design, subject, bus.parity, "parities")
    return is_so(
        "parity",
        "{without} cannot be set to parity {parity}"
        if found.without
        else "Every device takes parity {parity}; make sure that the stop bits are the same on all",
        code.trace(),
        not found.without,
        mend="set all of them to parity {shared}" if found.shared else "use devices that share a parity",
        without=" and ".join(found.without),
        parity=found.value,
        shared=" or ".join(found.shared),
    )


def protocol(design: Design, code: Code, subject: Subject) -> Constraint:
    """The setting that is wrong most often where a battery does not answer."""
    bus = design.house.buses[subject.id]
    found = _set(design, subject, bus.protocol, "protocols")
    return is_so(
        "protocol",
        "{protocol} is not spoken by {without}" if found.without else "All devices speak {protocol}",
        code.trace(),
        not found.without,
        mend="set all of them to {shared}"
        if found.shared
        else "use devices that the maker of either lists together",
        without=" and ".join(found.without),
        protocol=found.value,
        shared=" or ".join(found.shared),
    )


QUESTIONS = (
    Question("bus.connected", "Does a bus reach every device that has to talk?", signals, each(joined)),
    Question(
        "bus.topology",
        "Is the bus one line, with the device that asks at its beginning?",
        buses,
        each(one_line, client_at_end, leader),
    ),
    Question(
        "bus.addresses",
        "Does one device ask, and has every other an address it can have?",
        serial_buses,
        each(roles, addresses),
    ),
    Question("bus.polarity", "Is one core the positive one at every device?", serial_buses, each(polarity)),
    Question("bus.speed", "Can all devices be set to this speed and parity?", buses, each(speed, parity)),
    Question("bus.protocol", "Do all devices speak the same protocol?", buses, each(protocol)),
)
