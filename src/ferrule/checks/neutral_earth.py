"""Where neutral and earth meet in each switch position, and that nothing feeds back into the network."""

from collections.abc import Iterable, Iterator

from ferrule.checks import paths
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import inverters, islands, positions
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, Verdict, is_so
from ferrule.design import Design
from ferrule.fact import all_known, known
from ferrule.job.devices import ChangeoverDevice, GeneratorDevice, InverterDevice
from ferrule.wiring.topology import Bond, Position

#: the positions in which something else than the network feeds the house
SEPARATED = frozenset({"island", "generator"})


def position_of(design: Design, subject: Subject) -> Position:
    """The switch position that a subject is asked in."""
    return next(p for p in design.house.topology.positions if p == subject.position)


def bonds(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    topology, position = design.house.topology, position_of(design, subject)
    earthing = known(design.house.job.supply.earthing)
    all_known(*_facts_of_position(design, position))
    for zone in topology.zones(position):
        closed = topology.closed_bonds(zone, position)
        judged = covered(code.procedures.neutral_earth).bonds(
            code.rulebook, position=position, earthing=earthing, closed=len(closed)
        )
        yield from (_mended(design, each, zone, closed, position) for each in judged)


def _facts_of_position(design: Design, position: Position) -> Iterator[object]:
    """What must be known before a position can be judged: that it exists, and what its switch opens."""
    if position == "island":
        for island in design.house.islands:
            yield from (design.backup_port(inverter).neutral for inverter in island.inverters)
    for device in design.house.job.devices:
        if position == "bypass" and isinstance(device, ChangeoverDevice):
            yield design.changeover(device.id).bypass
        if position == "generator" and isinstance(device, GeneratorDevice):
            yield device.transfer


def _mended(
    design: Design,
    constraint: Constraint,
    zone: tuple[str, ...],
    closed: tuple[Bond, ...],
    position: Position,
) -> Constraint:
    """The change that leaves as many bonds as there must be; what feeds the part in question is named."""
    if constraint.verdict is Verdict.PASS:
        return constraint
    mend, words = _change(design, zone, closed, position)
    named = (*constraint.words, ("fed_by", ", ".join(zone)), *words.items())
    return constraint._replace(text=constraint.text + "; fed by {fed_by}", mend=mend, words=named)


def _change(
    design: Design, zone: tuple[str, ...], closed: tuple[Bond, ...], position: Position
) -> tuple[str, dict[str, str]]:
    if not closed:
        if position == "generator":
            return "join neutral to earth at {fed_by}", {}
        disabled = _disabled(design, zone, position)
        if disabled:
            return "enable the neutral-earth link of {disabled} by its country setting", {
                "disabled": disabled
            }
        return "take an inverter or a changeover unit that joins neutral to earth in island mode", {}
    names = [_name(bond) for bond in sorted(closed, key=lambda bond: _worth_keeping(bond.by))]
    if known(design.house.job.supply.earthing) == "IT":
        return "take away the bond of {others}; an IT system has none", {"others": ", ".join(names)}
    return (
        "keep the bond of {kept} and take away, or disable, that of {others}",
        {"kept": names[0], "others": ", ".join(names[1:])},
    )


def _worth_keeping(by: str) -> int:
    """The supplier's own bond first, a link that moves next, a strap last."""
    return 0 if by == "supply" else 1 if by.startswith("contact/") else 2


def _name(bond: Bond) -> str:
    return bond.by.partition("/")[2] or bond.by


def _disabled(design: Design, zone: tuple[str, ...], position: Position) -> str:
    """The first inverter whose link could make the bond if it were enabled."""
    if position == "island":
        for inverter in (source.partition(".")[0] for source in zone):
            fitted = design.backup_port(inverter).link == "automatic"
            if fitted and design.inverter_device(inverter).link == "disabled":
                return inverter
    return ""


def gap(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """Only where the bond opens at all while the source changes."""
    topology, position = design.house.topology, position_of(design, subject)
    if position != "transit" or known(design.house.job.supply.earthing) == "IT":
        return
    for zone in topology.zones(position):
        if not topology.closed_bonds(zone, position):
            yield from covered(code.procedures.neutral_earth).gap(code.rulebook, gap_s=_gap_s(design, zone))


def _gap_s(design: Design, zone: Iterable[str]) -> float:
    times = []
    for terminal in zone:
        device = terminal.partition(".")[0]
        if isinstance(design.house.devices[device], ChangeoverDevice):
            times.append(design.changeover(device).transit_s)
        else:
            times.append(design.backup_port(device).switch_over_s)
    all_known(*times)
    return max(known(time) for time in times)


def neutral(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    position = position_of(design, subject)
    if position not in SEPARATED:
        return
    earthing = known(design.house.job.supply.earthing)
    for zone in design.house.topology.zones(position):
        yield from covered(code.procedures.neutral_earth).neutral(
            code.rulebook,
            earthing=earthing,
            through=runs_through(design, zone, position),
            position=position,
        )


def runs_through(design: Design, sources: Iterable[str], position: Position = "island") -> bool:
    """Whether the network's neutral stays joined to what these sources feed."""
    return "supply" in design.house.topology.joined(sources, "neutral", position)


def location(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    topology, position = design.house.topology, position_of(design, subject)
    if position not in SEPARATED:
        return
    for zone in topology.zones(position):
        for bond in topology.closed_bonds(zone, position):
            yield from covered(code.procedures.neutral_earth).location(
                code.rulebook, behind=_behind(design, zone, bond, position)
            )


def _behind(design: Design, sources: Iterable[str], bond: Bond, position: Position) -> list[str]:
    """The residual current devices between the nearest source and a bond."""
    house = design.house
    found = ((s, house.topology.path(s, bond.at, position, "neutral")) for s in sources)
    source, links = min(((s, links) for s, links in found if links is not None), key=lambda way: len(way[1]))
    way = paths.Way(position, source, links, True, paths.guards(house, source, links))
    behind = [guard.owner for guard, _ in paths.devices(design, way)]
    board = house.boards.get(bond.at)
    if board is not None and board.rcd is not None and board.id not in behind:
        last = house.circuit_of_run.get(links[-1].by.removeprefix("run/")) if links else None
        if last is None or house.board_of[last.id] is not board:
            behind.append(board.id)
    return behind


def insulation_monitor(design: Design, _code: Code, subject: Subject) -> Constraint | None:
    """IEC 60364-4-41:2005 clause 411.6.3: without it nobody learns of a first fault."""
    if subject.position != "grid" or known(design.house.job.supply.earthing) != "IT":
        return None
    fitted = known(design.house.job.earth.insulation_monitor)
    return is_so(
        "insulation_monitor",
        "An insulation monitor watches the IT system"
        if fitted
        else "Nothing watches the IT system's insulation",
        _code.trace(),
        fitted,
        mend="fit an insulation monitor",
    )  # fmt: skip


def dead_link(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """A bypassed inverter is dead; where the neutral runs through, its relay can still reach the house."""
    if subject.position != "bypass":
        return
    topology = design.house.topology
    neutral = topology.joined(topology.sources["bypass"], "neutral", "bypass")
    for bond in topology.bonds:
        device = _name(bond).removesuffix(".link")
        inverter = isinstance(design.house.devices.get(device), InverterDevice)
        if inverter and bond.contact.moves and bond.at in neutral:
            yield is_so(
                "dead_link",
                "The neutral-earth link of {device} stays joined to the house's neutral while it is bypassed",
                code.trace(),
                False,
                binding=False,
                mend="prove the link of {device} open when dead, or take a bypass that opens the neutral",
                device=device,
            )


def network_apart(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """In island mode, or while a generator runs, no line may lead back into the network."""
    position = position_of(design, subject)
    all_known(*_facts_of_position(design, position))
    topology = design.house.topology
    apart = "supply" not in topology.joined(topology.sources[position], "line", position)
    return is_so(
        "network_apart",
        "No line leads back into the network" if apart else "{fed_by} feeds back into the network",
        code.trace(),
        apart,
        mend="fit an interlocked switch that opens the network before {fed_by} feeds the house",
        fed_by=", ".join(topology.sources[position]),
    )


def own_grid_port(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """An inverter that sees its own island at its network side takes it for the network."""
    if subject.position != "island":
        return
    for island in design.house.islands:
        for source in island.sources:
            inverter = source.partition(".")[0]
            port = f"{inverter}.grid"
            if source != port and port in island.terminals:
                yield is_so(
                    "own_grid_port",
                    "In island mode {inverter} feeds its own network side",
                    code.trace(),
                    False,
                    mend="land the network side of {inverter} ahead of the changeover",
                    inverter=inverter,
                )


def electrode(design: Design, code: Code, _subject: Subject) -> Iterator[Constraint]:
    fitted = known(design.house.job.earth.electrode) != "none"
    through = all(runs_through(design, island.sources) for island in design.house.islands)
    yield from covered(code.procedures.neutral_earth).electrode(code.rulebook, through=through, fitted=fitted)


def earthing_system(design: Design, code: Code, subject: Subject) -> Constraint:
    part = design.inverter(subject.id)
    all_known(part.earthing, design.house.job.supply.earthing)
    earthing, allowed = known(design.house.job.supply.earthing), known(part.earthing)
    return is_so(
        "earthing_system",
        "The supply is {earthing}; the inverter may be connected to {allowed}",
        code.trace(),
        earthing in allowed,
        mend="take an inverter whose sheet names {earthing}",
        earthing=earthing,
        allowed=", ".join(allowed) or "none",
    )


def separated(design: Design) -> Iterator[Subject]:
    return (subject for subject in positions(design) if subject.position in SEPARATED)


QUESTIONS = (
    Question(
        "earth.neutral_bond",
        "Is the neutral joined to earth exactly once?",
        positions,
        each(bonds, gap, neutral, location, insulation_monitor, dead_link),
    ),
    Question(
        "earth.island_electrode",
        "Does the house stand on an earth electrode of its own in island mode?",
        islands,
        each(electrode),
    ),
    Question(
        "inverter.earthing_system",
        "May the inverter be connected to this earthing system?",
        inverters,
        each(earthing_system),
    ),
    Question(
        "supply.backfeed",
        "Is the network cut off while something else feeds the house?",
        separated,
        each(network_apart, own_grid_port),
    ),
)
