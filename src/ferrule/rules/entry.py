"""The three kinds of entry in a rulebook: a table, a single figure, a series of preferred sizes."""

import hashlib
import math
from bisect import bisect_left
from typing import Literal, NamedTuple

from ferrule.grade import Grade, Source
from ferrule.working import Bound, NotPrinted, Read

Between = Literal["step", "linear", "refuse"]
Value = float | str

#: Two numbers this close (relative, absolute below 1) are one row: 35.00000000001 °C is 35 °C.
_SAME_ROW = 1e-9


class RulebookError(ValueError):
    """A rulebook or a confirmation that is not as it must be, or a name that no rulebook holds."""


class GradeRule(NamedTuple):
    """The grade of some cells: those of `columns` (None: all) in the rows `first` to `last` as printed."""

    grade: Grade
    columns: frozenset[str] | None
    first: int
    last: int


class Table(NamedTuple):
    """A printed table.

    `numbers` holds the rows as numbers, rising, and is empty where rows are words. `between` says what a
    number between two rows gets: the row `toward` higher or lower, a straight line, or a refusal. `below`
    and `above` say whether the first or last row also serves beyond it. A cell of None is not printed; cells
    are words where the unit says so.
    """

    name: str
    title: str
    unit: str
    source: Source
    row_key: str
    row_unit: str
    rows: tuple[str, ...]
    numbers: tuple[float, ...]
    column_key: str
    columns: tuple[str, ...]
    between: Between
    toward: Literal["higher", "lower"]
    below: Literal["refuse", "first"]
    above: Literal["refuse", "last"]
    cells: tuple[tuple[Value | None, ...], ...]
    grades: tuple[GradeRule, ...]
    note: str

    def cell(self, row: Value, column: Value | None) -> Read:
        """The value for a row and a column, by the table's own rule between rows. Raises `NotPrinted`."""
        low, high, share = self._span(row)
        at = self._column(column)
        value, grade = self._printed(low, at), self._grade(low, at)
        if high != low:
            lower = float(value)
            value = lower + share * (float(self._printed(high, at)) - lower)
            grade = min(grade, self._grade(high, at))
        rows = self.rows[low] if high == low else f"{self.rows[low]}–{self.rows[high]}"
        keys = (rows, self.columns[at]) if self.columns else (rows,)
        return Read(self.name, keys, value, self.unit, self.source, grade)

    def has_row(self, row: Value) -> bool:
        """Whether the row stands in the table itself."""
        return _number(row) in self.numbers if self.numbers else _text(row) in self.rows

    def fingerprint(self) -> str:
        """A text that changes with any row, column or cell."""
        return hashlib.sha256(repr((self.rows, self.columns, self.cells)).encode()).hexdigest()[:16]

    def _span(self, row: Value) -> tuple[int, int, float]:
        """The one row (twice) or the two rows that answer, and how far the wanted one lies between them."""
        if not self.numbers:
            if _text(row) not in self.rows:
                raise self._no_row(row)
            return (at := self.rows.index(_text(row))), at, 0.0
        wanted = _number(row)
        if wanted is None:
            raise self._no_row(row)
        slack = _SAME_ROW * max(1.0, abs(wanted))
        at = bisect_left(self.numbers, wanted - slack)
        if at < len(self.numbers) and self.numbers[at] <= wanted + slack:
            return at, at, 0.0
        if at == 0:
            return self._edge(row, 0, self.below == "first")
        if at == len(self.numbers):
            return self._edge(row, at - 1, self.above == "last")
        if self.between == "linear":
            lower, upper = self.numbers[at - 1 : at + 1]
            return at - 1, at, (wanted - lower) / (upper - lower)
        at = at if self.toward == "higher" else at - 1
        return self._edge(row, at, self.between == "step")

    def _edge(self, row: Value, at: int, serves: bool) -> tuple[int, int, float]:
        if not serves:
            raise self._no_row(row)
        return at, at, 0.0

    def _column(self, column: Value | None) -> int:
        if column is None and len(self.columns) <= 1:
            return 0
        if column is None:
            lacking = f"is read by {self.row_key} and {self.column_key}"
        elif _text(column) not in self.columns:
            lacking = f"has no {self.column_key or 'column'} '{_text(column)}'"
        else:
            return self.columns.index(_text(column))
        raise NotPrinted(f"table {self.name} {lacking}; it prints {', '.join(self.columns) or 'one only'}")

    def _printed(self, row: int, column: int) -> Value:
        value = self.cells[row][column]
        if value is None:
            name = f"{self.rows[row]} {self.row_unit}".strip()
            raise NotPrinted(
                f"table {self.name} prints nothing for {self.row_key} {name}"
                + (f" and {self.column_key} {self.columns[column]}" if self.columns else "")
            )
        return value

    def _grade(self, row: int, column: int) -> Grade:
        name = self.columns[column] if self.columns else ""
        return next(
            rule.grade
            for rule in self.grades
            if rule.first <= row <= rule.last and (rule.columns is None or name in rule.columns)
        )

    def _no_row(self, row: Value) -> NotPrinted:
        unit = f" {self.row_unit}" if self.row_unit else ""
        if self.numbers:
            printed = f"its rows run from {self.rows[0]} to {self.rows[-1]}{unit}"
        else:
            printed = f"it prints {', '.join(self.rows)}"
        return NotPrinted(f"table {self.name} has no {self.row_key} {_text(row)}{unit}; {printed}")


class Printed(NamedTuple):
    """One value of a figure, where it was printed, and how sure it is."""

    value: Value
    source: Source
    grade: Grade


class Figure(NamedTuple):
    """A single number, or a word where the rule is a term; `low` and `high` differ where sources do."""

    name: str
    title: str
    unit: str
    low: Printed
    high: Printed
    note: str

    @property
    def disputed(self) -> bool:
        return self.low is not self.high

    def fingerprint(self) -> str:
        """A text that changes with the value."""
        return f"{self.low.value}, {self.high.value}" if self.disputed else str(self.low.value)

    def read(self, bound: Bound | None) -> Read:
        """The figure, or the named bound of a disputed one. Raises `RulebookError` if that needs a bound."""
        if self.disputed and bound is None:
            raise RulebookError(
                f"{self.name} is disputed ({self.low.value} or {self.high.value} {self.unit}): "
                "say whether the low or the high one is safe for the question"
            )
        printed = self.high if bound == "high" else self.low
        keys = (bound,) if self.disputed and bound else ()
        return Read(self.name, keys, printed.value, self.unit, printed.source, printed.grade)


class Series(NamedTuple):
    """Preferred sizes or ratings, rising; or words, in the order the rulebook states."""

    name: str
    title: str
    unit: str
    values: tuple[Value, ...]
    source: Source
    grade: Grade
    note: str

    def fingerprint(self) -> str:
        """A text that changes with any value."""
        return ", ".join(self.words())

    def numbers(self) -> tuple[float, ...]:
        """The values of a series of numbers."""
        return tuple(float(value) for value in self.values)

    def words(self) -> tuple[str, ...]:
        """The values as texts."""
        return tuple(_text(value) for value in self.values)


Entry = Table | Figure | Series


def _text(key: Value) -> str:
    return key if isinstance(key, str) else f"{key:g}"


def _number(key: Value) -> float | None:
    try:
        number = float(key)
    except ValueError:
        return None
    return number if math.isfinite(number) else None
