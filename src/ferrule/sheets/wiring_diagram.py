"""The wiring diagram: every device with its terminals, and every lead with the conductors that land on them.

A lead is one line between its two sheaths, where its conductors fan out to the terminals. One that leaves the
sheet, or goes to something that has no terminals of its own here, ends in an arrow that says where it goes.
Leads between two devices of a sheet run in a channel on the right, the shorter inside the longer, so that
none crosses another unless their ends lie crosswise.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from ferrule.answering import Answer
from ferrule.checks.subjects import PLACES
from ferrule.checks.wired import Wired, wired
from ferrule.fact import Unknown
from ferrule.sheets.leaf import ACROSS, Leaf, room, scenes
from ferrule.sheets.said import CHOSEN, Said
from ferrule.sheets.scene import (
    HEAVY,
    MEDIUM,
    NAME_MM,
    SMALL_MM,
    TEXT_MM,
    Anchor,
    Box,
    Circle,
    Item,
    Layer,
    Pen,
    Point,
    Polygon,
    Rectangle,
    Scene,
    Text,
    line,
)
from ferrule.sheets.schedule import BOUGHT, Conductor, Row, place_of_end
from ferrule.sheets.texts import say
from ferrule.sheets.words import shortened, wrapped
from ferrule.wiring.terminal import Core, Lead, Terminal

_ROW_MM, _APART_MM, _HEAD_MM = 4.0, 3.0, 11.0
_LABEL_MM = 10.5  # three lines: which lead, of what, to where
_BOX_MM, _CHANNEL_MM, _TRACK_MM = 76.0, 12.0, 3.0
_FAN_MM, _SHEATH_MM, _TAIL_MM = 28.0, 1.5, 5.0
_POLE_ROOM_MM = 13.0
_DETAIL_MM = 2.0
_SIGNALS = frozenset({"bus", "contact"})
_SIGNS = {"plus": "+", "minus": "−"}
_PENS: Mapping[str, tuple[Pen, Layer]] = {
    "protective": (HEAVY.dash(), "protective"),
    "signal": (MEDIUM, "signal"),
}


class Strand(NamedTuple):
    """One row of a device: a terminal with what lands on it; either of the two may be absent."""

    terminal: Terminal | None
    core: Core | None
    words: str


class End(NamedTuple):
    """One end of a lead at a device, with a row for each of its conductors and each pole left empty."""

    lead: Lead
    cable: str
    starts: bool
    strands: tuple[Strand, ...]
    asks: tuple[str, ...]

    @property
    def key(self) -> tuple[str, bool]:
        return self.lead.id, self.starts

    @property
    def height_mm(self) -> float:
        return max(_ROW_MM * len(self.strands), _LABEL_MM) + _APART_MM


class Part(NamedTuple):
    """A device, or as much of it as one sheet takes, with what lands on its left and on its right."""

    device: str
    note: str
    left: tuple[End, ...]
    right: tuple[End, ...]
    goes_on: bool = False

    @property
    def height_mm(self) -> float:
        return _HEAD_MM + max(_height(self.left), _height(self.right))


class Landed(NamedTuple):
    """Where the cable of an end leaves its sheath."""

    end: End
    at: Point
    to_right: bool


def wiring_diagram(result: Answer) -> tuple[Scene, ...]:
    """One sheet a place, or several where one would be too crowded."""
    said = Said(result)
    free = room(result, ACROSS)
    bounds = free.area.grown(-2.0)
    pages = [
        (place, page) for place in PLACES for page in _pages(_parts(result, said, place), bounds.height_mm)
    ]
    number = {
        end.key: at
        for at, (_, page) in enumerate(pages, start=1)
        for part in page
        for end in (*part.left, *part.right)
    }
    leaves = [
        Leaf(
            say(f"chapter.{place}"),
            _page(bounds, page, number),
            _notes(wired(result.design), page),
            say("wiring_diagram.description", place=place, devices=", ".join(part.device for part in page)),
        )
        for place, page in pages
    ]
    return scenes(result, say("wiring_diagram.title"), ACROSS, leaves)


def _notes(found: Wired, page: Sequence[Part]) -> tuple[str, ...]:
    ends = [end for part in page for end in (*part.left, *part.right)]
    boards = {board.id for board in found.plan.job.boards}
    unused = [
        say("wiring_diagram.unused", device=device, ports=", ".join(ports))
        for device in dict.fromkeys(part.device for part in page)
        if device not in boards
        and (
            ports := [
                port
                for owner, port in found.plan.blocks
                if owner == device and (owner, port) not in found.landed
            ]
        )
    ]
    asks = dict.fromkeys(
        say("wiring_diagram.find_out", lead=end.lead.id, ask=ask) for end in ends for ask in end.asks
    )
    starred = [say("drawn.starred")] if any(CHOSEN in end.cable for end in ends) else []
    return (
        say("wiring_diagram.dead"), say("wiring_diagram.cable"), say("wiring_diagram.empty"),
        say("wiring_diagram.protective"), *starred, *unused, *asks,
    )  # fmt: skip


# What lands where


def _parts(result: Answer, said: Said, place: str) -> list[Part]:
    """The devices of a place, in the order of the job, with the leads that land on each."""
    found, house = wired(result.design), result.design.house
    named = [*house.boards, *house.devices]
    boxes = dict.fromkeys(
        end.device
        for lead in found.leads.values()
        for core in lead.cores
        for end in core.ends
        if end.device.endswith("-box") and end.device.removesuffix("-box").partition(".")[0] in named
    )
    here = [each for each in (*named, *boxes) if place_of_end(house, each) == place]
    parts = []
    for device in here:
        ends = [end for lead in found.leads.values() for end in _ends(said, found, lead, device)]
        if ends:
            ends = _in_order(found, device, ends)
            before, after = here[: here.index(device)], here[here.index(device) + 1 :]
            left, right = _sides(ends, before, after)
            parts.append(Part(device, _note(result, device), tuple(left), tuple(right)))
    return parts


def _ends(said: Said, found: Wired, lead: Lead, device: str) -> Iterator[End]:
    row = said.leads[lead.id]
    for starts, thing in zip((True, False), lead.places, strict=True):
        if thing == device:
            strands = [
                Strand(core.start if starts else core.end, core, _words(row, conductor))
                for core, conductor in zip(lead.cores, row.conductors, strict=True)
            ]
            facts = (row.length_m, *(conductor.size for conductor in row.conductors))
            asks = (*lead.asks, *(fact.ask for fact in facts if isinstance(fact, Unknown)))
            empty = _empty(found, device, strands)
            yield End(lead, _cable(said, row), starts, (*strands, *empty), asks)


def _cable(said: Said, row: Row) -> str:
    """What to order and how long it is; sizes that were chosen are marked."""
    if row.role not in BOUGHT and row.role not in _SIGNALS:
        return " ".join(said.cable(row.lead))
    return row.cable if row.length_m == 0 else f"{row.cable}, {said.length(row.length_m)}"


def _words(row: Row, conductor: Conductor) -> str:
    """What stands along a conductor; its size only where those of a lead differ."""
    sizes = {str(each.size) for each in row.conductors}
    size = f" {conductor.size}" if len(sizes) > 1 and not isinstance(conductor.size, Unknown) else ""
    return f"{_SIGNS.get(conductor.name, conductor.name)} {conductor.colour}".strip() + size


def _empty(found: Wired, device: str, strands: Sequence[Strand]) -> Iterator[Strand]:
    """The poles of a port on which nothing lands, told with the first lead that lands there."""
    if device in {board.id for board in found.plan.job.boards}:
        return
    for port in dict.fromkeys(each.terminal.port for each in strands if each.terminal):
        block, landed = found.block(device, port), found.landed[device, port]
        if block and any(each.core is landed[0].core for each in strands):
            taken = {each.terminal.pole for each in landed}
            yield from (
                Strand(Terminal(device, port, pole), None, "") for pole in block.poles if pole not in taken
            )


def _in_order(found: Wired, device: str, ends: list[End]) -> list[End]:
    """As the fitter sees their ports from the left, as far as that is known."""

    def across(end: End) -> float:
        ports = [each.terminal.port for each in end.strands if each.terminal]
        block = found.plan.blocks.get((device, ports[0])) if ports else None
        return block.x_mm if block and not isinstance(block.x_mm, Unknown) else 0.0

    return sorted(ends, key=across)


def _sides(ends: list[End], before: Sequence[str], after: Sequence[str]) -> tuple[list[End], list[End]]:
    """What arrives on the left, what goes on the right, as evenly as that leaves them. What joins two devices
    of the place is always on the right, as near to the other as may be, and on the lower of the two in the
    opposite order, so that their lines lie within each other.
    """
    up = [end for end in reversed(ends) if _far(end) in before]
    down = [end for end in ends if _far(end) in after]
    outer = [end for end in ends if _far(end) not in (*before, *after)]
    left, right = [end for end in outer if not end.starts], [end for end in outer if end.starts]
    inner_mm = _height(up) + _height(down)
    while left and _height(left) - left[-1].height_mm > _height(right) + inner_mm:
        right.insert(0, left.pop())
    while right and _height(right) + inner_mm - right[-1].height_mm > _height(left):
        left.append(right.pop())
    return left, [*up, *right, *down]


def _far(end: End) -> str:
    return end.lead.places[1 if end.starts else 0]


def _note(result: Answer, device: str) -> str:
    """What a device is."""
    house = result.design.house
    if device.endswith("-box"):
        return say("wiring_diagram.box", of=device.removesuffix("-box"))
    thing = house.devices.get(device) or house.boards[device]
    part = house.parts.get(thing.part) if isinstance(thing.part, str) else None
    return part.name if part else ""


# Which sheet


def _height(ends: Sequence[End]) -> float:
    return sum(end.height_mm for end in ends)


def _pages(parts: Sequence[Part], height_mm: float) -> Iterator[list[Part]]:
    """Devices one under the other; one that fills more than a sheet goes on over the next."""
    page: list[Part] = []
    used_mm = 0.0
    for piece in (piece for part in parts for piece in _pieces(part, height_mm)):
        if page and used_mm + piece.height_mm > height_mm:
            yield page
            page, used_mm = [], 0.0
        page.append(piece)
        used_mm += piece.height_mm + _APART_MM
    if page:
        yield page


def _pieces(part: Part, height_mm: float) -> Iterator[Part]:
    left, right, goes_on = list(part.left), list(part.right), False
    while left or right:
        sides = tuple(tuple(_taken(side, height_mm - _HEAD_MM)) for side in (left, right))
        yield part._replace(left=sides[0], right=sides[1], goes_on=goes_on)
        goes_on = True


def _taken(ends: list[End], height_mm: float) -> Iterator[End]:
    """As many as there is room for, taken off the list; at least one, so that it comes to an end."""
    first = True
    while ends and (first or ends[0].height_mm <= height_mm):
        height_mm -= ends[0].height_mm
        first = False
        yield ends.pop(0)


# Drawing


def _page(bounds: Box, page: Sequence[Part], number: Mapping[tuple[str, bool], int]) -> tuple[Item, ...]:
    side_mm = (bounds.width_mm - _BOX_MM - _CHANNEL_MM) / 2
    left = bounds.left_mm + side_mm
    top, items, landed = bounds.top_mm, list[Item](), list[Landed]()
    for part in page:
        box = Box(left, top, left + _BOX_MM, top + part.height_mm)
        items += [Rectangle(box), *_title(box, part)]
        for side, to_right in ((part.left, False), (part.right, True)):
            y = top + _HEAD_MM
            for end in side:
                found, drawn = _end(end, Point(box.right_mm if to_right else box.left_mm, y), to_right)
                items += drawn
                landed.append(found)
                y += end.height_mm
        top = box.bottom_mm + _APART_MM
    return (*items, *_cables(landed, bounds, side_mm, number))


def _title(box: Box, part: Part) -> Iterator[Text]:
    name = say("wiring_diagram.goes_on", device=part.device) if part.goes_on else part.device
    x, room_mm = box.middle.x_mm, box.width_mm - 4.0
    shown = shortened(name, NAME_MM, room_mm, bold=True)
    yield Text(Point(x, box.top_mm + 5.0), shown, NAME_MM, "middle", bold=True)
    yield Text(Point(x, box.top_mm + 8.4), shortened(part.note, _DETAIL_MM, room_mm), _DETAIL_MM, "middle")


def _end(end: End, corner: Point, to_right: bool) -> tuple[Landed, list[Item]]:
    """The rows of an end from a corner of its device down: terminals, conductors, sheath."""
    out = 1 if to_right else -1
    anchor: Anchor = "end" if to_right else "start"
    away: Anchor = "start" if to_right else "end"
    edge, sheath = corner.x_mm, corner.x_mm + out * _FAN_MM
    items: list[Item] = []
    first = corner.y_mm + (end.height_mm - _APART_MM - _ROW_MM * len(end.strands)) / 2
    rows = [(strand, first + _ROW_MM * (at + 0.5)) for at, strand in enumerate(end.strands)]
    single = len(end.lead.cores) == 1
    port = None
    for strand, y in rows:
        if strand.terminal:
            items.append(Circle(Point(edge - out * 1.6, y), 0.8))
            pole = _pole(strand.terminal)
            inner = Point(edge - out * 3.4, y)
            shown = shortened(pole, _DETAIL_MM, _POLE_ROOM_MM)
            items.append(Text(inner, shown, _DETAIL_MM, anchor, "middle"))
            if strand.terminal.port not in ("", port):
                room_mm = _BOX_MM / 2 - 3.4 - _POLE_ROOM_MM - 1.0
                shown = shortened(strand.terminal.port, _DETAIL_MM, room_mm, bold=True)
                at = Point(edge - out * (3.4 + _POLE_ROOM_MM), y)
                items.append(Text(at, shown, _DETAIL_MM, anchor, "middle", bold=True))
            port = strand.terminal.port
        if strand.core:
            pen, layer = _PENS.get(strand.core.serves, (HEAVY, "conductor"))
            start = edge - out * 0.8 if strand.terminal else edge + out * 2.5
            items.append(line((start, y), (sheath, y), pen=pen, layer=layer))
            words = strand.words
            if not strand.terminal:
                items.append(line((start, y - 1.0), (start, y + 1.0), pen=MEDIUM, layer="device"))
                words = say("wiring_diagram.cut_back", core=strand.words)
            shown = shortened(words, SMALL_MM, _FAN_MM - 4.5)
            items.append(Text(Point(edge + out * 3.2, y - 0.8), shown, SMALL_MM, away))
    wired_rows = [y for strand, y in rows if strand.core] or [first + _ROW_MM / 2]
    middle = (wired_rows[0] + wired_rows[-1]) / 2
    if not single:
        far = sheath + out * _SHEATH_MM
        items.append(
            Rectangle(
                Box(min(sheath, far), wired_rows[0] - 1.0, max(sheath, far), wired_rows[-1] + 1.0), MEDIUM
            )
        )
        sheath = far
    return Landed(end, Point(sheath, middle), to_right), items


def _pole(terminal: Terminal) -> str:
    pole = _SIGNS.get(terminal.pole, terminal.pole)
    return f"{pole} ({terminal.set})" if terminal.set > 1 else pole


def _cables(
    landed: Sequence[Landed], bounds: Box, side_mm: float, number: Mapping[tuple[str, bool], int]
) -> Iterator[Item]:
    """From each sheath to where it goes: along the channel to another one of this sheet, or an arrow."""
    inside = {(each.end.lead.id, each.end.starts): each for each in landed if each.to_right}
    pairs = [
        (inside[lead, True], inside[lead, False])
        for lead, starts in inside
        if starts and (lead, False) in inside
    ]
    tracks = _tracks(pairs)
    channelled = {pairs[at][0].end.lead.id for at in tracks}
    for at, track in tracks.items():
        start, end = pairs[at]
        x = bounds.right_mm - _CHANNEL_MM + _TRACK_MM * (track + 0.5)
        pen, layer = _look(start.end.lead)
        yield line(start.at, (x, start.at.y_mm), (x, end.at.y_mm), end.at, pen=pen, layer=layer)
    for each in landed:
        if each.end.lead.id in channelled:
            yield from _on_the_way(each, side_mm)
        else:
            yield from _leaving(each, side_mm, number)


def _tracks(pairs: Sequence[tuple[Landed, Landed]]) -> dict[int, int]:
    """A track of the channel for each pair, as many as it takes: what lies within another runs inside it."""
    spans = [tuple(sorted((start.at.y_mm, end.at.y_mm))) for start, end in pairs]
    tracks: dict[int, int] = {}
    for at in sorted(range(len(pairs)), key=lambda each: spans[each][1] - spans[each][0]):
        low, high = spans[at]
        beside = [
            track for other, track in tracks.items() if spans[other][0] < high and low < spans[other][1]
        ]
        track = max(beside, default=-1) + 1
        if track < int(_CHANNEL_MM // _TRACK_MM):
            tracks[at] = track
    return tracks


def _look(lead: Lead) -> tuple[Pen, Layer]:
    serves = {core.serves for core in lead.cores}
    return _PENS.get(serves.pop(), (HEAVY, "conductor")) if len(serves) == 1 else (HEAVY, "conductor")


def _room_mm(side_mm: float) -> float:
    return side_mm - _FAN_MM - _SHEATH_MM - _TAIL_MM - 4.0


def _on_the_way(each: Landed, side_mm: float) -> Iterator[Text]:
    """What a lead is, over its line, and where it goes, under it."""
    x, y = each.at.x_mm + 2.0, each.at.y_mm
    room_mm = _room_mm(side_mm) + _TAIL_MM
    name = shortened(each.end.lead.id, TEXT_MM, room_mm, bold=True)
    yield Text(Point(x, y - 1.2), name, TEXT_MM, bold=True)
    yield Text(Point(x, y + 3.0), shortened(each.end.cable, _DETAIL_MM, room_mm), _DETAIL_MM)


def _leaving(each: Landed, side_mm: float, number: Mapping[tuple[str, bool], int]) -> Iterator[Item]:
    """An arrow out of the sheet, and beside it what goes where."""
    out = 1 if each.to_right else -1
    anchor: Anchor = "start" if each.to_right else "end"
    (x, y), end = each.at, each.end
    pen, layer = _look(end.lead)
    tip = x + out * _TAIL_MM
    head = tip - out * 1.8
    yield line((x, y), (head, y), pen=pen, layer=layer)
    yield Polygon((Point(tip, y), Point(head, y - 0.8), Point(head, y + 0.8)), layer)
    words = tip + out * 1.5
    room_mm = _room_mm(side_mm)
    name = shortened(end.lead.id, TEXT_MM, room_mm, bold=True)
    where = wrapped(_where(end, number), _DETAIL_MM, room_mm, lines=1)
    texts = [(name, TEXT_MM, True), (shortened(end.cable, _DETAIL_MM, room_mm), _DETAIL_MM, False)]
    texts += [(each, _DETAIL_MM, False) for each in where]
    for at, (shown, height_mm, bold) in enumerate(texts):
        yield Text(Point(words, y + 3.3 * (at - 1)), shown, height_mm, anchor, "middle", bold=bold)


def _where(end: End, number: Mapping[tuple[str, bool], int]) -> str:
    sheet = number.get((end.lead.id, not end.starts))
    words = {"thing": _far(end), "sheet": sheet}
    if sheet is None:
        return say("wiring_diagram.to", **words) if end.starts else say("wiring_diagram.from", **words)
    if end.starts:
        return say("wiring_diagram.to_sheet", **words)
    return say("wiring_diagram.from_sheet", **words)
