"""Whether every conductor lands on a terminal that takes it, and whether its end can be prepared."""

from collections.abc import Iterator
from typing import Any

from ferrule.checks.question import Question, Subject, each
from ferrule.checks.wired import Landed, prepared, size, thickness_mm, wired
from ferrule.clauses import Code
from ferrule.constraint import Constraint, at_most, is_so, within
from ferrule.design import Design
from ferrule.fact import Missing, Unknown, all_known, known
from ferrule.parts.terminals import PLUGGED, TIGHTENED, TerminalBlock
from ferrule.quantity import Size
from ferrule.wiring.proof import MENDS, TEXTS, Fault


def leads(design: Design) -> Iterator[Subject]:
    return (Subject("lead", lead) for lead in wired(design).leads)


def wired_devices(design: Design) -> Iterator[Subject]:
    """The devices and boards on which conductors land."""
    house = design.house
    yield from (Subject(device.kind, device.id) for device in house.job.devices)
    yield from (Subject("board", board) for board in house.boards)


def ports(design: Design) -> Iterator[Subject]:
    """The ports of devices and boards on which conductors land; ways of a board are alike."""
    house = design.house
    for device, port in wired(design).landed:
        if (device in house.devices or device in house.boards) and not port.endswith("joint"):
            yield Subject("terminals", f"{device}.{port}" if port else device)


def boards(design: Design) -> Iterator[Subject]:
    return (Subject("board", board) for board in design.house.boards)


def lands(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    lead = wired(design).leads[subject.id]
    unread = (ask for device in lead.places for ask in _unread(design, device))
    if asks := tuple(dict.fromkeys((*lead.asks, *unread))):
        raise Missing(*asks)
    found = wired(design).faults.get(subject.id, ())
    yield from (_fault("lands", fault, code) for fault in found)
    if not found:
        text = "Its {count} conductors land where they belong"
        yield is_so("lands", text, code.trace(), True, count=len(lead.cores))


def pins(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """A patch cable joins pin to pin: the poles must sit on the same pins at both ends."""
    house, lead = wired(design), wired(design).leads[subject.id]
    ends = [
        (core, house.block(*a[:2]), house.block(*b[:2]))
        for core in lead.cores
        if (a := core.start) and (b := core.end)
    ]
    pairs = [
        (core.name, a.pins[a.poles.index(core.name)], b.pins[b.poles.index(core.name)])
        for core, a, b in ends
        if a and b and a.pins and b.pins and core.name in a.poles and core.name in b.poles
    ]
    if not pairs:
        return None
    crossed = [f"{name} on pin {a} and on pin {b}" for name, a, b in pairs if a != b]
    return is_so(
        "pins",
        "A patch cable joins {crossed}: make up a cable of its own"
        if crossed
        else "A patch cable joins like pins",
        code.trace(),
        not crossed,
        mend="make up a cable that joins like poles",
        crossed=", ".join(crossed),
    )


def _unread(design: Design, device: str) -> tuple[str, ...]:
    """What to find out where nobody knows the terminals of a device or a board; nothing for a load."""
    house = design.house
    owner = house.devices.get(device) or house.boards.get(device)
    if owner is None:
        return ()
    if isinstance(owner.part, Unknown):
        return (owner.part.ask,)
    terminals = getattr(house.parts.get(owner.part), "terminals", None)
    return (terminals.ask,) if isinstance(terminals, Unknown) else ()


def _fault(name: str, fault: Fault, code: Code) -> Constraint:
    words: dict[str, Any] = dict(fault.words)
    return is_so(name, TEXTS[fault.rule], code.trace(), False, mend=MENDS[fault.rule], **words)


def metal(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """What a device lacks or has too much of, whatever was planned."""
    if asks := _unread(design, subject.id):
        raise Missing(*asks)
    house = wired(design)
    found = house.faults.get(subject.id, ())
    unplaced = [lead for lead in house.leads.values() if lead.of == subject.id and not lead.cores]
    asks = tuple(dict.fromkeys(ask for lead in unplaced for ask in lead.asks))
    if asks and any(fault.rule == "unreached" for fault in found):
        raise Missing(*asks)  # what nobody has placed yet may well land there
    yield from (_fault("metal", fault, code) for fault in found)
    if not found:
        yield is_so("metal", "Nothing is left open, crowded or without its earth", code.trace(), True)


def takes(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """Each size that lands here lies within what the terminal takes of its class of conductor."""
    block, seen = _block(design, subject), set[tuple[Size, str]]()
    for landed in _landed(design, subject):
        if block.kind in PLUGGED:
            return
        wanted, form = size(design, code, landed.lead, landed.core), prepared(design, block, landed.lead)
        if (wanted, form) in seen:
            continue
        seen.add((wanted, form))
        fits = known(getattr(block.takes, form))
        yield is_so(
            "takes",
            "It takes no {form} conductors"
            if fits == "none"
            else "It takes {form} conductors from {least} to {most}; {lead} has {size}",
            code.trace(),
            fits != "none" and fits.takes(wanted),
            mend="take another size or class of cable, or a connector that its maker allows",
            form=form,
            least="" if fits == "none" else str(fits.least),
            most="" if fits == "none" else str(fits.most),
            lead=landed.lead.id,
            size=str(wanted),
        )


def preparation(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """Strip length, torque and tool are the maker's own: nobody may guess them."""
    block = _block(design, subject)
    asked = [] if block.kind in PLUGGED else [block.conductors, block.sleeve, block.strip_mm, block.tool]
    asked += [block.torque_n_m] if block.kind in TIGHTENED else []
    if not asked:
        return None
    all_known(*asked)
    return is_so("preparation", "How its ends are prepared and tightened is known", code.trace(), True)


def clamped(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """The seal of an entry holds a cable of its own range of diameters only."""
    block, seen = _block(design, subject), set[float]()
    if block.entry is None:
        return
    for landed in _landed(design, subject):
        outer_mm = thickness_mm(design, code, landed.lead, landed.core)
        if outer_mm in seen:
            continue
        seen.add(outer_mm)
        yield within(
            "clamped",
            "{lead} is {value} thick; the entry {thread} holds {low} to {high}",
            code.trace(),
            value=outer_mm,
            low=block.entry.clamps_from_mm,
            high=block.entry.clamps_to_mm,
            unit="mm",
            mend="take a gland or an insert for this diameter",
            lead=landed.lead.id,
            thread=block.entry.thread,
        )


def ways(design: Design, code: Code, subject: Subject) -> Constraint:
    """A pole takes one width of the rail (DIN 43880: 17.5 to 18 mm), a neutral that is switched one more."""
    house = design.house
    board = house.boards[subject.id]
    part = house.parts[known(board.part)]
    widths = sum(len(circuit.phases) + (design.rcd(circuit.id) is not None) for circuit in board.circuits)
    widths += _POLES_OF_ALL if board.rcd is not None else 0
    widths += _POLES_OF_ALL if design.ac_surge(board.id) is not None else 0
    return at_most(
        "ways",
        "Its devices need {value} widths of the rail; the board has {limit}",
        code.trace(),
        value=widths,
        limit=known(part.ways),
        unit="count",
        mend="take a larger board, or a second one",
    )


_POLES_OF_ALL = 4  # three lines and the neutral


def _landed(design: Design, subject: Subject) -> tuple[Landed, ...]:
    device, _, port = subject.id.partition(".")
    return wired(design).landed[device, port]


def _block(design: Design, subject: Subject) -> TerminalBlock:
    """What the part says of a port. Raises `Missing` where it says nothing of its terminals."""
    device, _, port = subject.id.partition(".")
    found = wired(design).block(device, port)
    if found is None:
        house = design.house
        owner = house.devices.get(device) or house.boards[device]
        part = house.parts[known(owner.part)]
        known(part.terminals)
        raise Missing(f"{part.name}: the terminals of its port {port}, from its manual")
    return found


QUESTIONS = (
    Question(
        "lead.landed",
        "Does each of its conductors land where it belongs?",
        leads,
        each(lands, pins),
    ),
    Question(
        "device.wired",
        "Is everything on it that must be, and no more than it holds?",
        wired_devices,
        each(metal),
    ),
    Question(
        "terminal.fits",
        "Do the terminals and their entry take these conductors, and is it known how to prepare them?",
        ports,
        each(takes, preparation, clamped),
    ),
    Question(
        "board.ways",
        "Has the board room for its devices?",
        boards,
        each(ways),
    ),
)
