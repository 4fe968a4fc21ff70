"""The string plan: the modules of each block to scale, numbered in the order of their strings.

The job says how many modules a string has, not which: the order drawn here is a proposal. Strings that fill
whole columns run through them in rows, there and back, and come down to the eaves with both ends beside each
other; where any string of a block does not, all of them run up one column and down the next.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from ferrule.answering import Answer
from ferrule.clauses.procedures import Unasked
from ferrule.fact import Missing, Unknown, known
from ferrule.job.roof import Block
from ferrule.layout import roof as layout
from ferrule.layout.roof import Laid
from ferrule.parts import Module
from ferrule.sheets.frame import Frame
from ferrule.sheets.leaf import ACROSS, Leaf, room, scenes
from ferrule.sheets.legible import free
from ferrule.sheets.said import CHOSEN, Said
from ferrule.sheets.scene import (
    FINE,
    MEDIUM,
    SMALL_MM,
    TEXT_MM,
    Box,
    Circle,
    Item,
    Line,
    Point,
    Polygon,
    Rectangle,
    Scene,
    Text,
    line,
)
from ferrule.sheets.schedule import Row
from ferrule.sheets.texts import say
from ferrule.sheets.words import shortened, width_mm

SCALES = (20, 25, 40, 50, 75, 100, 125, 150, 200, 250, 300, 400, 500, 750, 1000)

_HOME_MM = 17.0
"""Room under a block for the ends of its strings."""
_BACK_MM, _END_MM, _PAIR_MM = 3.0, 7.0, 2.4
"""How far under a block a way home runs back, and ends; how far apart its two leads go."""
_HEAD_MM = 8.0
_WRITING_MM = 6.0
_INSET_MM = 0.8  # on each side of a module, so that a lead can be drawn between two


class Cell(NamedTuple):
    """Where a module lies in its block: the column from the left, the row from the eaves."""

    column: int
    row: int


class Piece(NamedTuple):
    """As much of a string as lies on one block, in series order; `first` is the number of its first module.
    `rows` says whether it runs in rows, there and back; else it goes up one column and down the next.
    """

    string: str
    first: int
    of: int
    cells: tuple[Cell, ...]
    rows: bool

    @property
    def begins(self) -> bool:
        return self.first == 1

    @property
    def ends(self) -> bool:
        return self.first + len(self.cells) - 1 == self.of


class View(NamedTuple):
    """A block on its page: where its lower left corner lies, and how large a module and a gap are there."""

    left_mm: float
    bottom_mm: float
    across_mm: float
    up_mm: float
    gap_mm: float
    scale: int

    def module(self, cell: Cell) -> Box:
        left = self.left_mm + cell.column * (self.across_mm + self.gap_mm)
        bottom = self.bottom_mm - cell.row * (self.up_mm + self.gap_mm)
        return Box(left, bottom - self.up_mm, left + self.across_mm, bottom).grown(-_INSET_MM)


def string_plan(result: Answer) -> tuple[Scene, ...]:
    """One sheet for each block of each face with a string on it."""
    frame = room(result, ACROSS)
    used = dict.fromkeys(string.face for string in result.design.house.job.strings)
    leaves = [leaf for face in used for leaf in _face(result, frame, face)]
    return scenes(result, say("string_plan.title"), ACROSS, leaves)


def _face(result: Answer, frame: Frame, face: str) -> Iterator[Leaf]:
    """The sheets of a face; one of words alone where it cannot be drawn yet."""
    design = result.design
    try:
        blocks, module = design.house.blocks(face), design.house.module_on(face)
        gap_mm = known(design.house.mount(face).gap_mm)
        layout.module_mm(blocks[0], module)
        counts = {each.id: design.modules(each.id) for each in design.house.job.strings if each.face == face}
    except Missing as missing:
        notes = tuple(say("string_plan.find_out", ask=ask) for ask in missing.asks)
        yield Leaf(face, (), notes)
        return
    pieces, asked = proposal(blocks, counts), sum(counts.values())
    there = sum(block.rows * block.columns for block in blocks)
    odd = [say("string_plan.spare", count=there - asked)] if there > asked else []
    odd += [say("string_plan.short", count=asked - there)] if asked > there else []
    laid, asks = _laid(result, face)
    said = Said(result)
    homes = {row.start: row for row in said.leads.values() if row.start in counts}
    inputs = {each.id: each.input for each in design.house.job.strings}
    for block in blocks:
        view = _view(frame, block, module, gap_mm)
        here = pieces[block.id]
        strings = list(_strings(said, here, homes))
        starred = [say("drawn.starred")] if any(CHOSEN in each for each in strings) else []
        notes = (
            say("string_plan.proposal"), *strings, *odd, _order(block, here),
            say("string_plan.pair"), say("string_plan.live"), *_place(face, block),
            *_rails(laid.get(block.id)), *starred, *asks,
        )  # fmt: skip
        items = [
            *_modules(view, block, here),
            *_supports(view, laid.get(block.id), block),
            *(each for piece in here for each in _series(view, block, piece, inputs[piece.string])),
            *_around(frame, view, face, block),
        ]
        items += _signs_within(view, block, here, items)
        described = say(
            "string_plan.description", block=block.id, face=face, rows=block.rows, columns=block.columns
        )
        yield Leaf(face, tuple(items), notes, described)


# Which module is whose


def proposal(blocks: Sequence[Block], counts: Mapping[str, int]) -> dict[str, list[Piece]]:
    """The modules of each block, shared out to the strings in the order of the job, from the left."""
    waiting = [(string, 1, count) for string, count in counts.items()]
    found: dict[str, list[Piece]] = {}
    for block in blocks:
        cells = list(_up_and_down(block))
        shares: list[tuple[str, int, list[Cell]]] = []
        while cells and waiting:
            string, first, count = waiting.pop(0)
            taken, cells = cells[:count], cells[count:]
            shares.append((string, first, taken))
            if len(taken) < count:
                waiting.insert(0, (string, first + len(taken), count - len(taken)))
        rows = all(len(taken) % block.rows == 0 for _, _, taken in shares)
        found[block.id] = [
            Piece(string, first, counts[string], tuple(there_and_back(taken) if rows else taken), rows)
            for string, first, taken in shares
        ]
    return found


def _up_and_down(block: Block) -> Iterator[Cell]:
    for column in range(block.columns):
        rows = range(block.rows)
        yield from (Cell(column, row) for row in (reversed(rows) if column % 2 else rows))


def there_and_back(cells: Sequence[Cell]) -> Iterator[Cell]:
    """Row by row from the eaves up, the first from the left, the next from the right."""
    for row in sorted({cell.row for cell in cells}):
        yield from sorted((cell for cell in cells if cell.row == row), reverse=bool(row % 2))


# What is said


def _strings(said: Said, pieces: Sequence[Piece], homes: Mapping[str, Row]) -> Iterator[str]:
    for piece in pieces:
        home = homes.get(piece.string)
        cable = " ".join(said.cable(home.lead)) if home else "?"
        words = {
            "string": piece.string, "count": piece.of, "cable": cable,
            "first": f"{piece.string}-{piece.first}",
            "last": f"{piece.string}-{piece.first + len(piece.cells) - 1}",
            "to": _to(home),
        }  # fmt: skip
        whole = piece.begins and piece.ends
        yield say("string_plan.string", **words) if whole else say("string_plan.string_parted", **words)


def _to(home: Row | None) -> str:
    """Where the cable of a string lands: on the input, or on the enclosure before it."""
    if home is None or not home.conductors:
        return "?"
    return home.conductors[0].end.rpartition(" ")[0]


def _order(block: Block, pieces: Sequence[Piece]) -> str:
    if block.rows == 1:
        return say("string_plan.order_one")
    if not all(piece.rows for piece in pieces):
        return say("string_plan.order_columns")
    return say("string_plan.order_odd") if block.rows % 2 else say("string_plan.order_rows")


def _place(face: str, block: Block) -> Iterator[str]:
    try:
        left_mm, bottom_mm = known(block.left_mm), known(block.bottom_mm)
    except Missing as missing:
        yield say("string_plan.find_out", ask="; ".join(missing.asks))
        return
    yield say(
        "string_plan.place", block=block.id, face=face, left=f"{left_mm:.0f}", bottom=f"{bottom_mm:.0f}"
    )


def _rails(laid: Laid | None) -> Iterator[str]:
    if laid and laid.rails:
        places = ", ".join(f"{mm:.0f}" for mm in laid.rails[0].hooks_mm)
        yield say("string_plan.rails", count=laid.parts.hooks, places=places)


def _laid(result: Answer, face: str) -> tuple[dict[str, Laid], list[str]]:
    """The rails of each block; none, and what to find out, where nobody knows them yet."""
    try:
        return {each.block: each for each in result.design.laid(face)}, []
    except Missing as missing:
        return {}, [say("string_plan.find_out", ask=ask) for ask in missing.asks]
    except Unasked:
        return {}, []


# What is drawn


def _view(frame: Frame, block: Block, module: Module, gap_mm: float) -> View:
    """The block as large as a usual scale allows, in the middle of what is free."""
    across_mm, up_mm = layout.module_mm(block, module)
    width_mm = block.columns * (across_mm + gap_mm) - gap_mm
    height_mm = block.rows * (up_mm + gap_mm) - gap_mm
    area = frame.area.grown(-4.0)
    high_mm = area.height_mm - _HOME_MM - _HEAD_MM
    scale = next(each for each in SCALES if width_mm <= each * area.width_mm and height_mm <= each * high_mm)
    return View(
        area.middle.x_mm - width_mm / scale / 2,
        area.top_mm + _HEAD_MM + (high_mm + height_mm / scale) / 2,
        across_mm / scale, up_mm / scale, gap_mm / scale, scale,
    )  # fmt: skip


def _around(frame: Frame, view: View, face: str, block: Block) -> Iterator[Item]:
    """What the sheet shows and at what scale, and where the eaves are."""
    area = frame.area.grown(-4.0)
    scale = say("string_plan.scale", scale=view.scale)
    used_mm = width_mm(scale, TEXT_MM)
    name = shortened(f"{face}, {block.id}", TEXT_MM, area.width_mm - used_mm - 6.0, bold=True)
    yield Text(Point(area.left_mm, area.top_mm + TEXT_MM), name, TEXT_MM, bold=True)
    yield Text(Point(area.right_mm, area.top_mm + TEXT_MM), scale, TEXT_MM, "end")
    y = area.bottom_mm - 1.0
    yield line((area.left_mm, y), (area.right_mm, y), pen=FINE, layer="building")
    yield Text(Point(area.left_mm, y - 1.0), say("string_plan.eaves"), SMALL_MM)


def _modules(view: View, block: Block, pieces: Sequence[Piece]) -> Iterator[Item]:
    """Every module with its number: whole where there is room for it beside the lines, else without the name
    of its string.
    """
    numbers = {
        cell: (piece.string, piece.first + at) for piece in pieces for at, cell in enumerate(piece.cells)
    }
    for row in range(block.rows):
        for column in range(block.columns):
            cell = Cell(column, row)
            box = view.module(cell)
            yield Rectangle(box, MEDIUM)
            if cell in numbers:
                yield from _number(view, block, box, *numbers[cell])


def _number(view: View, block: Block, box: Box, string: str, number: int) -> Iterator[Text]:
    room_mm = box.width_mm - 2 * _turn_mm(view) - 2.4
    at = Point(box.middle.x_mm, _zone(view, block, box)[0] + SMALL_MM)
    level = _level(view, block, box)
    for words, height_mm in (
        (f"{string}-{number}", TEXT_MM), (f"{string}-{number}", SMALL_MM), (f"{number}", SMALL_MM),
    ):  # fmt: skip
        text = Text(at, words, height_mm, "middle", "middle")
        if text.box.width_mm <= room_mm and text.box.bottom_mm < level - 0.3:
            yield text
            return


def _turn_mm(view: View) -> float:
    """How far inside a module's edge its string turns to the next row."""
    return max(0.1 * view.across_mm, _PAIR_MM - _INSET_MM)


def _zone(view: View, block: Block, box: Box) -> tuple[float, float]:
    """The heights between which number and string lie, clear of the rails."""
    bottom = box.bottom_mm + _INSET_MM
    if between := _between_rails(view, block):
        return bottom - between[1] + 1.0, bottom - between[0] - 1.0
    return box.top_mm + 1.0, box.bottom_mm - 1.0


def _level(view: View, block: Block, box: Box) -> float:
    """The height at which a string passes a module: under its number."""
    top, bottom = _zone(view, block, box)
    return max(bottom - 0.3 * (bottom - top), min(top + 2.5 * SMALL_MM, bottom))


def _between_rails(view: View, block: Block) -> tuple[float, float] | None:
    """The heights of the rails of a row, on paper; None where they are unknown or leave no room to write."""
    low_mm, high_mm = block.low_rail_mm, block.high_rail_mm
    if isinstance(low_mm, Unknown) or isinstance(high_mm, Unknown):
        return None
    low, high = sorted((low_mm / view.scale, high_mm / view.scale))
    return (low, high) if high - low >= _WRITING_MM and high <= view.up_mm else None


def _supports(view: View, laid: Laid | None, block: Block) -> Iterator[Item]:
    if laid is None or _between_rails(view, block) is None:
        return
    for rail in laid.rails:
        y = view.bottom_mm - (rail.height_mm - laid.outline.bottom_mm) / view.scale
        ends = [
            view.left_mm + (mm - laid.outline.left_mm) / view.scale for mm in (rail.left_mm, rail.right_mm)
        ]
        yield line((ends[0], y), (ends[1], y), pen=FINE, layer="building")
        for mm in rail.hooks_mm:
            x = view.left_mm + (mm - laid.outline.left_mm) / view.scale
            yield Circle(Point(x, y), 0.8, FINE, "building")


def _series(view: View, block: Block, piece: Piece, to: str) -> Iterator[Item]:
    """The string as one line from its first module to its last, with its ends."""
    boxes = [view.module(cell) for cell in piece.cells]
    levels = [_level(view, block, box) for box in boxes]
    label = say("string_plan.way_home", string=piece.string, to=to)
    if piece.rows:
        yield from _in_rows(view, piece, boxes, levels, label)
    else:
        points = _up_and_down_line(view, boxes, levels)
        yield Line(points)
        yield from (Circle(point, 0.7, MEDIUM, "conductor", filled=True) for point in (points[0], points[-1]))


def _in_rows(
    view: View, piece: Piece, boxes: Sequence[Box], levels: Sequence[float], label: str
) -> Iterator[Item]:
    """Both ends come down to the eaves, + on the inside. With an even number of rows the string ends above
    its beginning and comes down on the left of it; with an odd one it comes back under its lowest row.
    """
    plus, end = boxes[0].left_mm + _turn_mm(view), view.bottom_mm + _END_MM
    points = (Point(plus, levels[0]), *_turns(view, piece, boxes, levels))
    if piece.cells[-1].row % 2:
        minus = boxes[0].left_mm - _INSET_MM
        tail: tuple[Point, ...] = (Point(minus, levels[-1]), Point(minus, end))
    else:
        minus, corridor = plus + _PAIR_MM, boxes[-1].right_mm + _INSET_MM
        back = view.bottom_mm + _BACK_MM
        tail = (Point(corridor, levels[-1]), Point(corridor, back), Point(minus, back), Point(minus, end))
    yield Line((*points, *tail))
    yield Line((points[0], Point(plus, end)))
    first, last = _signs(piece)
    for x, sign, other in ((plus, first, minus), (minus, last, plus)):
        yield Polygon((Point(x, end + 1.6), Point(x - 0.6, end), Point(x + 0.6, end)), "conductor")
        at = Point(x + (0.6 if x < other else -0.6), end + 4.8)
        yield Text(at, sign, TEXT_MM, "end" if x < other else "start", bold=True)
    columns = len(piece.cells) / len({cell.row for cell in piece.cells})
    room_mm = columns * (view.across_mm + view.gap_mm) - 2.0
    left = boxes[0].left_mm - _INSET_MM - 1.0
    yield Text(Point(left, end + 8.4), shortened(label, SMALL_MM, room_mm), SMALL_MM)


def _signs(piece: Piece) -> tuple[str, str]:
    """What stands at the two ends of a piece; where it goes on over another block, that it does."""
    return ("+" if piece.begins else "…"), ("−" if piece.ends else "…")


def _up_and_down_line(view: View, boxes: Sequence[Box], levels: Sequence[float]) -> tuple[Point, ...]:
    points = [Point(box.right_mm - _turn_mm(view), level) for box, level in zip(boxes, levels, strict=True)]
    return (*points, Point(points[0].x_mm, levels[0] - 1.0)) if len(points) == 1 else tuple(points)


def _signs_within(view: View, block: Block, pieces: Sequence[Piece], drawn: Sequence[Item]) -> Iterator[Text]:
    """The signs of strings that run up and down stand in their modules, wherever there is room."""
    for piece in (each for each in pieces if not each.rows):
        for cell, sign in zip((piece.cells[0], piece.cells[-1]), _signs(piece), strict=True):
            box = view.module(cell)
            x, level = box.right_mm - _turn_mm(view), _level(view, block, box)
            places = [
                Text(Point(x - aside, level + down), sign, TEXT_MM, "end", "middle", bold=True)
                for aside in range(1, int(box.width_mm))
                for down in range(-int(box.height_mm), int(box.height_mm))
            ]
            places.sort(key=lambda each: abs(each.at.x_mm - x) + abs(each.at.y_mm - level))
            found = next((each for each in places if box.holds(each.box) and free(each.box, drawn)), None)
            if found:
                yield found


def _turns(view: View, piece: Piece, boxes: Sequence[Box], levels: Sequence[float]) -> Iterator[Point]:
    """Where a string turns from one row to the next, by turns at its right and at its left."""
    turn, right = _turn_mm(view), True
    for at in range(1, len(boxes)):
        if piece.cells[at].row != piece.cells[at - 1].row:
            pair = boxes[at - 1], boxes[at]
            x = (
                max(box.right_mm for box in pair) - turn if right
                else min(box.left_mm for box in pair) + turn
            )  # fmt: skip
            yield Point(x, levels[at - 1])
            yield Point(x, levels[at])
            right = not right
