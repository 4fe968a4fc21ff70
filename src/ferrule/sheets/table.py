"""A list as the crew reads it: columns with their units, rows, notes. Every list is one of these, whatever
file it becomes.
"""

import math
from collections.abc import Iterable
from typing import Literal, NamedTuple

Kind = Literal["text", "count", "number"]
Cell = str | int | float | None


class Column(NamedTuple):
    """One column; `width` is in characters. Numbers stand to so many `digits` behind the point.

    Where a number is not known, a count or number column may hold the words for it.
    """

    key: str
    heading: str
    width: int
    kind: Kind = "text"
    unit: str = ""
    digits: int = 0

    @property
    def titled(self) -> str:
        """The heading with its unit."""
        return f"{self.heading} ({self.unit})" if self.unit else self.heading


class Table(NamedTuple):
    """A list: an id that never changes, a title, columns, rows of cells (None: nothing there), notes."""

    id: str
    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    notes: tuple[str, ...] = ()


def table(
    id: str,  # noqa: A002 (as the field is called)
    title: str,
    columns: Iterable[Column],
    rows: Iterable[Iterable[Cell]],
    notes: Iterable[str] = (),
) -> Table:
    """A table whose rows fit its columns and whose texts can be written anywhere.

    Raises `ValueError` for a row or cell that does not fit, or a key that stands twice.
    """
    held = tuple(columns)
    if len({column.key for column in held}) < len(held):
        raise ValueError(f"table {id}: a column's key stands twice")
    fitted = tuple(_row(f"table {id}, row {at}", held, tuple(row)) for at, row in enumerate(rows, 1))
    return Table(id, writable(title), held, fitted, tuple(map(writable, notes)))


def writable(text: str) -> str:
    """The text with every character that a file or terminal might obey or refuse turned into a visible one.

    Control characters become their pictures, but for tab and line feed; marks that turn the direction of what
    follows, and what is no character at all, become the replacement character. Nothing is left out.
    """
    return text.translate(_VISIBLE) if not text.isprintable() else text


def _row(where: str, columns: tuple[Column, ...], cells: tuple[Cell, ...]) -> tuple[Cell, ...]:
    if len(cells) != len(columns):
        raise ValueError(f"{where}: {len(cells)} cells for {len(columns)} columns")
    return tuple(_cell(where, column, cell) for column, cell in zip(columns, cells, strict=True))


def _cell(where: str, column: Column, cell: Cell) -> Cell:
    """The cell as its column holds it: a number rounded to its digits, so that it is the same everywhere."""
    if cell is None:
        return None
    if isinstance(cell, str):
        return writable(cell)
    fits = column.kind == "number" or (column.kind == "count" and isinstance(cell, int))
    if isinstance(cell, bool) or not fits or not math.isfinite(cell):
        raise ValueError(f"{where}: {cell!r} is no {column.kind} for {column.key}")
    return cell if column.kind == "count" else round(float(cell), column.digits) + 0.0


def number(column: Column, cell: int | float) -> str:
    """A number of this column as text, with a point and a hyphen for minus."""
    return f"{cell:.{column.digits}f}" if column.kind == "number" else str(cell)


_REPLACED = "\N{REPLACEMENT CHARACTER}"
_TURNING = [*range(0x202A, 0x202F), *range(0x2066, 0x206A)]
_NOTHING = [*range(0xD800, 0xE000), 0xFFFE, 0xFFFF]
_VISIBLE = {
    **{code: chr(0x2400 + code) for code in range(0x20) if chr(code) not in "\t\n"},
    0x7F: "\N{SYMBOL FOR DELETE}",
    **dict.fromkeys([*range(0x80, 0xA0), *_TURNING, *_NOTHING], _REPLACED),
}
