"""The port side of each device as the fitter faces it: to scale, every port numbered from the left, and below
what lands on which of its poles.
"""

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from ferrule.answering import Answer
from ferrule.checks.subjects import place_of_device
from ferrule.checks.wired import wired
from ferrule.display import number
from ferrule.fact import Unknown
from ferrule.parts.terminals import PLUGGED, TIGHTENED, TerminalBlock
from ferrule.sheets.frame import A4, Frame, Page, Sheet, frame
from ferrule.sheets.legible import cuts
from ferrule.sheets.paper import Block, Drawing
from ferrule.sheets.scene import (
    FINE,
    MEDIUM,
    NAME_MM,
    TEXT_MM,
    Box,
    Circle,
    Item,
    Point,
    Rectangle,
    Scene,
    Text,
    line,
)
from ferrule.sheets.texts import say
from ferrule.sheets.words import width_mm, wrapped

_SCALES = (1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 50, 100)
_HIGH_MM = 70.0
"""Height on paper that the device may take."""
_AROUND_MM = 60.0
"""What is drawn of a device around its terminals, where its outline is cut off or not known."""
_LEAST_MM = 2.5
"""A block that would be smaller on paper is drawn so large."""
_NUMBER_MM = 6.0
"""Room for a number and the space to the next."""
_ROW_MM, _BETWEEN_MM, _HEAD_MM = 4.4, 1.6, 52.0
_BETWEEN_MARGINS = Page(174.0, 230.0)
"""What stands between the margins of a page, so that it shares the page with words."""
_MOST_LINES = 40


class PortRow(NamedTuple):
    """A port with what lands there: pole, lead and core of each conductor; nothing where it is not used."""

    port: str
    block: TerminalBlock
    held: tuple[tuple[str, str, str], ...]

    @property
    def place(self) -> tuple[float, float] | None:
        x_mm, y_mm = self.block.x_mm, self.block.y_mm
        return None if isinstance(x_mm, Unknown) or isinstance(y_mm, Unknown) else (x_mm, y_mm)

    @property
    def width_mm(self) -> float:
        pitch_mm = self.block.pitch_mm
        poles = len(self.block.poles) * self.block.sets
        return 0.0 if isinstance(pitch_mm, Unknown) else (poles - 1) * pitch_mm


class Side(NamedTuple):
    """A device as it is drawn: its outline from (0, 0) at the lower left, where that is known."""

    device: str
    name: str
    place: str
    outline_mm: tuple[float, float] | None
    ports: tuple[PortRow, ...]


def sides(answer: Answer) -> list[Side]:
    """Every device and board on whose terminals a conductor lands, in the order of the job."""
    house = answer.design.house
    found = []
    for owner in (*house.job.devices, *house.job.boards):
        part = house.parts.get(owner.part) if isinstance(owner.part, str) else None
        blocks = getattr(part, "terminals", None)
        ports = tuple(_ports(answer, owner.id, blocks)) if isinstance(blocks, list) else ()
        if part is not None and any(row.held and row.block.kind not in PLUGGED for row in ports):
            place = place_of_device(house, owner.id)
            found.append(Side(owner.id, part.name, place, _outline_mm(part), ports))
    return found


def _outline_mm(part: object) -> tuple[float, float] | None:
    body = getattr(part, "body", None)
    width_mm, height_mm = getattr(body, "width_mm", None), getattr(body, "height_mm", None)
    return (width_mm, height_mm) if isinstance(width_mm, float) and isinstance(height_mm, float) else None


def _ports(answer: Answer, device: str, blocks: Sequence[TerminalBlock]) -> Iterator[PortRow]:
    """In the order in which they are met from the left, those that nobody has placed last."""
    landed = wired(answer.design).landed
    for block in sorted(blocks, key=lambda each: (_at(each.x_mm), -_at(each.y_mm), each.port)):
        ports = [block.port] if block.port != "way" else [
            port for owner, port in landed
            if owner == device and wired(answer.design).block(owner, port) is block
        ]  # fmt: skip
        held = []
        for port in ports:
            for each in landed.get((device, port), ()):
                pole = each.terminal.pole + (f" ({each.terminal.set})" if each.terminal.set > 1 else "")
                named = pole if port == block.port else f"{port} {pole}"
                held.append((named, each.lead.id, each.core.name))
        yield PortRow(block.port, block, tuple(held))


def _at(fact: float | Unknown) -> float:
    return float("inf") if isinstance(fact, Unknown) else fact


def drawings(result: Answer) -> Iterator[tuple[str, Block]]:
    """A drawing of each device, in the chapter of its place."""
    for side in sides(result):
        yield side.place, Drawing(f"ports-{_safe(side.device)}", drawn(result, side))


def _safe(name: str) -> str:
    """A device's id as part of a file's name."""
    return "".join(each if each.isalnum() or each in "-_" else "_" for each in name)[:60]


def drawn(result: Answer, side: Side) -> Scene:
    """The page of one device: as small as what is on it where that fits between margins, else one of A4."""
    sheet = Sheet(
        say("ports.title", device=side.device), result.loaded.job.name, result.code.rulebook.edition,
        result.loaded.revision[:12], result.cleared, say(f"chapter.{side.place}"),
    )  # fmt: skip
    for page in (_BETWEEN_MARGINS, A4):
        framed = frame(page, sheet)
        items, bottom_mm = _contents(side, framed)
        spare_mm = framed.block.top_mm - bottom_mm
        if spare_mm >= 0 or page is A4:
            break
    high_mm = page.height_mm - spare_mm if page is _BETWEEN_MARGINS or spare_mm < 0 else page.height_mm
    framed = frame(Page(page.width_mm, high_mm), sheet)
    description = say("ports.description", device=side.device, count=str(len(side.ports)))
    return Scene(
        page.width_mm, high_mm, (*framed.items, *items), say("ports.title", device=side.device), description
    )


def _contents(side: Side, framed: Frame) -> tuple[tuple[Item, ...], float]:
    """What is drawn, and how far down it reaches."""
    area = framed.area.grown(-4.0)
    left, top = area.left_mm, area.top_mm
    placed = [(at, row) for at, row in enumerate(side.ports, 1) if row.place is not None]
    items: list[Item] = []
    for each in wrapped(f"{side.device}: {side.name}", NAME_MM, area.width_mm, lines=2, bold=True):
        items.append(Text(Point(left, top + NAME_MM), each, NAME_MM, bold=True))
        top += 5.5
    if placed:
        view = _view(side, [row for _, row in placed], area.width_mm)
        scale = number(view.scale)
        note = say("ports.scale", scale=scale) if side.outline_mm else say("ports.scale_alone", scale=scale)
        for each in wrapped(note, TEXT_MM, area.width_mm, lines=3):
            items.append(Text(Point(left, top + TEXT_MM), each, TEXT_MM))
            top += _ROW_MM
        top += 2.6
        drawn, top = _drawn(view, side, placed, Box(left, top, area.right_mm, area.bottom_mm))
        items += drawn
    rows, top = _rows(side.ports, Box(left, top + 3.0, area.right_mm, area.bottom_mm))
    return (*items, *rows), top + 3.0


class _View(NamedTuple):
    """What part of a device is drawn: from (x, y) at its lower left, so wide and high, at 1 to `scale`. `cut`
    where the device goes on above.
    """

    x_mm: float
    y_mm: float
    width_mm: float
    height_mm: float
    scale: float
    cut: bool


def _view(side: Side, rows: Sequence[PortRow], room_mm: float) -> _View:
    spots = [(spot, row.width_mm) for row in rows if (spot := row.place)]
    highest_mm = max(y for (_, y), _ in spots) + _AROUND_MM
    if side.outline_mm:
        x_mm = min(0.0, *(x for (x, _), _ in spots))
        right_mm = max(side.outline_mm[0], *(x + wide for (x, _), wide in spots))
        y_mm = min(0.0, *(y for (_, y), _ in spots))
        cut = highest_mm < side.outline_mm[1]
        high_mm = highest_mm if cut else max(side.outline_mm[1], highest_mm - _AROUND_MM)
    else:
        x_mm = min(x for (x, _), _ in spots) - _AROUND_MM / 2
        right_mm = max(x + wide for (x, _), wide in spots) + _AROUND_MM / 2
        y_mm, high_mm, cut = min(y for (_, y), _ in spots) - _AROUND_MM / 2, highest_mm, False
    wide_mm, tall_mm = right_mm - x_mm, high_mm - y_mm
    fits = (scale for scale in _SCALES if wide_mm / scale <= room_mm - 4 and tall_mm / scale <= _HIGH_MM)
    scale = next(fits, max(wide_mm / (room_mm - 4), tall_mm / _HIGH_MM))
    return _View(x_mm, y_mm, wide_mm, tall_mm, scale, cut)


def _drawn(
    view: _View, side: Side, placed: Sequence[tuple[int, PortRow]], room: Box
) -> tuple[list[Item], float]:
    """The device with its blocks, each with its number beside it."""
    left = room.left_mm + (room.width_mm - view.width_mm / view.scale) / 2
    bottom = room.top_mm + view.height_mm / view.scale + 1.0
    outline = Box(left, room.top_mm, left + view.width_mm / view.scale, bottom)
    items: list[Item] = list(_outline(outline, known=side.outline_mm is not None, cut=view.cut))
    boxes = {at: _block(view, outline, row) for at, row in placed}
    taken = [*boxes.values(), *_edges(outline)]
    for at, row in placed:
        items += _poles(view, boxes[at], row)
        number, leader = _numbered(
            str(at), boxes[at], taken, room._replace(bottom_mm=bottom + 2 * _NUMBER_MM)
        )
        items += [number, *leader]
        taken.append(number.box.grown(0.3))
    return items, max(item.box.bottom_mm for item in items)


def _edges(outline: Box) -> Iterator[Box]:
    """The strokes of the outline, which no number may lie on."""
    left, top, right, bottom = outline
    for box in (Box(left, top, right, top), Box(left, bottom, right, bottom), Box(left, top, left, bottom),
                Box(right, top, right, bottom)):  # fmt: skip
        yield box.grown(0.3)


def _numbered(words: str, box: Box, taken: Sequence[Box], room: Box) -> tuple[Text, tuple[Item, ...]]:
    """A number as near to its block as there is room, with a leader where it does not stand beside it."""
    half_wide = width_mm(words, TEXT_MM, bold=True) / 2
    for step in range(40):
        away = 1.2 + _NUMBER_MM / 2 * step
        for across, down in ((0, -1), (1, 0), (-1, 0), (0, 1), (1, -1), (-1, -1), (1, 1), (-1, 1)):
            middle = Point(
                box.middle.x_mm + across * (box.width_mm / 2 + away + half_wide),
                box.middle.y_mm + down * (box.height_mm / 2 + away + TEXT_MM / 2),
            )
            number = Text(middle, words, TEXT_MM, "middle", "middle", bold=True)
            start = Point(
                box.middle.x_mm + across * box.width_mm / 2, box.middle.y_mm + down * box.height_mm / 2
            )
            end = Point(middle.x_mm - across * (half_wide + 0.6), middle.y_mm - down * (TEXT_MM / 2 + 0.9))
            free = room.holds(number.box) and not any(number.box.meets(each) for each in taken)
            if free and (step == 0 or not any(cuts(start, end, each) for each in taken if each != box)):
                leader = (line(start, end, pen=FINE, layer="dimension"),) if step else ()
                return number, leader
    return Text(box.middle, words, TEXT_MM, "middle", "middle", bold=True), ()


def _outline(box: Box, *, known: bool, cut: bool) -> Iterator[Item]:
    """The device's edge, dashed where it is not known or goes on."""
    pen = MEDIUM if known else FINE.dash()
    sides = ((box.left_mm, box.top_mm), (box.left_mm, box.bottom_mm), (box.right_mm, box.bottom_mm),
             (box.right_mm, box.top_mm))  # fmt: skip
    yield line(*sides, pen=pen, layer="device")
    yield line(sides[0], sides[3], pen=FINE.dash() if cut else pen, layer="device")


def _block(view: _View, outline: Box, row: PortRow) -> Box:
    """A block around its poles; a small one is drawn larger than it is, so that it can be seen."""
    assert row.place is not None  # only placed ones are drawn
    x_mm, y_mm = row.place
    half = max(_LEAST_MM / 2, 5.0 / view.scale)
    x, y = (
        outline.left_mm + (x_mm - view.x_mm) / view.scale,
        outline.bottom_mm - (y_mm - view.y_mm) / view.scale,
    )
    return Box(x - half, y - 2 * half, x + row.width_mm / view.scale + half, y)


def _poles(view: _View, box: Box, row: PortRow) -> Iterator[Item]:
    yield Rectangle(box, MEDIUM if row.held else FINE.dash())
    poles = len(row.block.poles) * row.block.sets
    step = row.width_mm / view.scale / (poles - 1) if poles > 1 else 0.0
    if poles > 1 and step < 1.2:
        return
    half = min(box.height_mm, 5.0) / 2
    for at in range(poles):
        x = box.left_mm + (box.width_mm - step * (poles - 1)) / 2 + at * step
        yield Circle(Point(x, box.middle.y_mm), min(0.45 * max(step, 1.2), 0.6 * half), FINE)


def _rows(ports: Iterable[PortRow], room: Box) -> tuple[list[Item], float]:
    """Each port by its number: what it is and its poles from the left, and what lands on each."""
    items: list[Item] = []
    top = room.top_mm
    for at, row in enumerate(ports, 1):
        said = wrapped(_landing(row), TEXT_MM, room.width_mm - _HEAD_MM - 2, lines=_MOST_LINES)
        heads = wrapped(_heading(at, row), TEXT_MM, _HEAD_MM - 2, lines=3, bold=True)
        for below, words in enumerate(heads):
            base = Point(room.left_mm, top + TEXT_MM + below * _ROW_MM)
            items.append(Text(base, words, TEXT_MM, bold=True))
        for below, words in enumerate(said):
            items.append(
                Text(Point(room.left_mm + _HEAD_MM, top + TEXT_MM + below * _ROW_MM), words, TEXT_MM)
            )
        top += max(len(said), len(heads)) * _ROW_MM + _BETWEEN_MM
        items.append(line((room.left_mm, top), (room.right_mm, top), pen=FINE, layer="frame"))
        top += _BETWEEN_MM
    return items, top


def _heading(at: int, row: PortRow) -> str:
    kinds = {
        "screw": say("ports.screw"), "spring": say("ports.spring"), "stud": say("ports.stud"),
        "dc-plug": say("ports.dc_plug"), "ac-plug": say("ports.ac_plug"), "multi-pin": say("ports.multi_pin"),
        "rj45": say("ports.rj_plug"), "accessory": say("ports.accessory"), "aerial": say("ports.aerial"),
        "coupling": say("ports.coupling"),
    }  # fmt: skip
    return say("ports.head", at=str(at), port=row.port, kind=kinds[row.block.kind])


def _landing(row: PortRow) -> str:
    poles = ", ".join(row.block.poles)
    placed = "" if row.place is not None else say("ports.unplaced") + " "
    if not row.held:
        capped = row.block.kind not in TIGHTENED | {"spring"}
        return placed + (say("ports.empty", poles=poles) if capped else say("ports.spare", poles=poles))
    used = {pole for pole, _, _ in row.held}
    idle = [] if row.port == "way" else [
        pole for pole in row.block.poles if not any(each.partition(" ")[0] == pole for each in used)
    ]  # fmt: skip
    spare = " · " + say("ports.idle", poles=", ".join(idle)) if idle else ""
    return placed + say("ports.poles", poles=poles) + " " + _held(row) + spare


def _held(row: PortRow) -> str:
    """What lands there, by lead; where many leads meet at a bar, by pole."""
    by_pole = len({lead for _, lead, _ in row.held}) > len(row.block.poles) * row.block.sets
    groups: dict[str, list[str]] = {}
    for pole, lead, core in row.held:
        if row.port == "way":
            groups.setdefault(f"{pole.rpartition(' ')[0]}, {lead}", []).append(core)
        elif by_pole:
            groups.setdefault(pole, []).append(f"{lead} {core}")
        else:
            shown = core if core == pole else say("ports.core_on", core=core, pole=pole)
            groups.setdefault(lead, []).append(shown)
    return " · ".join(f"{of}: {', '.join(each)}" for of, each in groups.items())
