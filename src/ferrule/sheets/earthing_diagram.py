"""The earthing and bonding diagram: the protective conductors from the main earthing terminal to every
exposed part, and for each switch position where neutral and earth are joined.
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from ferrule.answering import Answer
from ferrule.checks.wired import wired
from ferrule.fact import Missing, Unknown
from ferrule.sheets import symbols
from ferrule.sheets.frame import Frame
from ferrule.sheets.framed import frame_of, framed
from ferrule.sheets.said import UNKNOWN, Said
from ferrule.sheets.scene import (
    FINE,
    GRID_MM,
    HEAVY,
    MEDIUM,
    SMALL_MM,
    TEXT_MM,
    Box,
    Item,
    Pen,
    Placing,
    Point,
    Rectangle,
    Scene,
    Text,
    line,
)
from ferrule.sheets.strokes import across, dot, earthed, level, noted, word
from ferrule.sheets.texts import say
from ferrule.wiring.topology import Bond, Position

_COLUMN_MM, _LINE_MM, _ROW_MM, _HEAD_MM = 89.0, 40.0, 7.5, 7.5
_COLUMNS = 3
_BOND_MM, _PANEL_LOW_MM, _PANEL_HIGH_MM = 17.5, 40.0, 44.0


class _Wire(NamedTuple):
    """A protective conductor: its lead, what it joins, and its size in words."""

    lead: str
    a: str
    b: str
    size: str


class _Panel(NamedTuple):
    """One part of the house that is fed by itself in a switch position, with the bonds of its neutral."""

    position: Position
    sources: tuple[str, ...]
    bonds: tuple[tuple[Bond, bool | None], ...]

    @property
    def width_mm(self) -> float:
        return max(_PANEL_LOW_MM, _BOND_MM * len(self.bonds) + 5.0)


def earthing_diagram(result: Answer) -> tuple[Scene, ...]:
    """The conductors on the first sheet and, where there is room, the switch positions below them."""
    said, title = Said(result), say("earthing.title")
    made = frame_of(result, title)
    blocks = list(_blocks(said))
    columns = _columns(blocks, made.area.height_mm - 6.0)
    panels = list(_panels(said))
    sheets = [
        list(_tree(said, columns[at : at + _COLUMNS], made)) for at in range(0, len(columns), _COLUMNS)
    ] or [[]]
    strip = Box(
        made.inside.left_mm + 2.5, made.block.top_mm + 2.0, made.block.left_mm - 2.5, made.inside.bottom_mm
    )
    if sum(panel.width_mm + GRID_MM for panel in panels) <= strip.width_mm:
        sheets[0] += _row_of(panels, strip)
    else:
        sheets += _panel_sheets(panels, made)
    sheets[-1] += _notes(said, made, len(sheets) > 1 or not panels)
    return tuple(
        framed(
            frame_of(result, title, number=at + 1, of=len(sheets)), items, title,
            description=say("earthing.description", job=result.loaded.job.name),
        )
        for at, items in enumerate(sheets)
    )  # fmt: skip


# Conductors


def _wires(said: Said) -> Iterator[_Wire]:
    for lead in wired(said.design).leads.values():
        cores = [core for core in lead.cores if core.name.startswith("PE") and core.start and core.end]
        if not cores:
            continue
        start, end = (each.device for each in cores[0].ends)
        if start != end:  # a bridge inside a board is no way to anything
            size = said.sizes(lead.id, [core.name for core in cores])
            combined = f" {cores[0].name}" if cores[0].name == "PEN" else ""
            yield _Wire(lead.id, start, end, size + combined)


class _Block(NamedTuple):
    """A thing with all that its earth goes on to."""

    name: str
    rows: tuple[tuple[_Wire, str, bool], ...]


def _blocks(said: Said) -> Iterator[_Block]:
    """From the main earthing terminal on, each conductor once; `True` where a thing has its own block."""
    wires = list(_wires(said))
    at: dict[str, list[_Wire]] = {}
    for wire in wires:
        at.setdefault(wire.a, []).append(wire)
        at.setdefault(wire.b, []).append(wire)
    root = wired(said.design).plan.main_board
    waiting = [*([root] if root in at else []), *at]
    drawn: set[str] = set()
    seen: set[str] = set()
    while waiting:
        name = waiting.pop(0)
        if name is None or name in seen:
            continue
        seen.add(name)
        rows = []
        ahead = []
        for wire in at[name]:
            if wire.lead not in drawn:
                drawn.add(wire.lead)
                other = wire.b if wire.a == name else wire.a
                ahead.append(other)
                rows.append((wire, other))
        waiting = (
            [*ahead, *waiting] if name == root else [*waiting[: len(ahead)], *ahead, *waiting[len(ahead) :]]
        )
        if rows:
            more = {other: any(each.lead not in drawn for each in at[other]) for _, other in rows}
            yield _Block(name, tuple((wire, other, more[other]) for wire, other in rows))


def _columns(blocks: Sequence[_Block], height_mm: float) -> list[list[_Block]]:
    """The blocks down the columns, those too long for one cut."""
    columns: list[list[_Block]] = []
    free = 0.0
    for block in blocks:
        left = list(block.rows)
        while left:
            fitting = int((free - _HEAD_MM - GRID_MM) // _ROW_MM)
            if fitting < min(len(left), 3):
                columns.append([])
                free = height_mm
                continue
            here, left = left[:fitting], left[fitting:]
            columns[-1].append(_Block(block.name, tuple(here)))
            free -= _HEAD_MM + _ROW_MM * len(here) + GRID_MM
    return columns


def _tree(said: Said, columns: Sequence[Sequence[_Block]], made: Frame) -> Iterator[Item]:
    for at, column in enumerate(columns):
        x, y = made.area.left_mm + 5.0 + _COLUMN_MM * at, made.area.top_mm + 2.5
        for block in column:
            yield from _block(said, block, x, y)
            y += _HEAD_MM + _ROW_MM * len(block.rows) + GRID_MM


def _block(said: Said, block: _Block, x: float, top: float) -> Iterator[Item]:
    """A bar with its conductors to the right of it."""
    main = block.name == wired(said.design).plan.main_board
    name = say("earthing.main", board=block.name) if main else block.name
    yield from word(x, top + 4.5, name, _COLUMN_MM - 8.0, TEXT_MM, bold=True)
    first = top + _HEAD_MM + 3.0
    last = first + _ROW_MM * (len(block.rows) - 1)
    yield line((x, first - 2.5), (x, last + 2.5), pen=Pen(1.0), layer="device")
    for at, (wire, other, more) in enumerate(block.rows):
        y = first + _ROW_MM * at
        end = x + _LINE_MM
        yield level(x, end, y, "protective", MEDIUM)
        yield from word(x + 2.0, y - 1.0, f"{wire.lead}  {wire.size}", _LINE_MM - 3.0)
        yield from (
            earthed(end, y) if other in {"electrode", "supply"} else across(symbols.frame_bond(), end, y)
        )
        label = say("earthing.more", what=other) if more else _end(said, wire, other)
        yield from word(end + 9.5, y + 0.9, label, _COLUMN_MM - _LINE_MM - 14.0, bold=more)


def _end(said: Said, wire: _Wire, name: str) -> str:
    """What a conductor ends at: the electrode with its resistance, a part with the role of its bond."""
    if name == "electrode":
        return ", ".join(_electrode(said))
    bond = said.house.bonding.get(wire.lead)
    return say("earthing.bond", what=name, role=bond.role) if bond is not None and bond.role != name else name


def _electrode(said: Said) -> tuple[str, ...]:
    electrode = said.house.job.earth.electrode
    if isinstance(electrode, Unknown) or electrode == "none":
        return (say("single.electrode", kind=said.fact(electrode)),)
    return (say("single.electrode", kind=electrode.kind), said.fact(electrode.resistance_ohm, "Ω"))


# Switch positions


def _panels(said: Said) -> Iterator[_Panel]:
    topology = said.house.topology
    for position in topology.positions:
        for zone in topology.zones(position):
            try:
                neutral = topology.joined(zone, "neutral", position)
            except Missing as missing:
                said.asks.update(dict.fromkeys(missing.asks))
                yield _Panel(position, zone, ())
                continue
            bonds = [(bond, _closed(said, bond, position)) for bond in topology.bonds if bond.at in neutral]
            yield _Panel(position, zone, tuple(bonds))


def _closed(said: Said, bond: Bond, position: Position) -> bool | None:
    """Whether a bond is closed; None where nobody knows."""
    try:
        return bond.contact.joins(position)
    except Missing as missing:
        said.asks.update(dict.fromkeys(missing.asks))
        return None


def _row_of(panels: Sequence[_Panel], strip: Box) -> Iterator[Item]:
    x = strip.left_mm
    for panel in panels:
        yield from _panel(panel, x, strip.top_mm)
        x += panel.width_mm + GRID_MM


def _panel_sheets(panels: Sequence[_Panel], made: Frame) -> list[list[Item]]:
    """As many sheets as they need."""
    sheets: list[list[Item]] = [[]]
    left, right = made.area.left_mm + 5.0, made.area.right_mm - 5.0
    x, y = left, made.area.top_mm + 5.0
    for panel in panels:
        if x + panel.width_mm > right and x > left:
            x, y = left, y + _PANEL_HIGH_MM + 5.0
        if y + _PANEL_HIGH_MM > made.area.bottom_mm - 2.5:
            sheets.append([])
            x, y = left, made.area.top_mm + 5.0
        sheets[-1] += _panel(panel, x, y)
        x += panel.width_mm + GRID_MM
    return sheets


def _panel(panel: _Panel, x: float, top: float) -> Iterator[Item]:
    """Neutral above, earth below, the bonds between them closed or open."""
    right, room = x + panel.width_mm, panel.width_mm - 3.0
    yield Rectangle(Box(x, top, right, top + _PANEL_HIGH_MM - 2.0), FINE, "frame")
    yield from word(x + 1.5, top + 4.2, panel.position, room, TEXT_MM, bold=True)
    yield from word(x + 1.5, top + 7.8, say("earthing.fed", by=", ".join(panel.sources)), room)
    neutral, earth = top + 13.0, top + 28.0
    yield level(x + 6.0, right - 2.0, neutral, "conductor", HEAVY)
    yield level(x + 6.0, right - 2.0, earth, "protective", HEAVY)
    for y, name in ((neutral, "N"), (earth, "PE")):
        yield Text(Point(x + 1.5, y), name, SMALL_MM, level="middle", bold=True)
    for at, (bond, closed) in enumerate(panel.bonds):
        middle = x + 6.0 + _BOND_MM * (at + 0.5)
        yield from _bond(middle, neutral, earth, closed)
        name = bond.by.partition("/")[2].removesuffix(".link") or bond.by
        for line_, text in enumerate((name, _state(closed))):
            yield from word(
                middle, earth + 4.0 + 3.0 * line_, text, _BOND_MM - 1.0, anchor="middle", bold=line_ > 0
            )
    yield from word(x + 1.5, top + _PANEL_HIGH_MM - 4.0, _count(panel), room)


def _bond(x: float, neutral: float, earth: float, closed: bool | None) -> Iterator[Item]:
    yield dot(x, neutral)
    yield dot(x, earth, "protective")
    if closed:
        yield line((x, neutral), (x, earth), pen=MEDIUM, layer="device")
        for y in (neutral + 5.0, earth - 5.0):
            yield symbols.terminal().placed(x, y).items[0]
    else:
        yield from (item.placed(Placing(x, neutral)) for item in symbols.switch().items)
    if closed is None:
        yield from word(x + 3.0, (neutral + earth) / 2 + 0.9, UNKNOWN, 4.0, bold=True)


def _state(closed: bool | None) -> str:
    if closed is None:
        return say("earthing.not_known")
    return say("earthing.closed") if closed else say("earthing.open")


def _count(panel: _Panel) -> str:
    if not panel.bonds or any(closed is None for _, closed in panel.bonds):
        return say("earthing.bonds", count=UNKNOWN)
    return say("earthing.bonds", count=sum(closed is True for _, closed in panel.bonds))


def _notes(said: Said, made: Frame, strip_free: bool) -> Iterator[Item]:
    """What the marks mean; beside the title block, or above it where the positions stand there."""
    surge = [
        say("earthing.surge", board=board, what=words)
        for board in said.house.boards
        if (words := said.ac_surge(board)) not in {"", UNKNOWN}
    ]
    split = [
        say("earthing.split", at=lead.places[0])
        for lead in wired(said.design).leads.values()
        if lead.role == "bridge"
    ]
    notes = [(say("drawn.marks"), [*split, *surge, *said.notes()])]
    if strip_free:
        room = Box(
            made.inside.left_mm + 5.0,
            made.block.top_mm + 2.0,
            made.block.left_mm - 4.0,
            made.inside.bottom_mm,
        )
    else:
        room = Box(
            made.block.left_mm, made.block.top_mm - 26.0, made.inside.right_mm - 2.0, made.block.top_mm - 1.0
        )
    yield from noted(room, notes).items
