"""A pattern of holes on its sheets: the tiles at true size, and the small view before them.

Two tiles that touch overlap; each hole belongs to the one on whose side of the joining line it lies, and is
only hinted at on the other.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple, TypeAlias

from ferrule.layout.fixing import Point as Hole
from ferrule.layout.wall import Rectangle, WallFace, spot
from ferrule.sheets.frame import Frame
from ferrule.sheets.leaf import strip
from ferrule.sheets.legible import free
from ferrule.sheets.scene import (
    FINE,
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
    Line,
    Pen,
    Point,
    Polygon,
    Text,
    line,
)
from ferrule.sheets.scene import Rectangle as Outline
from ferrule.sheets.texts import say
from ferrule.sheets.words import shortened, wrapped

OVERLAP_MM = 8.0
CONTROL_MM = 100.0
"""The line to measure on each sheet before anything is drilled."""
MOST_TILES = 12
"""Beyond that, sheets without a hole are left out."""

_MARGIN_MM = 12.0  # around the outermost holes
_ARM_MM = 6.0
_LINE_MM, _HATCH_MM = 3.7, 6.0
_SCALES = (2, 2.5, 4, 5, 7.5, 10, 15, 20, 25, 40, 50, 75, 100)

Label: TypeAlias = tuple[Text, ...]
"""Words of one or more lines, in one place where they may stand."""


class Pattern(NamedTuple):
    """The holes of one device, or of the plate behind it, as a person sees them who faces the wall."""

    name: str
    face: WallFace
    outline: Rectangle
    clear: Rectangle | None
    holes: tuple[Hole, ...]
    hole_mm: float | None
    depth_mm: float | None


class Tile(NamedTuple):
    """One sheet of a pattern: what it shows of the wall, and what of that is its own."""

    row: int
    column: int
    shows: Rectangle
    own: Rectangle

    def has(self, hole: Hole) -> bool:
        return (
            self.own.left_mm <= hole.x_mm < self.own.right_mm
            and self.own.bottom_mm <= hole.y_mm < self.own.top_mm
        )

    def hints_at(self, hole: Hole) -> bool:
        return not self.has(hole) and hole.rectangle.within(self.shows)


def tiles_of(holes: Sequence[Hole], window: Box) -> list[Tile]:
    """The sheets of a window's size that hold all the holes, from the top left; the joining lines keep as far
    from the holes as they can.
    """
    columns = _cuts([hole.x_mm for hole in holes], window.width_mm)
    rows = _cuts([-hole.y_mm for hole in holes], window.height_mm)
    found = [
        Tile(
            row, column,
            Rectangle(across[0], -down[1], across[1], -down[0]),
            Rectangle(across[2], -down[3], across[3], -down[2]),
        )
        for row, down in enumerate(rows, start=1)
        for column, across in enumerate(columns, start=1)
    ]  # fmt: skip
    if len(found) > MOST_TILES:
        found = [tile for tile in found if any(tile.has(hole) for hole in holes)]
    return found


def _cuts(places: Sequence[float], size_mm: float) -> list[tuple[float, float, float, float]]:
    """Along one side: from where to where each sheet shows, and is its own."""
    low, high = min(places) - _MARGIN_MM, max(places) + _MARGIN_MM
    step = size_mm - OVERLAP_MM
    count = max(1, math.ceil((high - low - OVERLAP_MM) / step - 1e-9))
    slack = count * step + OVERLAP_MM - (high - low)

    def distance(shift: float) -> float:
        joins = [low - shift + at * step + OVERLAP_MM / 2 for at in range(1, count)]
        return min((abs(place - join) for place in places for join in joins), default=math.inf)

    # Of shifts that are as good, the one that leaves as much on both sides.
    shifts = [slack * share / 40 for share in range(41)]
    shift = max(shifts, key=lambda each: (min(distance(each), 20.0), -abs(each - slack / 2)))
    start = low - shift
    return [
        (
            start + at * step,
            start + at * step + size_mm,
            start + at * step + (OVERLAP_MM / 2 if at else -_MARGIN_MM),
            start + (at + 1) * step + (OVERLAP_MM / 2 if at < count - 1 else OVERLAP_MM + _MARGIN_MM),
        )
        for at in range(count)
    ]


# The tiles


def tile_items(frame: Frame, pattern: Pattern, tile: Tile, tiles: Sequence[Tile]) -> list[Item]:
    """The strokes first, then the words where they leave room."""
    window = frame.area.grown(-1.0)

    def at(x_mm: float, y_mm: float) -> Point:
        return Point(
            window.left_mm + x_mm - tile.shows.left_mm, window.bottom_mm - (y_mm - tile.shows.bottom_mm)
        )

    items: list[Item] = []
    about_holes: list[list[Label]] = []
    about_lines: list[list[Label]] = []
    for mark in _marks(pattern, tile, tiles):
        if ends := _clipped(mark.start, mark.end, tile.shows):
            start, end = at(*ends[0]), at(*ends[1])
            items.append(Line((start, end), mark.pen, mark.layer))
            about_lines.append(list(_along(start, end, mark.words)))
    for number, hole in enumerate(pattern.holes, start=1):
        if tile.has(hole):
            items += _cross(at(*hole), pattern.hole_mm, True, window)
            full = _beside(at(*hole), _said(number, hole, pattern))
            about_holes.append([*full, *_beside(at(*hole), (f"{number}",))])
        elif tile.hints_at(hole):
            items += _cross(at(*hole), pattern.hole_mm, False, window)
            about_lines.insert(0, list(_beside(at(*hole), (say("drilling.hinted", number=number),))))
    items += _written([*about_holes, *about_lines], items, window)
    services = _services(pattern, tile, at, items)
    return [*items, *services, *_foot(frame, tile, tiles)]


class Mark(NamedTuple):
    """A line on the wall, across or upright, and what it is."""

    start: tuple[float, float]
    end: tuple[float, float]
    words: str
    pen: Pen
    layer: Layer


def _marks(pattern: Pattern, tile: Tile, tiles: Sequence[Tile]) -> Iterator[Mark]:
    shows, own = tile.shows, tile.own
    level = max(hole.y_mm for hole in pattern.holes)
    plumb = min(hole.x_mm for hole in pattern.holes)
    words = say("drilling.level", mm=f"{level:.0f}")
    yield Mark((shows.left_mm, level), (shows.right_mm, level), words, FINE, "dimension")
    words = say("drilling.plumb", mm=f"{plumb:.0f}")
    yield Mark((plumb, shows.bottom_mm), (plumb, shows.top_mm), words, FINE, "dimension")
    yield from _sides(pattern.outline, say("drilling.outline", name=pattern.name), MEDIUM, "device")
    if pattern.clear and pattern.clear != pattern.outline:
        yield from _sides(pattern.clear, say("drilling.clear", name=pattern.name), FINE.dash(), "device")
    beside = {(each.row, each.column) for each in tiles}
    for row, column, start, end in (
        (tile.row, tile.column - 1, (own.left_mm, shows.bottom_mm), (own.left_mm, shows.top_mm)),
        (tile.row, tile.column + 1, (own.right_mm, shows.bottom_mm), (own.right_mm, shows.top_mm)),
        (tile.row - 1, tile.column, (shows.left_mm, own.top_mm), (shows.right_mm, own.top_mm)),
        (tile.row + 1, tile.column, (shows.left_mm, own.bottom_mm), (shows.right_mm, own.bottom_mm)),
    ):
        if (row, column) in beside:
            yield Mark(start, end, say("drilling.joins", row=row, column=column), FINE.dash(), "frame")


def _sides(rectangle: Rectangle, words: str, pen: Pen, layer: Layer) -> Iterator[Mark]:
    left, bottom, right, top = rectangle
    for start, end in (
        ((left, bottom), (right, bottom)), ((left, top), (right, top)),
        ((left, bottom), (left, top)), ((right, bottom), (right, top)),
    ):  # fmt: skip
        yield Mark(start, end, words, pen, layer)


def _clipped(
    start: tuple[float, float], end: tuple[float, float], to: Rectangle
) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """What of a line across or upright lies in a rectangle; nothing that lies on its edge."""
    (x, y), (x2, y2) = start, end
    left, right = max(min(x, x2), to.left_mm), min(max(x, x2), to.right_mm)
    bottom, top = max(min(y, y2), to.bottom_mm), min(max(y, y2), to.top_mm)
    if left > right or bottom > top or (left == right and bottom == top):
        return None
    return (left, bottom), (right, top)


def _cross(middle: Point, hole_mm: float | None, own: bool, window: Box) -> Iterator[Item]:
    """The middle of a hole and its edge; dashed where another sheet has it."""
    x, y = middle
    radius_mm = (hole_mm or 2.0) / 2
    arm_mm = radius_mm + _ARM_MM
    left, right = max(x - arm_mm, window.left_mm), min(x + arm_mm, window.right_mm)
    top, bottom = max(y - arm_mm, window.top_mm), min(y + arm_mm, window.bottom_mm)
    yield line((left, y), (right, y), pen=FINE, layer="device")
    yield line((x, top), (x, bottom), pen=FINE, layer="device")
    pen = MEDIUM if own and hole_mm else FINE.dash()
    circle = Circle(middle, radius_mm, pen, "device")
    if window.holds(circle.box):
        yield circle


def _said(number: int, hole: Hole, pattern: Pattern) -> tuple[str, ...]:
    size, depth = (f"{mm:g}" if mm else "?" for mm in (pattern.hole_mm, pattern.depth_mm))
    return (
        say("drilling.mark", number=number, hole=size, depth=depth),
        say("drilling.at", x=f"{hole.x_mm:.0f}", y=f"{hole.y_mm:.0f}"),
    )


def _beside(middle: Point, lines: Sequence[str]) -> Iterator[Label]:
    """At the four corners of a cross, near ones first."""
    x, y = middle
    for far in (1.6, 4.0, 8.0):
        for right, down in ((1, -1), (1, 1), (-1, -1), (-1, 1)):
            first = y + far + TEXT_MM if down > 0 else y - far - _LINE_MM * (len(lines) - 1)
            yield tuple(
                Text(
                    Point(x + right * far, first + _LINE_MM * at), words, TEXT_MM,
                    "start" if right > 0 else "end",
                )
                for at, words in enumerate(lines)
            )  # fmt: skip


def _along(start: Point, end: Point, words: str) -> Iterator[Label]:
    """Along a line, on either side of it, from its ends inwards."""
    upright = start.x_mm == end.x_mm
    length = abs(end.y_mm - start.y_mm) if upright else abs(end.x_mm - start.x_mm)
    shown = shortened(words, SMALL_MM, max(length - 6.0, 5.0))
    for share in (0.0, 0.25, 0.5, 0.7):
        for aside in (-1.0, 1.0 + SMALL_MM):
            if upright:
                foot = max(start.y_mm, end.y_mm) - 2.0 - share * length
                yield (Text(Point(start.x_mm + aside, foot), shown, SMALL_MM, upright=True),)
            else:
                head = min(start.x_mm, end.x_mm) + 2.0 + share * length
                yield (Text(Point(head, start.y_mm + aside), shown, SMALL_MM),)


def _written(choices: Sequence[Sequence[Label]], drawn: Sequence[Item], window: Box) -> list[Text]:
    """Each label in the first of its places that is free."""
    written: list[Text] = []
    for places in choices:
        for label in places:
            if all(
                window.holds(text.box) and free(text.box.grown(0.2), (*drawn, *written)) for text in label
            ):
                written += label
                break
    return written


def _services(
    pattern: Pattern, tile: Tile, at: Callable[[float, float], Point], drawn: Sequence[Item]
) -> Iterator[Item]:
    """Where hidden services run: hatched, as far as that leaves the words legible."""
    shows = tile.shows
    for each in pattern.face.wall.keep_clear:
        zone = spot(each)
        left, right = max(zone.left_mm, shows.left_mm), min(zone.right_mm, shows.right_mm)
        bottom, top = max(zone.bottom_mm, shows.bottom_mm), min(zone.top_mm, shows.top_mm)
        if left >= right or bottom >= top:
            continue
        up = bottom - (bottom % _HATCH_MM)
        while up < top + (right - left):
            # A stroke that rises to the left, from the right edge to the left one, cut off below and above.
            low, high = max(bottom, up - (right - left)), min(top, up)
            if low < high:
                stroke = Line(
                    (at(right - (low - (up - (right - left))), low), at(left + (up - high), high)),
                    FINE._replace(accent=True), "building",
                )  # fmt: skip
                if all(free(text.box, (stroke,)) for text in drawn if isinstance(text, Text)):
                    yield stroke
            up += _HATCH_MM


# What stands under each tile


def _foot(frame: Frame, tile: Tile, tiles: Sequence[Tile]) -> Iterator[Item]:
    box = strip(frame)
    left, y = box.left_mm + 8.0, box.top_mm + 9.0
    yield line((left, y), (left + CONTROL_MM, y), pen=FINE, layer="dimension")
    for x in (left, left + CONTROL_MM):
        yield line((x, y - 2.0), (x, y + 2.0), pen=FINE, layer="dimension")
    words = say("drilling.control", control=f"{CONTROL_MM:.0f}")
    yield Text(Point(left + CONTROL_MM / 2, y - 2.0), words, TEXT_MM, "middle")
    yield from _map(Point(left, y + 6.0), tile, tiles)
    rows, columns = max(each.row for each in tiles), max(each.column for each in tiles)
    x, room_mm = left + 34.0, box.right_mm - left - 36.0
    yield Text(
        Point(x, y + 9.0),
        say("drilling.numbered", row=tile.row, rows=rows, column=tile.column, columns=columns),
        NAME_MM, bold=True,
    )  # fmt: skip
    lines = (say("drilling.search_first"), say("drilling.template"))
    broken = [each for words in lines for each in wrapped(words, TEXT_MM, room_mm, lines=3)]
    for at, words in enumerate(broken):
        yield Text(Point(x, y + 15.0 + 3.8 * at), words, TEXT_MM)


def _map(corner: Point, tile: Tile, tiles: Sequence[Tile]) -> Iterator[Item]:
    """All the sheets of the pattern as they lie, this one filled."""
    rows, columns = max(each.row for each in tiles), max(each.column for each in tiles)
    step = min(5.0, 28.0 / max(rows, columns))
    for each in tiles:
        left, top = corner.x_mm + (each.column - 1) * step, corner.y_mm + (each.row - 1) * step
        box = Box(left, top, left + step, top + step)
        yield Outline(box, FINE, "frame")
        if each == tile:
            inner = box.grown(-step / 5)
            yield Polygon(
                (
                    Point(inner.left_mm, inner.top_mm), Point(inner.right_mm, inner.top_mm),
                    Point(inner.right_mm, inner.bottom_mm), Point(inner.left_mm, inner.bottom_mm),
                ),
                "frame",
            )  # fmt: skip


# The small view


def view_items(area: Box, pattern: Pattern, tiles: Sequence[Tile]) -> Iterator[Item]:
    """What to tick before drilling, then device, holes and sheets in small."""
    y = area.top_mm + 4.0
    for words in (say("drilling.tick_search"), say("drilling.tick_template"), say("drilling.tick_control")):
        yield Outline(Box(area.left_mm, y - 3.5, area.left_mm + 5.0, y + 1.5), MEDIUM, "frame")
        shown = shortened(words, NAME_MM, area.width_mm - 10.0)
        yield Text(Point(area.left_mm + 8.0, y + 0.9), shown, NAME_MM)
        y += 8.0
    if pattern.holes:
        yield from _small(area._replace(top_mm=y + 2.0), pattern, tiles)


def _small(area: Box, pattern: Pattern, tiles: Sequence[Tile]) -> Iterator[Item]:
    whole = _around(
        [pattern.outline, *([pattern.clear] if pattern.clear else []), *(each.shows for each in tiles)]
    )
    drawing = area._replace(top_mm=area.top_mm + 6.0).grown(-4.0)
    scale = next(
        (
            each for each in _SCALES
            if whole.width_mm <= each * drawing.width_mm and whole.height_mm <= each * drawing.height_mm
        ),
        max(whole.width_mm / drawing.width_mm, whole.height_mm / drawing.height_mm),
    )  # fmt: skip
    left = drawing.middle.x_mm - whole.width_mm / scale / 2

    def box(each: Rectangle) -> Box:
        sides = (left + (mm - whole.left_mm) / scale for mm in (each.left_mm, each.right_mm))
        levels = (drawing.top_mm + (whole.top_mm - mm) / scale for mm in (each.top_mm, each.bottom_mm))
        (x, x2), (y, y2) = sides, levels
        return Box(x, y, x2, y2)

    items: list[Item] = [Outline(box(pattern.outline), HEAVY, "device")]
    if pattern.clear and pattern.clear != pattern.outline:
        items.append(Outline(box(pattern.clear), FINE.dash(), "device"))
    items += [Outline(box(each.shows), FINE.dash(), "frame") for each in tiles]
    choices: list[list[Label]] = []
    for number, hole in enumerate(pattern.holes, start=1):
        middle = box(hole.rectangle).middle
        items += _small_cross(middle)
        choices.append(list(_beside(middle, (f"{number}",))))
    for each in tiles:
        shown = box(each.shows)
        words = say("drilling.numbered_short", row=each.row, column=each.column)
        choices.append([
            (Text(Point(x, y), words, SMALL_MM, anchor),)
            for y in (shown.top_mm + 3.5, shown.bottom_mm - 1.5, shown.middle.y_mm)
            for x, anchor in _three(shown)
        ])  # fmt: skip
    yield from items
    yield from _written(choices, items, area)
    name = shortened(pattern.name, TEXT_MM, area.width_mm - 40.0, bold=True)
    yield Text(Point(area.left_mm, area.top_mm + TEXT_MM), name, TEXT_MM, bold=True)
    shown_scale = say("drilling.scale", scale=f"{scale:g}" if scale in _SCALES else f"{scale:.0f}")
    yield Text(Point(area.right_mm, area.top_mm + TEXT_MM), shown_scale, TEXT_MM, "end")


def _three(box: Box) -> tuple[tuple[float, Anchor], ...]:
    return (box.right_mm - 1.5, "end"), (box.left_mm + 1.5, "start"), (box.middle.x_mm, "middle")


def _small_cross(middle: Point) -> tuple[Line, Line]:
    x, y = middle
    return (
        line((x - 1.5, y), (x + 1.5, y), pen=MEDIUM, layer="device"),
        line((x, y - 1.5), (x, y + 1.5), pen=MEDIUM, layer="device"),
    )


def _around(all_of: Sequence[Rectangle]) -> Rectangle:
    lefts, bottoms, rights, tops = zip(*all_of, strict=True)
    return Rectangle(min(lefts), min(bottoms), max(rights), max(tops))
