"""The working behind a number: what was given, which table cell was read, what was calculated.

A clause notes its working in a `Trace` with three verbs and gets plain values back; nothing is formatted
until somebody wants to read it.
"""

from collections.abc import Callable, Iterable, Iterator
from typing import Any, Literal, NamedTuple, ParamSpec, Protocol, TypeVar

from ferrule.fact import Missing
from ferrule.grade import Grade, Source
from ferrule.quantity import bare_name

P = ParamSpec("P")
R = TypeVar("R", float, int, bool)
V = TypeVar("V")

Bound = Literal["low", "high"]


class Given(NamedTuple):
    """A value put in; `name` ends in its unit, `origin` says where it comes from."""

    name: str
    value: Any
    origin: str


class Read(NamedTuple):
    """A cell of a rulebook's table, or a single figure of it (no keys)."""

    table: str
    keys: tuple[str, ...]
    value: float | str
    unit: str
    source: Source
    grade: Grade


class Calculated(NamedTuple):
    """A physics function, what it was called with and what came out."""

    function: Callable[..., Any]
    inputs: dict[str, Any]
    value: Any


Step = Given | Read | Calculated


class Series(Protocol):
    """Preferred sizes or ratings of a rulebook, in rising order."""

    def numbers(self) -> tuple[float, ...]:
        """The values as numbers."""
        ...

    def words(self) -> tuple[str, ...]:
        """The values as words, such as sizes."""
        ...


class Tables(Protocol):
    """What a trace reads from; a rulebook is one."""

    def cell(self, table: str, row: float | str, column: float | str | None) -> Read:
        """The cell of a table, by its stated rule between rows. Raises `NotPrinted`."""
        ...

    def figure(self, name: str, bound: Bound | None) -> Read:
        """A single figure; a disputed one needs the bound that is safe for the question."""
        ...

    def series(self, name: str) -> Series:
        """Preferred sizes or ratings."""
        ...


class NotPrinted(Missing):
    """Raised where a table has no value for what was asked; the message names the table and its range."""


class Trace:
    """The working of one calculation, in the order in which it was done."""

    __slots__ = ("steps", "tables")

    def __init__(self, tables: Tables, steps: Iterable[Step] = ()) -> None:
        self.tables = tables
        self.steps = list(steps)

    def given(self, name: str, value: V, origin: str = "") -> V:
        """Note a value put in."""
        self.steps.append(Given(name, value, origin))
        return value

    def read(self, table: str, row: float | str, column: float | str | None = None) -> float:
        """Read a table's cell. Raises `NotPrinted` where the table has none."""
        cell = self.tables.cell(table, row, column)
        self.steps.append(cell)
        return float(cell.value)

    def figure(self, name: str, bound: Bound | None = None) -> float:
        """Read a single figure of the rulebook."""
        cell = self.tables.figure(name, bound)
        self.steps.append(cell)
        return float(cell.value)

    def term(self, name: str, row: float | str | None = None, column: float | str | None = None) -> str:
        """Read a rule that is a word, not a number; with a row, a table's. Raises `NotPrinted` as `read`."""
        cell = self.tables.figure(name, None) if row is None else self.tables.cell(name, row, column)
        self.steps.append(cell)
        return str(cell.value)

    def calculate(self, function: Callable[P, R], *args: P.args, **inputs: P.kwargs) -> R:
        """Call a physics function (keyword arguments only) and note what went in and came out.

        Raises `Missing` where it has no answer to such values: no module has zero volts.
        """
        try:
            value = function(*args, **inputs)
        except (ArithmeticError, ValueError):
            doubtful = [name for name, given in inputs.items() if given == 0] or list(inputs)
            names = " and ".join(bare_name(name) for name in doubtful).replace("_", " ")
            result = function.__name__.replace("_", " ")
            raise Missing(f"{names} once more: no {result} follows from what is given") from None
        self.steps.append(Calculated(function, inputs, value))
        return value

    def branch(self) -> "Trace":
        """A working of its own that begins with what is noted here."""
        return Trace(self.tables, self.steps)

    def reads(self) -> Iterator[Read]:
        """The table cells and figures this working rests on."""
        return (step for step in self.steps if isinstance(step, Read))
