"""The wiring of a design: its leads, the terminals they land on, and the size of each conductor."""

from collections.abc import Mapping
from typing import NamedTuple

from ferrule.checks.current import lines_at
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.design import Design, House
from ferrule.fact import Fact, Missing, Unknown, known
from ferrule.job.metering import Transformers
from ferrule.parts import SignalCable
from ferrule.parts.terminals import Strands, TerminalBlock
from ferrule.quantity import Size
from ferrule.wiring.leads import Fitted, blocks, leads
from ferrule.wiring.proof import Fault, Plan, faults
from ferrule.wiring.terminal import Core, Lead, Terminal


class Landed(NamedTuple):
    """A conductor at one of its ends."""

    lead: Lead
    core: Core
    terminal: Terminal


class Wired(NamedTuple):
    """The leads of a design, what lands on each port, and every mistake by the device or lead it shows at."""

    plan: Plan
    leads: Mapping[str, Lead]
    faults: Mapping[str, tuple[Fault, ...]]
    landed: Mapping[tuple[str, str], tuple[Landed, ...]]

    def block(self, device: str, port: str) -> TerminalBlock | None:
        """The block of terminals at a port; that of any way for a circuit of a board."""
        found = self.plan.blocks.get((device, port))
        boards = {board.id for board in self.plan.job.boards}
        return found or (self.plan.blocks.get((device, "way")) if device in boards else None)


def wired(design: Design) -> Wired:
    """The wiring of a design, worked out once."""
    return design.recall((wired,), lambda: _wired(design))


def _wired(design: Design) -> Wired:
    house = design.house
    fit = fitted(design)
    found = leads(house.job, fit)
    landed: dict[tuple[str, str], list[Landed]] = {}
    for lead in found:
        for core in lead.cores:
            for end in core.ends:
                landed.setdefault((end.device, end.port), []).append(Landed(lead, core, end))
    plan = Plan(house.job, house.topology, found, blocks(house.job), fit.main_board)
    faulty: dict[str, dict[Fault, None]] = {}
    for fault in faults(plan, [core for lead in found for core in lead.cores]):
        faulty.setdefault(fault.at, {})[fault] = None
    return Wired(
        plan,
        {lead.id: lead for lead in found},
        {at: tuple(each) for at, each in faulty.items()},
        {port: tuple(each) for port, each in landed.items()},
    )


def fitted(design: Design) -> Fitted:
    """What the design adds to its job, as far as a conductor's way turns on it."""
    house = design.house
    asks: dict[str, tuple[str, ...]] = {}
    lines = {run: _lines(design, run) for run in house.runs}
    meters = [device.id for device in house.job.devices if device.kind == "meter"]
    own_rcd, boxed, surged = set(), set(), set()
    for circuit in house.circuits:
        try:
            if design.rcd(circuit) is not None:
                own_rcd.add(circuit)
        except Missing as missing:
            asks[circuit] = missing.asks
    for terminal, strings in house.inputs.items():
        try:
            if design.dc_surge(terminal) is not None:
                surged.add(terminal)
            if design.isolator(terminal) != "built-in" or any(design.fuse(s.id) for s in strings):
                boxed.add(terminal)
        except Missing as missing:
            asks[terminal] = missing.asks
    combined, split = combined_runs(house)
    asks |= {run: (*asks.get(run, ()), split.ask) for run in combined if isinstance(split, Unknown)}
    return Fitted(
        lines=lines,
        combined=combined if split == "board" else (),
        main_board=_main_board(house),
        network_side=frozenset(up[-1] for meter in meters if (up := house.upstream(meter))),
        own_rcd=frozenset(own_rcd),
        boxed=frozenset(boxed | surged),
        surged=frozenset(surged),
        asks=asks,
    )


def _main_board(house: House) -> str | None:
    """The board nearest the origin: its protective bar is taken as the main earthing terminal."""
    boards = [board for board in house.boards if house.upstream(board) is not None]
    return min(boards, key=lambda board: len(house.upstream(board) or ()), default=None)


def combined_runs(house: House) -> tuple[tuple[str, ...], Fact[str]]:
    """The runs from the supply to the first board or changeover unit, and where a PEN is split.

    A TN-C supply brings one to the main board at least; beyond it neutral and earth are two cores.
    """
    supply, main_board, found = house.job.supply, _main_board(house), list[str]()
    if supply.earthing not in {"TN-C", "TN-C-S"} or main_board is None:
        return (), "supply"
    for run in house.upstream(main_board) or ():
        found.append(run)
        ends = {end.partition(".")[0] for end in (house.runs[run].start, house.runs[run].end)}
        if any(house.devices[end].kind == "changeover" for end in ends & house.devices.keys()):
            break
    return tuple(found), "board" if supply.earthing == "TN-C" else supply.pen_split


def _lines(design: Design, run: str) -> tuple[str, ...]:
    """The line conductors in a run: those of its circuit, else those that arrive where it starts."""
    house = design.house
    circuit = house.circuit_of_run.get(run)
    return tuple(dict.fromkeys(circuit.phases)) if circuit else lines_at(house, house.runs[run].start)


def size(design: Design, code: Code, lead: Lead, core: Core) -> Size:
    """The size of a conductor, as given, chosen or asked by the rulebook.

    Raises `Missing` where nobody knows it.
    """
    house = design.house
    if lead.role == "ac":
        if core.name == "PEN":
            return combined_size(design, lead.of)
        if core.name == "N":
            return design.neutral(lead.of)
        return design.protective(lead.of) if core.serves == "protective" else design.size(lead.of)
    if lead.role == "bridge":
        return combined_size(design, lead.of)
    if lead.role in {"pv", "battery"}:
        battery = house.devices.get(lead.of)
        return (
            known(battery.pack_lead_size)
            if battery and battery.packs > 1
            else design.size(_run(design, lead))
        )
    if lead.role == "bus":
        return known(design.signal_cable(lead.of).core)
    if lead.role == "contact":
        pair: SignalCable = house.parts[known(house.signal_contacts[lead.of].cable)]
        return known(pair.core)
    if lead.role == "transformer":
        transformers: Transformers = house.devices[lead.of].transformers
        return known(transformers.lead_size)
    if lead.role == "earthing":
        return design.earthing_size()
    if lead.role == "bonding":
        return design.bonding_size(lead.of)
    if lead.of in house.inputs:
        surge = design.dc_surge(lead.of)
        assert surge is not None  # a lead of this kind is laid only to a surge device
        return covered(code.procedures.dc_surge).earth_size(code.rulebook, kind=surge.type)
    return known(next(each.size for each in house.job.earth.leads if each.id == lead.of))


def combined_size(design: Design, run: str) -> Size:
    """The size of a combined conductor: as thick as each of the two that it stands for."""
    return max(design.neutral(run), design.protective(run), key=lambda size: size.area_mm2)


def _run(design: Design, lead: Lead) -> str:
    """The run that a lead belongs to: that of its battery for the leads between poles and enclosure."""
    runs = {battery: run for run, battery in design.house.battery_runs.items()}
    return runs.get(lead.of, lead.of)


def prepared(design: Design, block: TerminalBlock, lead: Lead) -> Strands:
    """As what a lead's conductors go into a block: rigid, bare fine-stranded, or with a ferrule.

    A ferrule goes on where the maker asks for one, or where he allows it and takes no bare fine strands.
    Raises `Missing` where the class of the conductor or the maker's wish is not known.
    """
    if lead.role in {"earthing", "bonding", "earth-lead"}:
        known(design.house.job.earth.cable)
    part = design.house.parts.get(lead.part)
    strands = "class5" if lead.role == "transformer" else getattr(part, "strands", None)
    if strands is None:
        raise Missing(f"the class of the conductors of {lead.part or lead.id}, from its sheet")
    if strands in {"class1", "class2"}:
        return "rigid"
    sleeve = known(block.sleeve)
    if sleeve == "none":
        return "flexible"
    return "sleeved" if sleeve == "needed" or block.takes.flexible == "none" else "flexible"


def thickness_mm(design: Design, code: Code, lead: Lead, core: Core) -> float:
    """How thick the cable is that a core runs in, over all. Raises `Missing` where its sheet does not say."""
    part = design.house.parts.get(lead.part)
    if part is None:
        raise Missing(f"how thick {lead.id} is")
    if isinstance(part, SignalCable):
        return known(part.outer_mm)
    cores = len(lead.cores) if part.build == "multicore" else 1
    wanted = size(design, code, lead, core if cores == 1 else lead.cores[0])
    for outer in part.outers:
        if outer.cores == cores and outer.size == wanted:
            return float(outer.outer_mm)
    raise Missing(f"outer diameter of {part.id} with {cores} × {wanted}, from its sheet")
