"""Small pieces that drawings are put together from: words that keep to their room, symbols along a line that
runs across the page, lists of notes.
"""

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from ferrule.sheets import symbols
from ferrule.sheets.scene import (
    HEAVY,
    SMALL_MM,
    Anchor,
    Box,
    Circle,
    Item,
    Layer,
    Line,
    Pen,
    Placing,
    Point,
    Text,
    line,
)
from ferrule.sheets.symbol import Symbol
from ferrule.sheets.texts import say
from ferrule.sheets.words import shortened, wrapped

LINE_MM = 2.9
"""From one baseline of small words to the next."""
CLEAR_MM = 2.4
"""From the baseline of words over a line down to it: what the marks of symbols take."""


def word(
    x_mm: float,
    y_mm: float,
    words: str,
    room_mm: float,
    height_mm: float = SMALL_MM,
    *,
    anchor: Anchor = "start",
    bold: bool = False,
) -> tuple[Text, ...]:
    """Words on a baseline, shortened to their room; nothing where there are none."""
    shown = shortened(words, height_mm, room_mm, bold=bold)
    return (Text(Point(x_mm, y_mm), shown, height_mm, anchor, bold=bold),) if shown else ()


def above(x_mm: float, y_mm: float, lines: Sequence[str], room_mm: float) -> tuple[Text, ...]:
    """Small words over a line at that height, the last of them next to it."""
    kept = [each for each in lines if each]
    first = y_mm - CLEAR_MM - LINE_MM * (len(kept) - 1)
    return tuple(
        text for at, each in enumerate(kept) for text in word(x_mm, first + LINE_MM * at, each, room_mm)
    )


def below(x_mm: float, y_mm: float, lines: Sequence[str], room_mm: float) -> tuple[Text, ...]:
    """Small words under a line at that height, the first of them next to it."""
    kept = [each for each in lines if each]
    return tuple(
        text for at, each in enumerate(kept) for text in word(x_mm, y_mm + 3.2 + LINE_MM * at, each, room_mm)
    )


def across(symbol: Symbol, x_mm: float, y_mm: float) -> tuple[Item, ...]:
    """A symbol turned so that its top lies at the left, at that point."""
    return symbol.placed(x_mm, y_mm, 3).items


def level(x_mm: float, to_mm: float, y_mm: float, layer: Layer = "conductor", pen: Pen = HEAVY) -> Line:
    return line((x_mm, y_mm), (to_mm, y_mm), pen=pen, layer=layer)


def counted(x_mm: float, y_mm: float, count: int) -> tuple[Item, ...]:
    """How many conductors a line across stands for, the number of many below it."""
    return tuple(item.placed(Placing(x_mm, y_mm, 1)) for item in symbols.conductors(count)) if count else ()


def dot(x_mm: float, y_mm: float, layer: Layer = "conductor") -> Circle:
    return symbols.joint(x_mm, y_mm, layer)


def earthed(x_mm: float, y_mm: float) -> tuple[Item, ...]:
    """Earth at the right end of a line."""
    return across(symbols.earth(), x_mm, y_mm)


class Noted(NamedTuple):
    """A list of notes as it was set, and how many lines there was no room for."""

    items: tuple[Item, ...]
    left_out: int


def noted(room: Box, notes: Iterable[tuple[str, Sequence[str]]]) -> Noted:
    """Notes under their headings, from the top of a room down. Where they do not fit, the last line says how
    many more there are.
    """
    lines = [
        (text, at == 0)
        for heading, texts in notes
        if texts
        for at, text in enumerate(
            (heading, *(each for text in texts for each in _hanging(text, room.width_mm)))
        )
    ]
    fitting = int((room.height_mm - 1.0) // LINE_MM)
    kept, over = (lines, 0) if len(lines) <= fitting else (lines[: max(fitting - 1, 0)], 1)
    left_out = len(lines) - len(kept) if over else 0
    if over and fitting > 0:
        kept = [*kept, (say("drawn.more_notes", count=left_out), False)]
    return Noted(tuple(_set(room, kept)), left_out)


def _hanging(text: str, room_mm: float) -> Iterator[str]:
    yield from wrapped(text, SMALL_MM, room_mm, lines=3)


def _set(room: Box, lines: Sequence[tuple[str, bool]]) -> Iterator[Text]:
    for at, (text, bold) in enumerate(lines):
        yield from word(
            room.left_mm, room.top_mm + 1.0 + SMALL_MM + LINE_MM * at, text, room.width_mm, bold=bold
        )
