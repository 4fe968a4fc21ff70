"""How each place is made dead: what feeds it in each switch position, where that is opened and locked, what
to prove, and what stays live whatever is opened.

Alternating current follows the topology. The array and the battery are sources of direct current beside it.
"""

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations
from typing import Literal, NamedTuple

from ferrule.checks.question import Subject
from ferrule.design import Design, House
from ferrule.fact import Fact, Missing, Unknown, known
from ferrule.job.devices import BatteryDevice, GeneratorDevice
from ferrule.parts import Inverter
from ferrule.proving.areas import Area, areas
from ferrule.wiring.topology import Link, Position

SourceKind = Literal["network", "inverter", "generator", "string", "battery"]
PointKind = Literal[
    "service-fuse", "breaker", "fuse", "generator", "dc-switch", "dc-isolator", "dc-plugs", "battery-switch",
    "battery-isolator", "battery-fuse",
]  # fmt: skip
Lock = Literal["supplier", "lock-off", "carrier-kept", "padlock", "starter-locked", "capped", "guarded"]
Who = Literal["crew", "supplier"]
RemainKind = Literal["string-in-light", "battery-posts", "capacitors", "supply-side"]
Proof = Literal["tester-before", "pairs", "tester-after"]

#: in this order, at every place that is made dead
PROOF: tuple[Proof, ...] = ("tester-before", "pairs", "tester-after")

#: the order in which what feeds a place is opened: the network's side first, direct current without load
_ORDER: tuple[PointKind, ...] = (
    "generator", "breaker", "fuse", "service-fuse", "dc-switch", "dc-isolator", "battery-switch",
    "battery-isolator", "battery-fuse", "dc-plugs",
)  # fmt: skip


class Point(NamedTuple):
    """Where a feed is opened: its kind, whose it is (a circuit, an input, a device), and at which thing it
    sits; how it is locked, which may not be known; and who may operate it.
    """

    kind: PointKind
    of: str
    at: str
    lock: Fact[Lock]
    who: Who = "crew"

    @property
    def id(self) -> str:
        return f"{self.kind}/{self.of}"


class Feed(NamedTuple):
    """A source that reaches an area: in which positions, at which of its terminals, and all that has to be
    opened against it. No points: nothing parts the area from it, see what remains.
    """

    source: str
    kind: SourceKind
    positions: tuple[Position, ...]
    terminals: tuple[str, ...]
    points: tuple[Point, ...]


class Pair(NamedTuple):
    """Two conductors at a terminal, between which there must be no voltage."""

    terminal: str
    a: str
    b: str


class Remain(NamedTuple):
    """What stays live when all is opened; capacitors until they are discharged, which takes `wait_s`."""

    kind: RemainKind
    of: str
    wait_s: Fact[float] | None = None


class Record(NamedTuple):
    """The isolation record of one area."""

    area: Subject
    place: str
    feeds: tuple[Feed, ...]
    pairs: tuple[Pair, ...]
    remains: tuple[Remain, ...]
    find_out: tuple[str, ...]

    @property
    def points(self) -> tuple[Point, ...]:
        """All that is opened and locked, each once, in the order in which it is opened."""
        return _ordered(point for feed in self.feeds for point in feed.points)

    @property
    def book_supplier(self) -> bool:
        """Whether only the supplier can make it dead."""
        return any(point.who == "supplier" for point in self.points)


def isolation(design: Design) -> tuple[Record, ...]:
    """The record of every area of a house, from the origin of the supply on."""
    return tuple(_record(design, area) for area in areas(design))


def _record(design: Design, area: Area) -> Record:
    feeds = (*_alternating(design, area), *_strings(design, area), *_batteries(design, area))
    remains = tuple(dict.fromkeys(_remains(design, area, feeds)))
    asks = [
        f"{feed.source}: what makes it dead" for feed in feeds if feed.kind == "inverter" and not feed.points
    ]
    asks += [point.lock.ask for feed in feeds for point in feed.points if isinstance(point.lock, Unknown)]
    asks += [each.wait_s.ask for each in remains if isinstance(each.wait_s, Unknown)]
    pairs = tuple(pair for terminal in area.terminals for pair in _pairs(design.house, terminal))
    found_out = tuple(dict.fromkeys([*area.find_out, *asks]))
    return Record(area.subject, area.place, feeds, pairs, remains, found_out)


# Alternating current


def ac_sources(house: House, position: Position) -> tuple[str, ...]:
    """The terminals that can be live of themselves in a position: those that feed the house then, and every
    inverter that is not cut off, for it feeds in beside the network. None in transit.
    """
    if position == "transit":
        return ()
    sources = list(house.topology.sources[position])
    landed = house.topology.sources.get("island", ())
    if position != "island":
        ends = dict.fromkeys(end for run in house.job.runs for end in (run.start, run.end))
        sources += [end for end in ends if house.feeds_in(end)]
        sources += landed
    return tuple(dict.fromkeys(sources))


def _alternating(design: Design, area: Area) -> Iterator[Feed]:
    house = design.house
    reached: dict[str, dict[Position, dict[str, None]]] = {}
    points: dict[str, list[Point]] = {}
    for position in house.topology.positions:
        for source in ac_sources(house, position):
            ways = house.topology.ways(source, position)
            for terminal in area.terminals:
                if terminal in ways:
                    owner = _owner(house, source)
                    reached.setdefault(owner, {}).setdefault(position, {})[terminal] = None
                    points.setdefault(owner, []).extend(_against(design, area, source, ways[terminal]))
    for owner, found in reached.items():
        met = dict.fromkeys(terminal for terminals in found.values() for terminal in terminals)
        yield Feed(owner, _kind(house, owner), tuple(found), tuple(met), _ordered(points[owner]))


def _owner(house: House, source: str) -> str:
    """The supply, or the device that a live terminal belongs to."""
    device = source.partition(".")[0]
    return device if device in house.devices else source


def _kind(house: House, owner: str) -> SourceKind:
    if owner == "supply":
        return "network"
    return "generator" if isinstance(house.devices[owner], GeneratorDevice) else "inverter"


def _against(design: Design, area: Area, source: str, way: Sequence[Link]) -> list[Point]:
    """What parts an area from a source along a way: the nearest breaker outside the area, else what makes
    the source itself dead.
    """
    for link in reversed(way):
        circuit = design.house.circuit_of_run.get(link.by.removeprefix("run/"))
        if circuit is not None and (board := design.house.board_of[circuit.id].id) not in area.terminals:
            if circuit.device.kind == "mcb":
                return [Point("breaker", circuit.id, board, "lock-off")]
            return [Point("fuse", circuit.id, board, "carrier-kept")]
    return list(_against_itself(design, source))


def _against_itself(design: Design, source: str) -> Iterator[Point]:
    if source == "supply":
        yield Point("service-fuse", "supply", "supply", "supplier", "supplier")
    elif source in design.house.devices:
        yield Point("generator", source, source, "starter-locked")
    else:
        yield from _direct_points(design, source.partition(".")[0])


# Direct current


def _direct_points(design: Design, inverter: str) -> Iterator[Point]:
    """What cuts an inverter off from all its sources of direct current, without opening it."""
    for terminal in design.house.inputs:
        if terminal.partition(".")[0] == inverter:
            points = _input_points(design, terminal)
            yield from (point for point in points if point.kind != "dc-plugs")
    for battery in _batteries_of(design.house, inverter):
        yield from _battery_points(design, battery)


def _input_points(design: Design, terminal: str) -> Iterator[Point]:
    """The switch of an input; its plugs as well where that switch sits within the inverter."""
    inverter = terminal.partition(".")[0]
    try:
        isolator = design.isolator(terminal)
        if isolator == "built-in" and not known(design.inverter(inverter).dc_switch):
            raise Missing(f"{terminal}: with what its strings are switched off")
    except Missing as missing:
        yield Point("dc-isolator", terminal, terminal, Unknown("; ".join(missing.asks)))
        return
    if isolator == "built-in":
        locks = design.inverter(inverter).dc_switch_lockable
        yield Point("dc-switch", terminal, inverter, _locked(inverter, locks))
        yield Point("dc-plugs", terminal, inverter, "capped")
    else:
        yield Point("dc-isolator", terminal, terminal, _locked(terminal, isolator.lockable))


def _locked(owner: str, lockable: Fact[bool]) -> Fact[Lock]:
    """With a padlock where the switch takes one, else somebody stands guard."""
    if isinstance(lockable, Unknown):
        return Unknown(f"{owner}: {lockable.ask}")
    return "padlock" if lockable else "guarded"


def _battery_points(design: Design, battery: str) -> Iterator[Point]:
    """The battery's own switch and the one beside it, each that is there or may be; its fuse where neither
    is.
    """
    device, own = design.battery_device(battery), design.battery(battery).isolates
    points = []
    if own != "none":
        lock: Fact[Lock] = Unknown(f"{battery}: {own.ask}") if isinstance(own, Unknown) else "guarded"
        points.append(Point("battery-switch", battery, battery, lock))
    if device.isolator != "none":
        asked = device.isolator if isinstance(device.isolator, Unknown) else device.isolator_lockable
        points.append(Point("battery-isolator", battery, battery, _locked(battery, asked)))
    yield from points or [Point("battery-fuse", battery, battery, _fuse_lock(design, battery))]


def _fuse_lock(design: Design, battery: str) -> Fact[Lock]:
    try:
        return "lock-off" if design.battery_protection(battery).kind.startswith("breaker") else "carrier-kept"
    except Missing as missing:
        return Unknown("; ".join(missing.asks))


def _batteries_of(house: House, inverter: str) -> tuple[str, ...]:
    port = f"{inverter}.battery"
    return tuple(
        battery
        for run, battery in house.battery_runs.items()
        if port in {house.runs[run].start, house.runs[run].end}
    )


def _owners(area: Area) -> set[str]:
    """The devices whose terminals an area has."""
    return {terminal.partition(".")[0] for terminal in area.terminals}


def _strings(design: Design, area: Area) -> Iterator[Feed]:
    """Strings reach their input and their own face; in one inverter all inputs are joined within."""
    house, owners = design.house, _owners(area)
    for string in house.job.strings:
        inverter = string.input.partition(".")[0]
        if string.id not in area.terminals and inverter not in owners:
            continue
        met = [terminal for terminal in area.terminals if terminal in {string.id, string.input}]
        points = tuple(_input_points(design, string.input))
        yield Feed(string.id, "string", house.topology.positions, tuple(met), points)


def _batteries(design: Design, area: Area) -> Iterator[Feed]:
    house, owners = design.house, _owners(area)
    for battery in dict.fromkeys(house.battery_runs.values()):
        inverters = {each for each in owners if battery in _batteries_of(house, each)}
        if battery not in area.terminals and not inverters:
            continue
        at = {battery, *(f"{inverter}.battery" for inverter in inverters)}
        met = tuple(terminal for terminal in area.terminals if terminal in at)
        points = tuple(_battery_points(design, battery))
        yield Feed(battery, "battery", house.topology.positions, met, points)
        if battery in area.terminals:
            others = (each for each in _inverters_of(house, battery) if each not in owners)
            yield from (_charging(design, each, battery) for each in others)
    for terminal in area.terminals:
        unjoined = isinstance(house.devices.get(terminal), BatteryDevice)
        if unjoined and terminal not in house.battery_runs.values():
            yield Feed(terminal, "battery", house.topology.positions, (terminal,), ())


def _charging(design: Design, inverter: str, battery: str) -> Feed:
    """An inverter puts the voltage of its other sources on a battery's leads."""
    own = next(area for area in areas(design) if area.subject.id == inverter)
    feeds = (*_alternating(design, own), *_strings(design, own))
    others = (
        point for feed in feeds for point in feed.points if point.of != battery and point.kind != "dc-plugs"
    )
    return Feed(inverter, "inverter", design.house.topology.positions, (battery,), _ordered(others))


def _inverters_of(house: House, battery: str) -> tuple[str, ...]:
    return tuple(each.id for each in house.job.devices if battery in _batteries_of(house, each.id))


def _remains(design: Design, area: Area, feeds: Iterable[Feed]) -> Iterator[Remain]:
    house = design.house
    for feed in feeds:
        if feed.kind == "string":
            yield Remain("string-in-light", feed.source)
        elif feed.kind == "battery":
            yield Remain("battery-posts", feed.source)
        elif feed.kind == "network" and any(point.who == "supplier" for point in feed.points):
            yield Remain("supply-side", feed.source)
    charging = set(_inverters_of(house, area.subject.id))
    for device in house.job.devices:
        part = house.parts[device.part]
        if isinstance(part, Inverter) and device.id in _owners(area) | charging:
            time_s = part.discharge_time_s
            asked = Unknown(f"{device.id}: {time_s.ask}") if isinstance(time_s, Unknown) else time_s
            yield Remain("capacitors", device.id, asked)


# What to prove


def _pairs(house: House, terminal: str) -> Iterator[Pair]:
    poles = ("+", "−", "PE") if _is_direct(house, terminal) else (*_lines(house, terminal), "N", "PE")
    return (Pair(terminal, a, b) for a, b in combinations(poles, 2))


def _is_direct(house: House, terminal: str) -> bool:
    if terminal in house.strings or isinstance(house.devices.get(terminal), BatteryDevice):
        return True
    return terminal.endswith(".battery") or terminal in house.inputs


def _lines(house: House, terminal: str) -> tuple[str, ...]:
    """The line conductors at a terminal: those of the circuit whose run ends there, else all there are."""
    ending = [run.id for run in house.job.runs if run.end == terminal and run.id in house.circuit_of_run]
    own = [line for run in ending for line in house.circuit_of_run[run].phases]
    return tuple(line.name for line in house.job.supply.live if not own or line.name in own)


def _ordered(points: Iterable[Point]) -> tuple[Point, ...]:
    return tuple(sorted(dict.fromkeys(points), key=lambda point: (_ORDER.index(point.kind), point.of)))
