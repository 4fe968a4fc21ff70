"""What is asked about labels."""

from collections.abc import Iterator
from typing import Literal, NamedTuple, Protocol

from ferrule.clauses.procedures.base import Procedure
from ferrule.grade import Grade, Source
from ferrule.quantity import LengthM, LengthMm
from ferrule.working import Tables, Trace

On = Literal[
    "backup-board",
    "battery",
    "battery-isolator",
    "bond",
    "bus-end",
    "cable-end",
    "changeover",
    "circuit",
    "dc-access",
    "dc-cable",
    "dc-isolator",
    "dc-plug",
    "earth",
    "inverter",
    "inverter-circuit",
    "rapid-switch",
    "supply",
    "supply-points",
]


class AskedLabel(NamedTuple):
    """A label that a rulebook asks for: its name, what it is on, its look, and where that is printed. `sign`
    is the number of its safety sign after ISO 7010, empty where it bears none.
    """

    name: str
    on: On
    height_mm: LengthMm
    ink: str
    ground: str
    sign: str
    source: Source
    grade: Grade


class Labels(Procedure, Protocol):
    """Which labels there have to be."""

    def asked(self, tables: Tables) -> Iterator[AskedLabel]:
        """Every label, in the rulebook's order."""
        ...

    def count_along(self, t: Trace, *, length_m: LengthM) -> int:
        """How many labels a cable of the array bears along its length."""
        ...
