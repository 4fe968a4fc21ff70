"""A symbol: what to draw around (0, 0), and the named points where conductors meet it."""

from collections.abc import Mapping
from typing import NamedTuple

from ferrule.sheets.scene import (
    NAME_MM,
    SMALL_MM,
    Box,
    Facing,
    Item,
    Placing,
    Point,
    Rectangle,
    Text,
)
from ferrule.sheets.words import shortened

ROOM_MM = 60.0
"""What the words beside a symbol may take."""


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
        """With words to the right of it, the first in the height given, the others small, none longer than
        there is `ROOM_MM` for. A symbol is turned and placed first.
        """
        x, y = self.box.right_mm + 1.5, self.box.middle.y_mm
        heights = [height_mm, *(SMALL_MM for _ in lines[1:])]
        pitch_mm = [1.6 * each for each in heights]
        top = y - sum(pitch_mm) / 2
        texts = tuple(
            Text(
                Point(x, top + sum(pitch_mm[:at]) + pitch_mm[at] / 2),
                shortened(words, heights[at], ROOM_MM),
                heights[at],
                level="middle",
            )
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
