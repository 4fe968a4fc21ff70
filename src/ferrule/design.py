"""The design: a job, its topology, and the choices made for what the job leaves open. Immutable."""

from collections.abc import Callable, Hashable, Mapping
from functools import cached_property
from typing import Any, Literal, NamedTuple, TypeVar

from ferrule.clauses.procedures import Unasked
from ferrule.fact import Fact, Missing, Open, Undecided, Unknown, known
from ferrule.job.array import (
    DcSurgeDevice,
    Face,
    InputGear,
    Isolator,
    PvString,
    StringFuse,
    SurgeDevice,
)
from ferrule.job.boards import Board, Circuit, Curve, Rcd
from ferrule.job.bus import Bus, SignalContact
from ferrule.job.buses import contacts, ports
from ferrule.job.devices import BatteryDevice, BatteryProtection, GeneratorDevice, InverterDevice
from ferrule.job.earth import Bonding
from ferrule.job.job import Job
from ferrule.job.lifting import Lifters
from ferrule.job.roof import Block, Roof
from ferrule.job.runs import Run
from ferrule.layout import roof as layout
from ferrule.layout.roof import Laid
from ferrule.layout.wall import Hung, WallFace, wall_faces
from ferrule.memory import Memory
from ferrule.parts import Anchor, Battery, Cable, Changeover, Generator, Inverter, Module, SignalCable
from ferrule.parts.devices import BackupPort, Tracker
from ferrule.parts.mount import Mount
from ferrule.parts.port import Contact, Port
from ferrule.quantity import Size
from ferrule.wiring.bus import Line, line
from ferrule.wiring.topology import Link, Position, Topology
from ferrule.working import Step, Trace

T = TypeVar("T")


class Decided(NamedTuple):
    """Which decision, and whose: ("conductor", "R4")."""

    kind: str
    owner: str


class Island(NamedTuple):
    """What feeds itself together in an outage: its inverters, their terminals, and all that these reach."""

    inverters: tuple[str, ...]
    sources: tuple[str, ...]
    terminals: frozenset[str]


class House:
    """A job with its topology and the look-ups that everything asks for. Derived once, shared by designs."""

    def __init__(self, job: Job, topology: Topology) -> None:
        self.job = job
        self.topology = topology
        self.memory: Memory[Decided] = Memory()

    def once(self, key: Hashable, work: Callable[[], T]) -> T:
        """What follows from the house alone, worked out once; `key` tells it from all else."""
        return self.memory.recall(key, lambda _decided: None, work)

    @cached_property
    def parts(self) -> Mapping[str, Any]:
        return {part.id: part for part in self.job.parts}

    @cached_property
    def runs(self) -> Mapping[str, Run]:
        return {run.id: run for run in self.job.runs}

    @cached_property
    def boards(self) -> Mapping[str, Board]:
        return {board.id: board for board in self.job.boards}

    @cached_property
    def devices(self) -> Mapping[str, Any]:
        return {device.id: device for device in self.job.devices}

    @cached_property
    def strings(self) -> Mapping[str, PvString]:
        return {string.id: string for string in self.job.strings}

    @cached_property
    def faces(self) -> Mapping[str, Face]:
        return {face.id: face for face in self.job.faces}

    @cached_property
    def circuits(self) -> Mapping[str, Circuit]:
        return {circuit.id: circuit for board in self.job.boards for circuit in board.circuits}

    @cached_property
    def buses(self) -> Mapping[str, Bus]:
        """The signal buses; none where nobody knows which there are."""
        return {} if isinstance(self.job.buses, Unknown) else {bus.id: bus for bus in self.job.buses}

    @cached_property
    def lines(self) -> Mapping[str, Line]:
        """The shape of each signal bus."""
        return {bus.id: line(bus) for bus in self.buses.values()}

    @cached_property
    def ports(self) -> Mapping[str, Port]:
        """The bus ports of all devices, by `INV1.BUS`."""
        return ports(self.job)

    def bus_ports(self, bus: str) -> Mapping[str, Port]:
        """The ports of a bus by their names, in the order of its nodes."""
        return {node.port: self.ports[node.port] for node in self.buses[bus].nodes}

    @cached_property
    def contacts(self) -> Mapping[str, Contact]:
        """The signal contacts of all devices, by `CO.ISLAND`."""
        return contacts(self.job)

    @cached_property
    def signal_contacts(self) -> Mapping[str, SignalContact]:
        return {contact.id: contact for contact in self.job.contacts}

    @cached_property
    def walls(self) -> Mapping[str, WallFace]:
        return wall_faces(self.job)

    def hung(self, device: str) -> tuple[WallFace, Hung]:
        """A device and the wall it hangs on. Raises `Missing` where nobody knows where it hangs."""
        face = self.walls[known(self.devices[device].at).wall]
        return face, next(each for each in face.hung if each.id == device)

    def hangs(self, device: str) -> bool:
        """Whether a device hangs on its wall, for all that is known."""
        body = self.parts[self.devices[device].part].body
        return bool(body.mount != "floor")

    def air_c(self, device: str) -> tuple[Fact[float], Fact[float]]:
        """The coldest and the hottest air around a device: that of its place; outdoors, where the place says
        nothing, that of the site. Raises `Missing` where nobody knows where it hangs.
        """
        place, site = self.hung(device)[0].place, self.job.site
        pairs = ((place.coldest_c, site.coldest_c), (place.hottest_c, site.hottest_c))
        coldest_c, hottest_c = (
            outdoors if place.use == "outdoors" and isinstance(own, Unknown) else own
            for own, outdoors in pairs
        )
        return coldest_c, hottest_c

    def roof(self, face: str) -> Roof:
        """What the survey found of a face. Raises `Missing`, and `Unasked` for a frame on the ground."""
        found = known(self.faces[face].roof)
        if not isinstance(found, Roof):
            raise Unasked("a frame on the ground")
        return found

    def mount(self, face: str) -> Mount:
        """The mounting system of a face. Raises `Missing`."""
        part: Mount = self.parts[known(self.faces[face].mount)]
        return part

    def blocks(self, face: str) -> list[Block]:
        """How the modules lie on a face. Raises `Missing`."""
        found = known(self.faces[face].blocks)
        if not found:
            raise Missing("how the modules lie on the face: rows, columns, positions")
        return found

    def module_on(self, face: str) -> Module:
        """The module on a face. Raises `Missing` where there are two kinds: nobody knows which lies where."""
        kinds = {string.module for string in self.job.strings if string.face == face}
        if len(kinds) > 1:
            raise Missing(
                f"how face {face} is divided: it holds {' and '.join(sorted(kinds))}; write a face "
                "for each kind of module, with its own blocks"
            )
        part: Module = self.parts[kinds.pop()]
        return part

    @cached_property
    def feeding(self) -> Mapping[Position, Mapping[str, tuple[Link, ...]]]:
        """The way from the nearest source to each terminal it feeds, by switch position; none in transit."""
        found: dict[Position, dict[str, tuple[Link, ...]]] = {}
        for position, sources in self.topology.sources.items():
            if position != "transit":
                ways = [self.topology.ways(source, position) for source in sources]
                terminals = dict.fromkeys(terminal for way in ways for terminal in way)
                found[position] = {t: min((way[t] for way in ways if t in way), key=len) for t in terminals}
        return found

    @cached_property
    def _from_network(self) -> Mapping[str, tuple[str, ...]]:
        return {
            terminal: tuple(link.by[4:] for link in links if link.by.startswith("run/"))
            for terminal, links in self.feeding["grid"].items()
        }

    @cached_property
    def two_way(self) -> frozenset[str]:
        """The runs that current may flow through either way: an inverter feeds in at the far end, or another
        switch position feeds them from there.
        """
        reached: dict[str, set[str]] = {}  # the ends at which current comes out
        for position, found in self.feeding.items():
            for far, links in found.items():
                both = position in {"grid", "island"} and self.feeds_in(far)
                for link in reversed(links):
                    near = link.other(far)
                    reached.setdefault(link.by, set()).update((far, near) if both else (far,))
                    far = near
        return frozenset(by[4:] for by, ends in reached.items() if by.startswith("run/") and len(ends) > 1)

    def feeds_in(self, terminal: str) -> bool:
        """Whether a terminal is an inverter's grid port."""
        device, _, port = terminal.partition(".")
        return port == "grid" and isinstance(self.devices.get(device), InverterDevice)

    def upstream(self, terminal: str) -> tuple[str, ...] | None:
        """The runs through which the network feeds a terminal, from the origin on; None if it does not."""
        return self._from_network.get(terminal)

    @cached_property
    def from_origin(self) -> tuple[Circuit, ...]:
        """The circuits in the order in which current from the network meets them."""

        def steps(circuit: Circuit) -> int:
            path = self.upstream(self.runs[circuit.run].start)
            return len(path) if path is not None else len(self.runs)

        return tuple(sorted(self.circuits.values(), key=steps))

    @cached_property
    def ac_runs(self) -> tuple[str, ...]:
        """The runs of alternating current, in the order in which current from the network meets them."""
        fed = {terminal for ways in self.feeding.values() for terminal in ways}
        own = [run for run in self.runs.values() if run.start in fed or run.end in fed]

        def steps(run: Run) -> int:
            ways = [way for end in (run.start, run.end) if (way := self.upstream(end)) is not None]
            return min((len(way) for way in ways), default=len(self.runs))

        return tuple(run.id for run in sorted(own, key=steps))

    @cached_property
    def voltages_v(self) -> Mapping[str, float]:
        """The voltage of each line conductor to neutral, in V."""
        return {conductor.name: conductor.voltage_v for conductor in self.job.supply.live}

    @cached_property
    def islands(self) -> tuple[Island, ...]:
        """The parts of the house that go on in an outage, one for all inverters joined to each other."""
        return tuple(
            Island(
                tuple(source.partition(".")[0] for source in zone),
                zone,
                self.topology.joined(zone, "line", "island"),
            )
            for zone in self.topology.zones("island")
        )

    @cached_property
    def backed_up(self) -> Mapping[str, Island]:
        """The circuits that go on in an outage, each with its island; not the one an inverter feeds in by."""
        return {
            circuit.id: island
            for island in self.islands
            for circuit in self.circuits.values()
            if self.runs[circuit.run].start in island.terminals
            and not {self.runs[circuit.run].start, self.runs[circuit.run].end} & set(island.sources)
        }

    @cached_property
    def board_of(self) -> Mapping[str, Board]:
        """The board a circuit leaves."""
        return {circuit.id: board for board in self.job.boards for circuit in board.circuits}

    @cached_property
    def circuit_of_run(self) -> Mapping[str, Circuit]:
        return {circuit.run: circuit for circuit in self.circuits.values()}

    @cached_property
    def inputs(self) -> Mapping[str, tuple[PvString, ...]]:
        """The strings on each inverter input in use, by `INV1.PV1`."""
        found: dict[str, tuple[PvString, ...]] = {}
        for string in self.job.strings:
            found[string.input] = (*found.get(string.input, ()), string)
        return found

    @cached_property
    def strings_of(self) -> Mapping[str, tuple[PvString, ...]]:
        """The strings on each inverter in use."""
        found: dict[str, tuple[PvString, ...]] = {}
        for string in self.job.strings:
            inverter = string.input.partition(".")[0]
            found[inverter] = (*found.get(inverter, ()), string)
        return found

    @cached_property
    def string_runs(self) -> Mapping[str, PvString]:
        """The string that each run from a string to its input belongs to."""
        return {run.id: self.strings[run.start] for run in self.job.runs if run.start in self.strings}

    @cached_property
    def battery_runs(self) -> Mapping[str, str]:
        """The battery that each run between a battery and an inverter belongs to."""
        return {
            run.id: end
            for run in self.job.runs
            for end in (run.start, run.end)
            if isinstance(self.devices.get(end), BatteryDevice)
        }

    @cached_property
    def generator_runs(self) -> Mapping[str, str]:
        """The run that joins each generator to the house."""
        return {
            end: run.id
            for run in self.job.runs
            for end in (run.start, run.end)
            if isinstance(self.devices.get(end), GeneratorDevice)
        }

    @cached_property
    def bonding(self) -> Mapping[str, Bonding]:
        return {bond.id: bond for bond in self.job.earth.bonding}


class Design(NamedTuple):
    """A house, the choices made for it, and what has to be found out before the others can be made."""

    house: House
    choices: Mapping[Decided, Any] = {}
    waiting: Mapping[Decided, tuple[str, ...]] = {}

    def choose(self, kind: str, owner: str, value: Any) -> "Design":
        """The same design with one more choice."""
        return Design(self.house, {**self.choices, Decided(kind, owner): value}, self.waiting)

    def wait(self, decided: Decided, asks: tuple[str, ...]) -> "Design":
        """The same design, noting what one of its choices waits for."""
        return self._replace(waiting={**self.waiting, decided: asks})

    def recall(self, key: Hashable, work: Callable[[], T]) -> T:
        """What `work` finds out about this design, without finding it out anew where nothing has changed.

        `key` tells it from everything else that is asked of the house.
        """
        state = self._state if self.waiting else self.choices.get
        return self.house.memory.recall(key, state, work)

    def recall_noted(self, key: Hashable, t: Trace, work: Callable[[Trace], T]) -> T:
        """The same for what is noted in a working."""

        def found_and_noted() -> tuple[T, list[Step]]:
            own = Trace(t.tables)
            return work(own), own.steps

        found, steps = self.recall((key, t.tables), found_and_noted)
        t.steps += steps
        return found

    def _state(self, decided: Decided) -> Any:
        """What was chosen, or what the choice waits for; None for what is as the job says."""
        return self.choices.get(decided, self.waiting.get(decided))

    def decided(self, kind: str, owner: str, given: T | Open) -> T:
        """What was chosen (or is being tried), else what the job gives.

        Raises `Undecided` for a choice still to be made, `Missing` for one that waits for a fact.
        """
        decided = Decided(kind, owner)
        state = self._state(decided)
        self.house.memory.look(decided, state)
        found: T | Open = state if decided in self.choices else given
        if isinstance(found, Open):
            asks = self.waiting.get(decided)
            if asks is not None:
                raise Missing(*asks)
            raise Undecided(f"{kind.replace('_', ' ')} of {owner}, which is still open")
        return found

    def fitted(self, kind: str, owner: str, given: T | Literal["none"] | Open) -> T | None:
        """The same for a device that may be left out: None where it is."""
        found: T | Literal["none"] = self.decided(kind, owner, given)
        return None if found == "none" else found

    # What each device is

    def module(self, string: PvString) -> Module:
        part: Module = self.house.parts[string.module]
        return part

    def inverter_device(self, inverter: str) -> InverterDevice:
        device: InverterDevice = self.house.devices[inverter]
        return device

    def inverter(self, inverter: str) -> Inverter:
        part: Inverter = self.house.parts[self.house.devices[inverter].part]
        return part

    def backup_port(self, inverter: str) -> BackupPort:
        """The backup port of an inverter that feeds an island."""
        port = self.inverter(inverter).backup
        assert port is not None
        return port

    def battery_device(self, battery: str) -> BatteryDevice:
        device: BatteryDevice = self.house.devices[battery]
        return device

    def battery(self, battery: str) -> Battery:
        part: Battery = self.house.parts[self.house.devices[battery].part]
        return part

    def generator(self, generator: str) -> Generator:
        part: Generator = self.house.parts[self.house.devices[generator].part]
        return part

    def changeover(self, changeover: str) -> Changeover:
        part: Changeover = self.house.parts[self.house.devices[changeover].part]
        return part

    def tracker(self, terminal: str) -> Tracker:
        """The input behind a terminal such as `INV1.PV1`."""
        inverter, _, port = terminal.partition(".")
        return next(tracker for tracker in self.inverter(inverter).trackers if tracker.id == port)

    def input_gear(self, terminal: str) -> InputGear:
        """What the job says of the gear at an input; all open where it says nothing."""
        inverter, _, port = terminal.partition(".")
        gear = self.inverter_device(inverter).inputs
        return next((item for item in gear if item.id == port), InputGear(id=port))

    def cable(self, run: str) -> Cable:
        part: Cable = self.house.parts[self.house.runs[run].cable]
        return part

    def signal_cable(self, bus: str) -> SignalCable:
        part: SignalCable = self.house.parts[self.house.buses[bus].cable]
        return part

    # What was given or chosen

    def modules(self, string: str) -> int:
        """How many modules are in series."""
        return self.decided("modules", string, self.house.strings[string].modules)

    def size(self, run: str) -> Size:
        """Size of a run's line (or plus and minus) conductors."""
        return self.decided("conductor", run, self.house.runs[run].size)

    def neutral(self, run: str) -> Size:
        return self.decided("neutral", run, self.house.runs[run].neutral)

    def protective(self, run: str) -> Size:
        return self.decided("protective", run, self.house.runs[run].protective)

    def rating_a(self, circuit: str) -> float:
        """Rated current of a circuit's overcurrent device."""
        return self.decided("rating", circuit, self.house.circuits[circuit].device.rating_a)

    def curve(self, circuit: str) -> Curve:
        return self.decided("curve", circuit, self.house.circuits[circuit].device.curve)

    def breaking_capacity_a(self, circuit: str) -> float:
        given = self.house.circuits[circuit].device.breaking_capacity_a
        return self.decided("breaking_capacity", circuit, given)

    def rcd(self, circuit: str) -> Rcd | None:
        """The residual current device of a circuit; None where it has none of its own."""
        return self.fitted("rcd", circuit, self.house.circuits[circuit].rcd)

    def fuse(self, string: str) -> StringFuse | None:
        return self.fitted("string_fuse", string, self.house.strings[string].fuse)

    def isolator(self, terminal: str) -> Isolator | Literal["built-in"]:
        return self.decided("dc_isolator", terminal, self.input_gear(terminal).isolator)

    def dc_surge(self, terminal: str) -> DcSurgeDevice | None:
        return self.fitted("dc_surge", terminal, self.input_gear(terminal).surge)

    def ac_surge(self, board: str) -> SurgeDevice | None:
        return self.fitted("ac_surge", board, self.house.boards[board].surge)

    def battery_protection(self, battery: str) -> BatteryProtection:
        return self.decided("battery_protection", battery, self.battery_device(battery).protection)

    def hooks_every(self, face: str) -> int:
        """On every how manyeth rafter a hook sits."""
        return self.decided("hooks", face, self.house.faces[face].hooks_every)

    def laid(self, face: str) -> list[Laid]:
        """The blocks of a face with their rails and hooks. Raises `Missing`, and `Unasked` on the ground."""
        roof, mount, module = self.house.roof(face), self.house.mount(face), self.house.module_on(face)
        every = self.hooks_every(face)
        return [layout.laid(block, module, mount, roof, every) for block in self.house.blocks(face)]

    def lifters(self, device: str) -> Lifters:
        """Who lifts a device into its place."""
        return self.decided("lifting", device, self.house.devices[device].lift.by)

    def bonding_size(self, bond: str) -> Size:
        return self.decided("bonding", bond, self.house.bonding[bond].size)

    def terminators(self, bus: str) -> tuple[str, ...]:
        """The ports of a bus at which a terminator is on or fitted, besides those built in."""
        return tuple(self.decided("terminators", bus, self.house.buses[bus].terminators))

    def bus_bias(self, bus: str) -> tuple[str, ...]:
        """The ports of a bus at which a bias that can be switched is on."""
        return tuple(self.decided("bus_bias", bus, self.house.buses[bus].bias))

    def anchor(self, device: str) -> Anchor:
        """What a device is fixed to its wall with."""
        given = self.house.devices[device].fixing.anchor
        part: Anchor = self.house.parts[self.decided("anchor", device, given)]
        return part

    def earthing_size(self) -> Size:
        return self.decided("earthing", "earth", self.house.job.earth.conductor)
