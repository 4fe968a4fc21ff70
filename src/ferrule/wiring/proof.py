"""Whether conductors land where they belong: the plan of a house held against the conductors that are there.

Two kinds of proof stand beside each other. One compares each conductor with the plan made from the job. The
other knows no plan: it follows metal from terminal to terminal, and finds what must never be joined, what has
no earth, what a terminal cannot hold, and what nothing reaches.
"""

from collections import Counter
from collections.abc import Container, Hashable, Iterable, Iterator, Mapping, Sequence
from typing import Literal, NamedTuple

from ferrule.job.job import Job
from ferrule.parts.terminals import Serves, TerminalBlock
from ferrule.wiring.leads import is_box
from ferrule.wiring.terminal import Core, Lead, Terminal
from ferrule.wiring.topology import Topology

Rule = Literal[
    "missing",
    "unplanned",
    "moved",
    "no_terminal",
    "wrong_side",
    "wrong_pole",
    "mixed",
    "crowded",
    "joined",
    "unearthed",
    "unreached",
    "split",
]

#: what each rule says, over the words of its fault
TEXTS: Mapping[Rule, str] = {
    "missing": "{core} is not there",
    "unplanned": "{core} is there, and nothing in the job asks for it",
    "moved": "{core} lands on {found}; it belongs on {wanted}",
    "no_terminal": "{core} has nowhere to land: there is no terminal {pole} at {port}",
    "wrong_side": "{core} belongs to {side}, and {terminal} is a terminal of {other}",
    "wrong_pole": "{core} lands on {terminal}, which is marked for another conductor",
    "mixed": "{lead} holds conductors of {these} in one sheath",
    "crowded": "{count} conductors land on {terminal}; it takes {most}",
    "joined": "{these} are joined to each other at {terminal}",
    "unearthed": "no protective conductor joins {device} to the main earthing terminal",
    "unreached": "nothing lands on {terminal}, which must never be left open",
    "split": "nothing joins {port} to the rest of bus {bus}",
}

#: what would mend it
MENDS: Mapping[Rule, str] = {
    "missing": "lay and land {core}",
    "unplanned": "take {core} away, or put into the job what it is for",
    "moved": "land {core} on {wanted}",
    "no_terminal": "take a device that has this terminal, or land it elsewhere",
    "wrong_side": "take {core} off {terminal} before anything is switched on",
    "wrong_pole": "land {core} on the terminal of its own name",
    "mixed": "lay a cable for each of them",
    "crowded": "give each conductor a terminal of its own, or put a terminal block before it",
    "joined": "land each where it belongs",
    "unearthed": "lay a protective conductor to {device} (earth.leads)",
    "unreached": "lay what belongs on {terminal}",
    "split": "join {port} to its neighbour on the line",
}


#: the sides of the house that never meet, in a terminal or in a sheath
SIDES: Mapping[Serves, str] = {
    "mains": "the mains",
    "pv": "the array",
    "battery": "the battery circuit",
    "signal": "extra-low voltage",
    "protective": "the protective conductors",
}

_LINES = frozenset({"L1", "L2", "L3"})

#: the sides without which a device is not what its name says, whatever its part asks for
_WHOLE: Mapping[str, tuple[str, ...]] = {"changeover": ("grid", "inverter", "house")}


class Fault(NamedTuple):
    """One mistake in the wiring: the rule it breaks, the device or lead where it shows, and its words."""

    rule: Rule
    at: str
    words: tuple[tuple[str, str], ...]

    def __str__(self) -> str:
        return TEXTS[self.rule].format(**dict(self.words))


class Plan(NamedTuple):
    """What wiring is held against: job, switch positions, the leads planned, the terminals there are."""

    job: Job
    topology: Topology
    leads: tuple[Lead, ...]
    blocks: Mapping[tuple[str, str], TerminalBlock]
    main_board: str | None


def faults(plan: Plan, cores: Sequence[Core]) -> Iterator[Fault]:
    """The mistakes in these conductors, each as it is found; one may be found twice."""
    yield from _against_plan(plan, cores)
    yield from faults_of_metal(plan, cores)


def faults_of_metal(plan: Plan, cores: Sequence[Core]) -> Iterator[Fault]:
    """Those that show without knowing where each conductor was meant to go."""
    yield from _terminals(plan, cores)
    yield from _apart(plan, cores)
    yield from _joined(plan, cores)
    yield from _unearthed(plan, cores)
    yield from _buses(plan, cores)


def _fault(rule: Rule, at: str, **words: object) -> Fault:
    return Fault(rule, at, tuple((name, str(word)) for name, word in words.items()))


def _against_plan(plan: Plan, cores: Sequence[Core]) -> Iterator[Fault]:
    planned = {(core.lead, core.name): core for lead in plan.leads for core in lead.cores}
    there = Counter((core.lead, core.name) for core in cores)
    for key, core in planned.items():
        if key not in there:
            yield _fault("missing", core.lead, core=core)
    for core in cores:
        wanted = planned.get((core.lead, core.name))
        if wanted is None or there[core.lead, core.name] > 1:
            yield _fault("unplanned", core.lead, core=core)
            continue
        for found, right in ((core.start, wanted.start), (core.end, wanted.end)):
            if found != right:
                yield _fault("moved", core.lead, core=core, found=_end(found), wanted=_end(right))


def _end(terminal: Terminal | None) -> str:
    return str(terminal) if terminal else "nothing, its end cut back and insulated"


def _terminals(plan: Plan, cores: Iterable[Core]) -> Iterator[Fault]:
    """Each terminal is there, holds no more than it can, and none that must be reached stays empty."""
    landed = Counter(end for core in cores for end in core.ends)
    live = {line.name for line in plan.job.supply.live}
    for core in cores:
        for end in core.ends:
            block = _block(plan, end)
            if block is not None and (end.pole not in block.poles or end.set > _sets(plan, end, block)):
                port = f"{end.device}.{end.port}" + (f" ({end.set})" if end.set > 1 else "")
                yield _fault("no_terminal", core.lead, core=core, pole=end.pole, port=port)
    for end, count in landed.items():
        block = _block(plan, end)
        most = block.conductors if block is not None else None
        if isinstance(most, int) and count > most and not (block and block.twin and count == 2):
            yield _fault("crowded", end.device, terminal=end, count=count, most=most)
    reached = {(end.device, end.port) for end in landed}
    for each in plan.job.devices:
        for port in _WHOLE.get(each.kind, ()):
            if (each.id, port) not in reached:
                yield _fault("unreached", each.id, terminal=f"{each.id}.{port}")
    for (device, port), block in plan.blocks.items():
        for pole in block.poles if block.needed else ():
            if pole in _LINES and pole not in live:
                continue  # a meter for three lines in a house with one
            for pack in range(1, _packs(plan, device) + 1):
                if not landed[Terminal(device, port, pole, pack)]:
                    yield _fault("unreached", device, terminal=Terminal(device, port, pole, pack))


def _sets(plan: Plan, end: Terminal, block: TerminalBlock) -> int:
    return max(block.sets, _packs(plan, end.device))


def _packs(plan: Plan, device: str) -> int:
    """Each pack of a battery has terminals of its own."""
    return next((getattr(d, "packs", 1) for d in plan.job.devices if d.id == device), 1)


def _apart(plan: Plan, cores: Sequence[Core]) -> Iterator[Fault]:
    """Mains, array, battery and signals meet in no terminal and no sheath; a core lands on its own pole."""
    live = {line.name for line in plan.job.supply.live}
    sides: dict[str, set[Serves]] = {}
    for core in cores:
        if core.serves != "protective":
            sides.setdefault(core.lead, set()).add(core.serves)
        for end in core.ends:
            block = _block(plan, end)
            if block and block.poles and core.serves not in {block.serves, "protective"}:
                side, other = SIDES[core.serves], SIDES[block.serves]
                yield _fault("wrong_side", core.lead, core=core, terminal=end, side=side, other=other)
            if not _named(core.name, end.pole, live):
                yield _fault("wrong_pole", core.lead, core=core, terminal=end)
    for lead, found in sides.items():
        if len(found) > 1:
            yield _fault("mixed", lead, lead=lead, these=" and ".join(sorted(SIDES[each] for each in found)))


def _named(core: str, pole: str, live: Container[str]) -> bool:
    """Whether a pole is marked for a core: L for any single line, L1-S1 for S1 of its transformer."""
    if core.startswith("PE"):
        return pole == "PE" or (core == "PEN" and pole in {"PEN", "N"})
    return pole == core or (pole == "L" and core in live) or pole.endswith(f"-{core}")


def _block(plan: Plan, end: Terminal) -> TerminalBlock | None:
    """The block a terminal belongs to; that of any way for a circuit of a board. None where nobody knows."""
    found = plan.blocks.get((end.device, end.port))
    if found is None and any(
        c.id == end.port for b in plan.job.boards if b.id == end.device for c in b.circuits
    ):
        found = plan.blocks.get((end.device, "way"))
    if found is None and not end.port.endswith("joint"):
        # A device that tells its terminals has no others.
        known = next((block for (device, _), block in plan.blocks.items() if device == end.device), None)
        return known and known.model_copy(update={"port": end.port, "poles": []})
    return found


class _Joined:
    """Terminals joined by metal, as groups."""

    def __init__(self) -> None:
        self.leader: dict[Hashable, Hashable] = {}

    def of(self, each: Hashable) -> Hashable:
        leader = self.leader.setdefault(each, each)
        while leader != self.leader[leader]:
            leader = self.leader[leader]
        self.leader[each] = leader
        return leader

    def join(self, a: Hashable, b: Hashable) -> None:
        self.leader[self.of(a)] = self.of(b)


def _metal(plan: Plan, cores: Iterable[Core]) -> _Joined:
    """What is joined while the network feeds the house: by conductors, by closed contacts, inside boards."""
    metal, live = _Joined(), [line.name for line in plan.job.supply.live]
    boards = {board.id for board in plan.job.boards}
    for core in cores:
        for end in core.ends:
            metal.join(_spot(end), (core.lead, core.name))
            if end.device in boards or is_box(end.device):  # its bars join poles of one name
                metal.join(_spot(end), (end.device, "", core.name if end.pole == "L" else end.pole))
    for link in plan.topology.links:
        if link.by.startswith("contact/") and link.joins("line", "grid"):
            for pole in ("L", *live):
                metal.join((*_split(link.a), pole), (*_split(link.b), pole))
            if not link.neutral.unsure and link.neutral.joins("grid"):
                metal.join((*_split(link.a), "N"), (*_split(link.b), "N"))
    for device in plan.job.devices:
        if device.kind == "meter":
            for pole in ("L", "N", *live):
                metal.join((device.id, "network", pole), (device.id, "house", pole))
    return metal


def _spot(end: Terminal) -> tuple[object, ...]:
    """A terminal; the protective ones of a device or pack are one metal, as strings in parallel are."""
    if end.pole.startswith("PE"):
        return (end.device, "PE", end.set)
    return (end.device, end.port, end.pole)


def _split(terminal: str) -> tuple[str, str]:
    device, _, port = terminal.partition(".")
    return device, port


def _joined(plan: Plan, cores: Sequence[Core]) -> Iterator[Fault]:
    """No piece of metal carries two names: lines, neutral, earth, plus and minus of each input, the cores of
    each bus.
    """
    bridges = {lead.id for lead in plan.leads if lead.role == "bridge"}  # the one place where N and PE meet
    cores = [core for core in cores if core.lead not in bridges]
    metal, owners = _metal(plan, cores), _owners(plan)
    names: dict[Hashable, dict[tuple[str, ...], Core]] = {}
    for core in cores:
        owner = owners.get(core.lead, core.lead) if core.serves not in {"mains", "protective"} else ""
        name = "PE" if core.serves == "protective" else core.name
        names.setdefault(metal.of((core.lead, core.name)), {})[core.serves, owner, name] = core
    for found in names.values():
        if len(found) > 1:
            *_, last = found.values()
            these = " and ".join(sorted(str(core) for core in found.values()))
            yield _fault("joined", last.lead, these=these, terminal=(last.ends or ("an open end",))[0])


def _owners(plan: Plan) -> dict[str, str]:
    """What a lead is made for: an input, for strings on one lie side by side and may be joined; a battery."""
    made_for = {string.id: string.input for string in plan.job.strings}
    made_for |= {device.id: device.id for device in plan.job.devices if device.kind == "battery"}
    runs = {run.id: made_for.get(run.start) or made_for.get(run.end) for run in plan.job.runs}
    own = {"battery", "bus", "pv"}
    return {lead.id: runs.get(lead.of) or lead.of if lead.role in own else lead.id for lead in plan.leads}


def _unearthed(plan: Plan, cores: Sequence[Core]) -> Iterator[Fault]:
    """Each device with a protective terminal, board and load is joined to the main earthing terminal."""
    if plan.main_board is None:
        return
    metal = _metal(plan, [core for core in cores if core.serves == "protective"])
    main = metal.of((plan.main_board, "PE", 1))
    earthed = {device: None for (device, _), block in plan.blocks.items() if "PE" in block.poles}
    earthed |= dict.fromkeys(board.id for board in plan.job.boards)
    for lead in plan.leads:
        for core in lead.cores:
            if core.serves == "protective":
                earthed |= dict.fromkeys(
                    end.device for end in core.ends if end.device != "supply" and end.pole.startswith("PE")
                )
    for device in earthed:
        packs = _packs(plan, device)
        for pack in range(1, packs + 1):
            if metal.of((device, "PE", pack)) != main:
                name = device if packs == 1 else f"{device} ({pack})"
                yield _fault("unearthed", device, device=name)


def _buses(plan: Plan, cores: Sequence[Core]) -> Iterator[Fault]:
    """Every pole of a bus is joined from its first port to its last."""
    metal = _metal(plan, [core for core in cores if core.serves == "signal"])
    planned: dict[tuple[str, str], list[Terminal]] = {}
    for lead in plan.leads:
        if lead.role == "bus":
            for core in lead.cores:
                if core.name != "screen":
                    planned.setdefault((lead.of, core.name), []).extend(core.ends)
    for (bus, _), ends in planned.items():
        for end in ends[1:]:
            if metal.of(_spot(end)) != metal.of(_spot(ends[0])):
                yield _fault("split", end.device, port=end, bus=bus)
