"""What a reader would stumble over on a page, as data: every drawing has none of it."""

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations, pairwise, permutations
from typing import Literal, NamedTuple, TypeAlias

from ferrule.sheets.scene import (
    SMALL_MM,
    Arc,
    Box,
    Circle,
    Item,
    Line,
    Point,
    Polygon,
    Rectangle,
    Scene,
    Text,
)

Kind = Literal["text over text", "line through text", "outside", "small text", "line upon line", "no dot"]
Stretch: TypeAlias = tuple[Point, Point]

WIRES = ("conductor", "protective", "signal")
"""Layers on which a stroke is a conductor, so that two of them along each other would read as one."""

_CELL_MM = 10.0
_TOUCH_MM = 0.1  # that much of an overlap is what a printer does anyhow


class Fault(NamedTuple):
    """One thing that is hard to read: what, of which words (or layers), and where on the page."""

    kind: Kind
    of: tuple[str, ...]
    where: Box


class Crossings(NamedTuple):
    """How often conductors cross; needless are those of two that cross each other more than once."""

    total: int
    needless: int


def faults(scene: Scene, *, within: Box | None = None, least_mm: float = SMALL_MM) -> tuple[Fault, ...]:
    """Every fault of a page. `within` is what everything has to stay inside of, the page where none is given;
    `least_mm` the lowest capitals that may be used.
    """
    texts = [(item, item.box) for item in scene.items if isinstance(item, Text) and item.shown]
    cells = _cells(texts)
    bounds = within or scene.page
    return (
        *(_outside(scene.items, bounds)),
        *(Fault("small text", (text.shown,), box) for text, box in texts if text.height_mm < least_mm - 1e-9),
        *(_over(cells)),
        *(_through(scene.items, cells)),
        *(_upon(scene.items)),
        *(_undotted(scene.items)),
    )


def crossings(scene: Scene) -> Crossings:
    """Crossings of the conductors on a page. Two that lie in different polylines count as two conductors."""
    wires = [item for item in scene.items if isinstance(item, Line) and item.layer in WIRES]
    counts = [
        sum(_cross(one, other) for one in pairwise(first.points) for other in pairwise(second.points))
        for first, second in combinations(wires, 2)
        if first.box.grown(_TOUCH_MM).meets(second.box)
    ]
    return Crossings(sum(counts), sum(2 * (count // 2) for count in counts))


def free(box: Box, items: Iterable[Item]) -> bool:
    """Nothing runs through a box and no words lie in it, so that words may be put there."""
    return not any(_takes(item, box) for item in items)


def _takes(item: Item, box: Box) -> bool:
    if not item.box.grown(_TOUCH_MM).meets(box):
        return False
    if isinstance(item, Text | Polygon) or (isinstance(item, Circle) and item.filled):
        return True
    return any(cuts(start, end, box) for start, end in _strokes(item))


Cells: TypeAlias = dict[tuple[int, int], list[tuple[int, Text, Box]]]


def _cells(texts: Iterable[tuple[Text, Box]]) -> Cells:
    """Texts by the squares of the page that they touch, so that each is only held against its neighbours."""
    cells: Cells = {}
    for at, (text, box) in enumerate(texts):
        shrunk = box.grown(-_TOUCH_MM)
        for cell in _squares(shrunk):
            cells.setdefault(cell, []).append((at, text, shrunk))
    return cells


def _squares(box: Box) -> Iterator[tuple[int, int]]:
    for column in range(int(box.left_mm // _CELL_MM), int(box.right_mm // _CELL_MM) + 1):
        for row in range(int(box.top_mm // _CELL_MM), int(box.bottom_mm // _CELL_MM) + 1):
            yield column, row


def _outside(items: Iterable[Item], bounds: Box) -> Iterator[Fault]:
    for item in items:
        if not bounds.holds(item.box):
            yield Fault("outside", (item.shown if isinstance(item, Text) else item.layer,), item.box)


def _over(cells: Cells) -> list[Fault]:
    found = {
        (at, other_at): Fault("text over text", (text.shown, other.shown), box)
        for inhabitants in cells.values()
        for (at, text, box), (other_at, other, other_box) in combinations(inhabitants, 2)
        if box.meets(other_box)
    }
    return [found[key] for key in sorted(found)]


def _through(items: Iterable[Item], cells: Cells) -> list[Fault]:
    found = {}
    for at, item in enumerate(items):
        for start, end in _strokes(item):
            for cell in _squares(_of(start, end)):
                for text_at, text, box in cells.get(cell, ()):
                    if cuts(start, end, box):
                        found[at, text_at] = Fault("line through text", (text.shown,), box)
        if isinstance(item, Polygon) or (isinstance(item, Circle) and item.filled):
            for cell in _squares(item.box):
                for text_at, text, box in cells.get(cell, ()):
                    if item.box.meets(box):
                        found[at, text_at] = Fault("line through text", (text.shown,), box)
    return [found[key] for key in sorted(found)]


def _strokes(item: Item) -> Iterator[Stretch]:
    """The straight stretches of what is drawn, curves by their chords."""
    match item:
        case Line():
            yield from pairwise(item.points)
        case Rectangle():
            left, top, right, bottom = item.box
            corners = (Point(left, top), Point(right, top), Point(right, bottom), Point(left, bottom))
            yield from pairwise((*corners, corners[0]))
        case Circle():
            yield from pairwise(Arc(item.middle, item.radius_mm, 0, 360).chords)
        case Arc():
            yield from pairwise(item.chords)
        case Polygon():
            yield from pairwise((*item.points, item.points[0]))


def _upon(items: Iterable[Item]) -> Iterator[Fault]:
    """Conductors that run along each other on one line."""
    on_line: dict[tuple[bool, float], list[tuple[float, float, str, Box]]] = {}
    for item in items:
        if isinstance(item, Line) and item.layer in WIRES:
            for (x1, y1), (x2, y2) in pairwise(item.points):
                if x1 == x2 or y1 == y2:
                    upright = x1 == x2
                    low, high = sorted((y1, y2) if upright else (x1, x2))
                    box = _of(Point(x1, y1), Point(x2, y2))
                    key = upright, round(x1 if upright else y1, 3)
                    on_line.setdefault(key, []).append((low, high, item.layer, box))
    for key in sorted(on_line):
        reach, layer_before = -math.inf, ""
        for low, high, layer, box in sorted(on_line[key]):
            if low < reach - _TOUCH_MM:
                yield Fault("line upon line", (layer_before, layer), box)
            if high > reach:
                reach, layer_before = high, layer


def _undotted(items: Sequence[Item]) -> Iterator[Fault]:
    """A conductor that ends or bends on another one where no dot says that they are joined."""
    wires = [item for item in items if isinstance(item, Line) and item.layer in WIRES]
    dots = {_rounded(item.middle) for item in items if isinstance(item, Circle) and item.filled}
    for wire, other in permutations(wires, 2):
        if not wire.box.grown(_TOUCH_MM).meets(other.box.grown(_TOUCH_MM)):
            continue
        for point in wire.points:
            on_it = any(_within(point, *stretch) for stretch in pairwise(other.points))
            if on_it and _rounded(point) not in dots:
                yield Fault("no dot", (wire.layer, other.layer), Box(*point, *point))


def _rounded(at: Point) -> tuple[float, float]:
    return round(at[0], 3), round(at[1], 3)


def _within(at: Point, start: Point, end: Point) -> bool:
    """A point lies on a stretch, not at its ends."""
    (x, y), (dx, dy) = (at[0] - start[0], at[1] - start[1]), (end[0] - start[0], end[1] - start[1])
    share, long2 = x * dx + y * dy, dx * dx + dy * dy
    return 1e-6 < share < long2 - 1e-6 and abs(x * dy - y * dx) < 1e-6 * max(long2, 1.0)


def _of(start: Point, end: Point) -> Box:
    return Box(min(start[0], end[0]), min(start[1], end[1]), max(start[0], end[0]), max(start[1], end[1]))


def cuts(start: Point, end: Point, box: Box) -> bool:
    """A stretch has a part inside a box (clipped side by side, after Liang and Barsky)."""
    (x, y), (dx, dy) = start, (end[0] - start[0], end[1] - start[1])
    enter, leave = 0.0, 1.0
    for step, room in (
        (-dx, x - box.left_mm),
        (dx, box.right_mm - x),
        (-dy, y - box.top_mm),
        (dy, box.bottom_mm - y),
    ):
        if step == 0:
            if room <= 0:
                return False
        elif step < 0:
            enter = max(enter, room / step)
        else:
            leave = min(leave, room / step)
    return enter < leave


def _cross(one: Stretch, other: Stretch) -> bool:
    """Two stretches go through each other; one that ends on the other is a joint."""
    return _sides(one, other) and _sides(other, one)


def _sides(line: Stretch, ends: Stretch) -> bool:
    """The two ends lie on different sides of a line, neither on it."""
    (x, y), (x2, y2) = line
    first, second = ((x2 - x) * (py - y) - (y2 - y) * (px - x) for px, py in ends)
    return first * second < -1e-9
