"""Whether conductors land where they belong: the plan of a house held against the conductors that are there.

Two kinds of proof stand beside each other. One compares each conductor with the plan made from the job. The
other knows no plan: it follows metal from terminal to terminal, and finds what must never be joined, what has
no earth, what a terminal cannot hold, and what nothing reaches.
"""

from collections import Counter
from collections.abc import Hashable, Iterable, Iterator, Mapping, Sequence
from typing import Literal, NamedTuple

from ferrule.job.job import Job
from ferrule.parts.terminals import TerminalBlock
from ferrule.wiring.terminal import Core, Lead, Terminal
from ferrule.wiring.topology import Topology

Rule = Literal[
    "missing", "unplanned", "moved", "no_terminal", "crowded", "joined", "unearthed", "unreached", "split"
]

#: what each rule says, over the words of its fault
TEXTS: Mapping[Rule, str] = {
    "missing": "{core} is not there",
    "unplanned": "{core} is there, and nothing in the job asks for it",
    "moved": "{core} lands on {found}; it belongs on {wanted}",
    "no_terminal": "{core} has nowhere to land: there is no terminal {pole} at {port}",
    "crowded": "{count} conductors land on {terminal}; it takes {most}",
    "joined": "{these} are joined to each other at {terminal}",
    "unearthed": "no protective conductor joins {device} to the main earthing terminal",
    "unreached": "nothing lands on {terminal}, which must never be left open",
    "split": "nothing joins {port} to the rest of bus {bus}",
}


_LINES = frozenset({"L1", "L2", "L3"})


#: what would mend it
MENDS: Mapping[Rule, str] = {
    "missing": "lay and land {core}",
    "unplanned": "take {core} away, or put into the job what it is for",
    "moved": "land {core} on {wanted}",
    "no_terminal": "take a device that has this terminal, or land it elsewhere",
    "crowded": "give each conductor a terminal of its own, or put a terminal block before it",
    "joined": "land each where it belongs",
    "unearthed": "lay a protective conductor to {device} (earth.leads)",
    "unreached": "lay what belongs on {terminal}",
    "split": "join {port} to its neighbour on the line",
}


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
    for (device, port), block in plan.blocks.items():
        for pole in block.poles if block.needed else ():
            if pole in _LINES and pole not in live:
                continue  # a meter for three lines in a house with one
            if not landed[Terminal(device, port, pole)]:
                yield _fault("unreached", device, terminal=Terminal(device, port, pole))


def _sets(plan: Plan, end: Terminal, block: TerminalBlock) -> int:
    """Each pack of a battery has terminals of its own."""
    packs = next((getattr(d, "packs", 1) for d in plan.job.devices if d.id == end.device), 1)
    return max(block.sets, packs)


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
    inside: dict[str, list[tuple[str, str]]] = {board.id: [] for board in plan.job.boards}
    for core in cores:
        ends = [_spot(end) for end in core.ends]
        for spot in ends:
            metal.join(spot, (core.lead, core.name))
        for end in core.ends:
            if end.device in inside:  # its busbars and bars join poles of one name
                metal.join(_spot(end), (end.device, "", end.pole))
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
    """A terminal; all protective ones of a device are one piece of metal, as are strings in parallel."""
    if end.pole.startswith("PE"):
        return (end.device, "PE")
    return (end.device, end.port, end.pole)


def _split(terminal: str) -> tuple[str, str]:
    device, _, port = terminal.partition(".")
    return device, port


def _joined(plan: Plan, cores: Sequence[Core]) -> Iterator[Fault]:
    """No piece of metal carries two names: lines, neutral, earth, plus, minus, the cores of a bus."""
    metal = _metal(plan, cores)
    names: dict[Hashable, dict[str, Core]] = {}
    where: dict[Hashable, list[Core]] = {}
    for core in cores:
        name = "PE" if core.name.startswith("PE") else core.name
        group = metal.of((core.lead, core.name))
        names.setdefault(group, {})[f"{name} of {core.serves}"] = core
        where.setdefault(group, []).append(core)
    for group, found in names.items():
        kinds = {(core.serves, "PE" if core.name.startswith("PE") else core.name) for core in found.values()}
        if len(kinds) > 1:
            first = where[group][-1]
            these = " and ".join(sorted(str(core) for core in found.values()))
            yield _fault("joined", first.lead, these=these, terminal=(first.ends or ("an open end",))[0])


def _unearthed(plan: Plan, cores: Sequence[Core]) -> Iterator[Fault]:
    """Each device with a protective terminal, board and load is joined to the main earthing terminal."""
    if plan.main_board is None:
        return
    metal = _metal(plan, [core for core in cores if core.serves == "protective"])
    main = metal.of((plan.main_board, "PE"))
    earthed = {device: None for (device, _), block in plan.blocks.items() if "PE" in block.poles}
    earthed |= dict.fromkeys(board.id for board in plan.job.boards)
    for lead in plan.leads:
        for core in lead.cores:
            if core.serves == "protective":
                earthed |= dict.fromkeys(end.device for end in core.ends if end.device != "supply")
    for device in earthed:
        if metal.of((device, "PE")) != main:
            yield _fault("unearthed", device, device=device)


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
