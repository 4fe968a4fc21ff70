"""What is asked about the place of a device: the air around it, the room to work at it."""

from collections.abc import Iterable
from typing import Literal, Protocol

from ferrule.clauses.procedures.base import Procedure
from ferrule.constraint import Constraint
from ferrule.working import Tables, Trace

Gap = Literal["above", "below", "side", "front"]


class FreeSpace(Procedure, Protocol):
    """The air around a device and the height of its controls, where its maker says nothing."""

    def gap_mm(self, t: Trace, *, gap: Gap) -> float:
        """Free space that a device should have on one side, in mm."""
        ...

    def reach_mm(self, t: Trace) -> tuple[float, float]:
        """Lowest and highest that displays and switches should sit above the floor, in mm."""
        ...


class WorkingSpace(Procedure, Protocol):
    """The room a person needs who works at a device."""

    def depth_mm(self, tables: Tables) -> float:
        """How deep the space before a device reaches, in mm."""
        ...

    def room(
        self, tables: Tables, *, depth_mm: float | None, width_mm: float, headroom_mm: float | None
    ) -> Iterable[Constraint]:
        """Judge depth, width and headroom before a device, in mm; None where nothing bounds it."""
        ...
