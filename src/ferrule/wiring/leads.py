"""From a job to its leads: every power, protective and signal conductor between the terminals it lands on.

The runs, buses, contacts and bonds of the job say which devices are joined; a device's part says which poles
its ports have; what was chosen says which gear stands between them. No architecture has a rule of its own
here: what each of them must have joined is asked in `wiring.proof`.
"""

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from ferrule.fact import Unknown
from ferrule.job.bus import Bus, BusLink, SignalContact
from ferrule.job.devices import AdapterDevice, BatteryDevice
from ferrule.job.job import Job
from ferrule.job.metering import Clamp
from ferrule.job.runs import Run
from ferrule.parts.terminals import Serves, TerminalBlock
from ferrule.wiring.terminal import Core, Lead, Role, Terminal

_BUS_PAIR = {"rs485": ("plus", "minus"), "can": ("high", "low")}
_POLES = ("plus", "minus")
_BOX = "-box"


class Fitted(NamedTuple):
    """What a house's design adds to its job, as far as a conductor's way turns on it.

    `lines` are the line conductors of each run of alternating current, `combined` the runs in which neutral
    and protective conductor are still one, in their order from the supply on, `network_side` the runs by
    which a meter is fed, `own_rcd` the circuits whose neutral lands on a residual current device of their
    own, `boxed` the inputs with fuses, isolator or surge device between string and inverter, `surged` those
    of them with a surge device. `asks` holds what is not known yet, by the id of what it is asked of.
    """

    lines: Mapping[str, tuple[str, ...]]
    combined: tuple[str, ...] = ()
    main_board: str | None = None
    network_side: frozenset[str] = frozenset()
    own_rcd: frozenset[str] = frozenset()
    boxed: frozenset[str] = frozenset()
    surged: frozenset[str] = frozenset()
    asks: Mapping[str, tuple[str, ...]] = {}


def blocks(job: Job) -> dict[tuple[str, str], TerminalBlock]:
    """The blocks of terminals of every device and board whose part says which it has, by device and port."""
    parts: dict[str, Any] = {part.id: part for part in job.parts}
    found = {}
    for thing in (*job.devices, *job.boards):
        listed = getattr(parts.get(thing.part), "terminals", None) if isinstance(thing.part, str) else None
        if isinstance(listed, list):
            found.update({(thing.id, block.port): block for block in listed})
    return found


def leads(job: Job, fitted: Fitted) -> tuple[Lead, ...]:
    """Every lead of a job whose references are known to be sound."""
    return tuple(_Landing(job, fitted).leads())


def box_of(owner: str) -> str:
    """The name of the enclosure with the gear of an input or of a battery."""
    return f"{owner}{_BOX}"


def is_box(thing: str) -> bool:
    """Whether a thing is the enclosure with the gear of an input or of a battery."""
    return thing.endswith(_BOX)


class _Landing:
    """The leads of one job, with the look-ups that tell where each conductor lands."""

    def __init__(self, job: Job, fitted: Fitted) -> None:
        self.job = job
        self.fitted = fitted
        self.blocks = blocks(job)
        self.boards = {board.id for board in job.boards}
        self.circuit_of = {c.run: c.id for board in job.boards for c in board.circuits}
        self.circuits = frozenset(self.circuit_of.values())
        self.strings = {string.id: string for string in job.strings}
        self.devices = {device.id: device for device in job.devices}
        self.earth_cable = job.earth.cable if isinstance(job.earth.cable, str) else ""

    def leads(self) -> Iterator[Lead]:
        for run in self.job.runs:
            if run.start in self.strings:
                yield self._string(run)
            elif battery := self._battery_of(run):
                yield from self._battery(run, battery)
            else:
                yield self._mains(run)
        yield from self._split_of_pen()
        yield from self._input_boxes()
        for bus in () if isinstance(self.job.buses, Unknown) else self.job.buses:
            yield from (self._bus(bus, link) for link in bus.links)
        yield from (self._contact(contact) for contact in self.job.contacts)
        for device in self.job.devices:
            transformers = getattr(device, "transformers", None)
            if transformers is not None:
                yield from self._transformers(device.id, transformers)
            if isinstance(device, AdapterDevice):
                yield from self._adapter(device)
        yield from self._earth()

    # Power

    def _mains(self, run: Run) -> Lead:
        earth = ["PEN"] if run.id in self.fitted.combined else ["N", "PE"]
        cores = [*self.fitted.lines[run.id], *earth, *(["PE2"] if run.second_protective else [])]
        circuit = self.circuit_of.get(run.id, run.id)
        asks = (*self.fitted.asks.get(run.id, ()), *self.fitted.asks.get(circuit, ()))
        earthing = self.job.supply.earthing
        if "supply" in (run.start, run.end) and isinstance(earthing, Unknown):
            asks = (*asks, earthing.ask)
        return Lead(
            run.id, "ac", run.id, run.cable,
            tuple(
                Core(
                    run.id, core, "protective" if core.startswith("PE") else "mains",
                    self._mains_end(run, run.start, core), self._mains_end(run, run.end, core),
                )
                for core in cores
            ),
            asks,
        )  # fmt: skip

    def _mains_end(self, run: Run, end: str, core: str) -> Terminal | None:
        if end == "supply":
            # Where the network brings no earth, the protective core of its cable ends there unused.
            return None if core.startswith("PE") and self.job.supply.earthing in ("TT", "IT") else (
                Terminal("supply", "", core)
            )  # fmt: skip
        if end in self.boards:
            pole = "PE" if core.startswith("PE") else core
            return self.land(end, self._board_port(run, end, core), pole, len(self.fitted.lines[run.id]))
        device, _, port = end.partition(".")
        if device not in self.devices:
            return Terminal(end, "load", core)
        if not port:
            metered = "network" if run.id in self.fitted.network_side else "house"
            port = metered if self.devices[device].kind == "meter" else "supply"
            if self.devices[device].kind == "generator":
                port = "output"
        if core == "PEN":  # through a meter with the neutral; elsewhere protection comes first
            core = "N" if self.devices[device].kind == "meter" else "PE"
        return self.land(device, port, core, len(self.fitted.lines[run.id]))

    def _split_of_pen(self) -> Iterator[Lead]:
        """Where a combined conductor ends, on a protective terminal, a bridge joins the neutral to it,
        before every switch; never after it are the two joined again.
        """
        for run in self.job.runs:
            if run.id in self.fitted.combined[-1:]:
                devices = ((_split(end)[0], end) for end in (run.end, run.start))
                at, end = next((d, e) for d, e in devices if d in self.boards or d in self.devices)
                start = self._mains_end(run, end, "PEN")
                neutral = self.land(at, "incoming" if at in self.boards else _split(end)[1], "N")
                yield _lead(f"{at}.split", "bridge", run.id, "", "protective", (("PEN", start, neutral),))

    def _board_port(self, run: Run, board: str, core: str) -> str:
        """Lines on the circuit's own way, or on the incoming terminals; the rest on the bars."""
        circuit = self.circuit_of.get(run.id) if run.start == board else None
        if core.startswith("PE"):
            return "bars"
        if "generator" in {getattr(self.devices.get(end), "kind", "") for end in (run.start, run.end)}:
            return "generator"  # the interlocked switch between network and generator
        if circuit is None:
            return "incoming" if run.end == board else "bars"
        return circuit if core != "N" or circuit in self.fitted.own_rcd else "bars"

    def land(self, device: str, port: str, core: str, lines: int = 0) -> Terminal:
        """The terminal of a device for a core: a single line lands on a pole L; a protective core for which
        the port has no pole, on the device's earth stud.
        """
        block = self.blocks.get((device, "way" if port in self.circuits else port))
        if block is not None and core not in block.poles:
            if lines == 1 and not core.startswith("PE") and core != "N" and "L" in block.poles:
                return Terminal(device, port, "L")
            if core.startswith("PE") and (device, "earth") in self.blocks:
                return Terminal(device, "earth", "PE")
        return Terminal(device, port, core)

    def _string(self, run: Run) -> Lead:
        string = self.strings[run.start]
        device, _, port = string.input.partition(".")
        beside = [each.id for each in self.job.strings if each.input == string.input]
        boxed = string.input in self.fitted.boxed
        cores = tuple(
            Core(
                run.id, pole, "pv", Terminal(string.id, "", pole),
                Terminal(box_of(string.input), string.id, pole) if boxed
                else Terminal(device, port, pole, 1 + beside.index(string.id)),
            )
            for pole in _POLES
        )  # fmt: skip
        asks = (*self.fitted.asks.get(string.id, ()), *self.fitted.asks.get(string.input, ()))
        return Lead(run.id, "pv", run.id, run.cable, cores, asks)

    def _input_boxes(self) -> Iterator[Lead]:
        """From the enclosure before an input to the inverter, with the earth of its surge device."""
        cables = {self.strings[run.start].input: run for run in self.job.runs if run.start in self.strings}
        for terminal in sorted(self.fitted.boxed):
            if terminal in cables:
                device, _, port = terminal.partition(".")
                box, run = box_of(terminal), cables[terminal]
                pair = ((pole, Terminal(box, "out", pole), Terminal(device, port, pole)) for pole in _POLES)
                yield _lead(f"{box}.out", "pv", run.id, run.cable, "pv", pair)
                if terminal in self.fitted.surged:
                    pe = (("PE", self.land(device, "earth", "PE"), Terminal(box, "surge", "PE")),)
                    yield _lead(f"{box}.PE", "earth-lead", terminal, self.earth_cable, "protective", pe)

    def _battery_of(self, run: Run) -> BatteryDevice | None:
        for end in (run.start, run.end):
            found = self.devices.get(end)
            if isinstance(found, BatteryDevice):
                return found
        return None

    def _battery(self, run: Run, battery: BatteryDevice) -> Iterator[Lead]:
        """Each pack's leads to the enclosure with protective device and isolator, and on to the inverter."""
        box = box_of(battery.id)
        for pack in range(1, battery.packs + 1):
            own = f"{battery.id}.poles" if battery.packs == 1 else f"{battery.id}.poles:{pack}"
            poles = (
                (p, Terminal(battery.id, "poles", p, pack), Terminal(box, "in", p, pack)) for p in _POLES
            )
            yield _lead(own, "battery", battery.id, run.cable, "battery", poles)
        far = run.end if run.start == battery.id else run.start
        device, _, port = far.partition(".")
        pair = ((pole, Terminal(box, "out", pole), Terminal(device, port, pole)) for pole in _POLES)
        yield _lead(run.id, "battery", run.id, run.cable, "battery", pair)

    # Signals

    def _bus(self, bus: Bus, link: BusLink) -> Lead:
        cores = [*_BUS_PAIR[bus.kind], *(["reference"] if bus.reference is True else [])]
        ends = ((core, *(Terminal(*_split(end), core) for end in (link.start, link.end))) for core in cores)
        asks = tuple(f.ask for f in (bus.reference, bus.screen) if isinstance(f, Unknown))
        lead = _lead(f"{bus.id}:{link.start}:{link.end}", "bus", bus.id, bus.cable, "signal", ends)
        if not self._screened(bus):
            return lead._replace(asks=asks)
        screen = Core(
            lead.id, "screen", "signal", *(self._screen(bus, end) for end in (link.start, link.end))
        )
        return lead._replace(cores=(*lead.cores, screen), asks=asks)

    def _screened(self, bus: Bus) -> bool:
        part = next(part for part in self.job.parts if part.id == bus.cable)
        return getattr(part, "screened", None) is True

    def _screen(self, bus: Bus, end: str) -> Terminal | None:
        """Earthed where the job says so; else passed on, insulated, from cable to cable; else cut back."""
        device, port = _split(end)
        if isinstance(bus.screen, list) and end in bus.screen:
            return Terminal(device, port, "screen")
        through = sum(end in (link.start, link.end) for link in bus.links) > 1
        return Terminal(device, f"{port} joint", "screen") if through else None

    def _contact(self, contact: SignalContact) -> Lead:
        def place(end: str, pole: str) -> Terminal:
            device, port = _split(end)
            return Terminal(device, port, pole) if device in self.devices else Terminal(end, "", pole)

        pair = ((pole, place(contact.start, pole), place(contact.end, pole)) for pole in ("1", "2"))
        part, asks = (contact.cable, ()) if isinstance(contact.cable, str) else ("", (contact.cable.ask,))
        return _lead(contact.id, "contact", contact.id, part, "signal", pair)._replace(asks=asks)

    def _transformers(self, device: str, transformers: Any) -> Iterator[Lead]:
        if isinstance(transformers.clamps, Unknown):
            asks = (transformers.clamps.ask,)
            yield Lead(f"{device}.CT", "transformer", device, "", (), asks)
            return
        for clamp in transformers.clamps:
            yield self._transformer(device, clamp)

    def _transformer(self, device: str, clamp: Clamp) -> Lead:
        owner = f"{device}.CT-{clamp.channel}"
        pair = (
            (pole, Terminal(owner, "", pole), Terminal(device, "CT", f"{clamp.channel}-{pole}"))
            for pole in ("S1", "S2")
        )
        return _lead(owner, "transformer", device, "", "signal", pair)

    def _adapter(self, adapter: AdapterDevice) -> Iterator[Lead]:
        """It sits in a port of the device it speaks for; a wired one has a patch cable to the router."""
        into, own = adapter.into, Terminal(adapter.id, "plug", "plug")
        if isinstance(into, Unknown):
            yield Lead(f"{adapter.id}.plug", "plug", adapter.id, "", (), (into.ask,))
        else:
            ends = (("plug", own, Terminal(*_split(into), "plug")),)
            yield _lead(f"{adapter.id}.plug", "plug", adapter.id, "", "signal", ends)
        if adapter.link == "wired":
            ends = (("plug", Terminal(adapter.id, "LAN", "plug"), Terminal("router", adapter.id, "plug")),)
            yield _lead(f"{adapter.id}.router", "patch", adapter.id, "", "signal", ends)

    # Earth

    def _earth(self) -> Iterator[Lead]:
        """From the main earthing terminal, which is the protective bar of the board nearest the origin."""
        earth, board = self.job.earth, self.fitted.main_board
        if board is None:
            return
        bar = Terminal(board, "bars", "PE")
        if earth.electrode != "none":
            asks = (earth.electrode.ask,) if isinstance(earth.electrode, Unknown) else ()
            ends = (("PE", Terminal("electrode", "", "PE"), bar),)
            yield _lead("earthing", "earthing", "earth", self.earth_cable, "protective", ends)._replace(
                asks=asks
            )
        for bond in earth.bonding:
            ends = (("PE", bar, Terminal(bond.to, bond.id if bond.to == "other" else "", "PE")),)
            yield _lead(bond.id, "bonding", bond.id, self.earth_cable, "protective", ends)
        for each in earth.leads:
            start = Terminal(each.at, "bars" if each.at in self.boards else "earth", "PE")
            packs = getattr(self.devices.get(each.to), "packs", 1)
            for pack in range(1, packs + 1):  # each has a case of its own
                own = each.id if packs == 1 else f"{each.id}:{pack}"
                end = self.land(each.to, "earth", "PE")._replace(set=pack)
                ends = (("PE", start, end),)
                yield _lead(own, "earth-lead", each.id, self.earth_cable, "protective", ends)


def _split(end: str) -> tuple[str, str]:
    device, _, port = end.partition(".")
    return device, port


def _lead(id_: str, role: Role, of: str, part: str, serves: Serves, ends: Any) -> Lead:
    """A lead from the name and the two ends of each of its cores."""
    return Lead(id_, role, of, part, tuple(Core(id_, name, serves, a, b) for name, a, b in ends))
