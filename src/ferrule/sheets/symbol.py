"""A symbol: what to draw around (0, 0), and the named points where conductors meet it."""

from collections.abc import Mapping
from typing import NamedTuple

from ferrule.sheets.scene import (
    GRID_MM,
    NAME_MM,
    SMALL_MM,
    Anchor,
    Box,
    Facing,
    Item,
    Placing,
    Point,
    Rectangle,
    Text,
)
from ferrule.sheets.words import plain, width_mm


class Port(NamedTuple):
    """Where a conductor meets a symbol, and which way it leaves."""

    at: Point
    facing: Facing


class Symbol(NamedTuple):
    """Drawn things with their ports. `box` is what nothing else should run through."""

    items: tuple[Item, ...]
    ports: Mapping[str, Port]
    box: Box

    def placed(self, x_mm: float, y_mm: float, quarters: int = 0) -> "Symbol":
        """The same, turned clockwise by quarters, then moved. Only what has no names of its own is turned."""
        placing = Placing(x_mm, y_mm, quarters)
        return Symbol(
            tuple(item.placed(placing) for item in self.items),
            {
                name: Port(placing.point(at), placing.facing(facing))
                for name, (at, facing) in self.ports.items()
            },
            Rectangle(self.box).placed(placing).box,
        )

    def named(self, *lines: str, height_mm: float = NAME_MM) -> "Symbol":
        """With words to the right of it, the first in the height given, the others small. A symbol is turned
        and placed first.
        """
        x, y = self.box.right_mm + 1.5, self.box.middle.y_mm
        heights = [height_mm, *(SMALL_MM for _ in lines[1:])]
        pitch_mm = [1.6 * each for each in heights]
        top = y - sum(pitch_mm) / 2
        texts = tuple(
            Text(Point(x, top + sum(pitch_mm[:at]) + pitch_mm[at] / 2), words, heights[at], level="middle")
            for at, words in enumerate(lines)
        )
        return self._replace(items=(*self.items, *texts), box=around(self.box, *(each.box for each in texts)))


def around(*boxes: Box) -> Box:
    """The box that holds them all."""
    lefts, tops, rights, bottoms = zip(*boxes, strict=True)
    return Box(min(lefts), min(tops), max(rights), max(bottoms))


def symbol(*items: Item, **ports: tuple[float, float, Facing]) -> Symbol:
    """A symbol from its strokes and its ports, each (x, y, facing)."""
    return Symbol(
        items,
        {name: Port(Point(x, y), facing) for name, (x, y, facing) in ports.items()},
        around(*(item.box for item in items)),
    )


def device(
    name: str, ports: Mapping[Facing, tuple[str, ...]], *, note: str = "", pitch_mm: float = 2 * GRID_MM
) -> Symbol:
    """A device as a plain rectangle, with its name and a note in the middle and its ports named inside, where
    the conductors meet them. It grows with the names; its top left is at (0, 0). A port is called like its
    terminal, so names are unique.
    """
    up, right = ports.get("up", ()), ports.get("right", ())
    down, left = ports.get("down", ()), ports.get("left", ())
    head = max((_across(each) for each in up), default=0.0)
    foot = max((_across(each) for each in down), default=0.0)
    west = max((_across(each) for each in left), default=0.0)
    east = max((_across(each) for each in right), default=0.0)
    titles = max(width_mm(plain(name), NAME_MM, bold=True), width_mm(plain(note), SMALL_MM)) + 2 * GRID_MM
    width = _on_grid(max(west + titles + east, pitch_mm * (max(len(up), len(down)) + 1)))
    rows = max(10.0 if note else 7.5, pitch_mm * max(len(left), len(right)))
    height = _on_grid(head + rows + foot)
    box = Box(0.0, 0.0, width, height)
    middle = Point((west + width - east) / 2, (head + height - foot) / 2)
    found: dict[str, Port] = {}
    items: list[Item] = [Rectangle(box)]
    for facing, labels in ports.items():
        about = width / 2 if facing in ("up", "down") else middle.y_mm
        first = _on_step(about - (len(labels) - 1) * pitch_mm / 2)
        for at, label in enumerate(labels):
            port, text = _terminal(box, facing, first + at * pitch_mm, label)
            found[label] = port
            items.append(text)
    items += _titles(middle, name, note)
    return Symbol(tuple(items), found, box)


def _titles(middle: Point, name: str, note: str) -> tuple[Text, ...]:
    x, y = middle
    if not note:
        return (Text(middle, name, NAME_MM, "middle", "middle", bold=True),)
    return (
        Text(Point(x, y - 1.75), name, NAME_MM, "middle", "middle", bold=True),
        Text(Point(x, y + 2.75), note, SMALL_MM, "middle", "middle"),
    )


def _across(label: str) -> float:
    """What a port's name takes of the device, from the edge inwards."""
    return width_mm(plain(label), SMALL_MM) + 2 * GRID_MM / 2


def _on_grid(size_mm: float) -> float:
    """Rounded up to two steps, so that the middle lies on the grid as well."""
    return -(-size_mm // (2 * GRID_MM)) * 2 * GRID_MM


def _on_step(at_mm: float) -> float:
    return round(at_mm / GRID_MM) * GRID_MM


def _terminal(box: Box, facing: Facing, along_mm: float, label: str) -> tuple[Port, Text]:
    inset = GRID_MM / 2
    text: tuple[float, float, Anchor, bool]
    match facing:
        case "up":
            at, text = Point(along_mm, box.top_mm), (along_mm, box.top_mm + inset, "end", True)
        case "down":
            at, text = Point(along_mm, box.bottom_mm), (along_mm, box.bottom_mm - inset, "start", True)
        case "left":
            at, text = Point(box.left_mm, along_mm), (box.left_mm + inset, along_mm, "start", False)
        case "right":
            at, text = Point(box.right_mm, along_mm), (box.right_mm - inset, along_mm, "end", False)
    x, y, anchor, upright = text
    return Port(at, facing), Text(Point(x, y), label, SMALL_MM, anchor, "middle", upright)
