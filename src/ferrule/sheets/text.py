"""A table on a terminal: as wide as it needs, no wider than there is room."""

import textwrap
from collections.abc import Iterator, Sequence
from itertools import zip_longest

from ferrule.sheets.table import Cell, Column, Table, number

_GAP = 2
_NARROWEST = 6


def lines(table: Table, width: int) -> Iterator[str]:
    """The title, the headings, a rule, the rows with long texts in several lines, and the notes."""
    shown = [
        [_shown(column, cell) for column, cell in zip(table.columns, row, strict=True)] for row in table.rows
    ]
    widths = _widths(table.columns, shown, width)
    yield table.title
    yield from _line(table.columns, [column.titled for column in table.columns], widths)
    yield "─" * min(width, sum(widths) + _GAP * (len(widths) - 1))
    for row in shown:
        yield from _line(table.columns, row, widths)
    for note in table.notes:
        yield from textwrap.wrap(note, width)


def _shown(column: Column, cell: Cell) -> str:
    if cell is None:
        return ""
    return cell.expandtabs(4) if isinstance(cell, str) else number(column, cell).replace("-", "−")


def _widths(columns: Sequence[Column], rows: Sequence[Sequence[str]], width: int) -> list[int]:
    """What each column takes: the longest line in it; where that is too much, the widest give way."""
    taken = [
        max(len(line) for text in (column.titled, *(row[at] for row in rows)) for line in (text.split("\n")))
        for at, column in enumerate(columns)
    ]
    room = width - _GAP * (len(columns) - 1)
    while sum(taken) > room and max(taken) > _NARROWEST:
        widest = taken.index(max(taken))
        others = max((each for at, each in enumerate(taken) if at != widest), default=0)
        taken[widest] = max(
            _NARROWEST, taken[widest] - max(1, min(sum(taken) - room, taken[widest] - others))
        )
    return taken


def _line(columns: Sequence[Column], texts: Sequence[str], widths: Sequence[int]) -> Iterator[str]:
    cells = [
        [part for line in text.split("\n") for part in textwrap.wrap(line, width) or [""]]
        for text, width in zip(texts, widths, strict=True)
    ]
    for parts in zip_longest(*cells, fillvalue=""):
        yield (
            (" " * _GAP)
            .join(
                part.ljust(width) if column.kind == "text" else part.rjust(width)
                for column, part, width in zip(columns, parts, widths, strict=True)
            )
            .rstrip()
        )
