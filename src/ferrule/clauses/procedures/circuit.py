"""What is asked about a circuit: its conductor together with its device."""

from collections.abc import Iterable, Sequence
from typing import Protocol

from ferrule.clauses.procedures.base import Procedure
from ferrule.clauses.values import CableKind, Laid
from ferrule.constraint import Constraint
from ferrule.quantity import Size
from ferrule.working import Tables


class Conductor(Procedure, Protocol):
    """A conductor together with its overcurrent device, protected against overload."""

    def device(self, tables: Tables, *, design_a: float, kind: str, rating_a: float) -> Iterable[Constraint]:
        """Whether the device carries the design current."""
        ...

    def conductor(
        self,
        tables: Tables,
        *,
        design_a: float,
        kind: str,
        rating_a: float,
        size: Size,
        cable: CableKind,
        stretches: Sequence[Laid],
        loaded: int,
    ) -> Iterable[Constraint]:
        """Whether the conductor carries the current and the device protects it, as laid."""
        ...

    def sizes(self, tables: Tables) -> tuple[Size, ...]:
        """The conductor sizes on offer, thinnest first."""
        ...

    def ratings_a(self, tables: Tables, kind: str) -> tuple[float, ...]:
        """The rated currents on offer for a kind of device, lowest first."""
        ...
