"""What is asked about the place of a device: the air around it, the room to work at it."""

from collections.abc import Iterable
from typing import Literal, NamedTuple, Protocol

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


#: what faces a device across the space before it: nothing live or earthed, something earthed, something live
Opposite = Literal["clear", "earthed", "live"]


class Room(NamedTuple):
    """The space before a device; None where nothing bounds it."""

    depth_mm: float | None
    width_mm: float
    headroom_mm: float | None


class WorkingSpace(Procedure, Protocol):
    """The room a person needs who works at a device."""

    @property
    def by_voltage(self) -> bool:
        """Whether it goes by the voltage to earth and by what is opposite; else neither is looked at."""
        ...

    def depth_mm(self, t: Trace, *, to_earth_v: float, opposite: Opposite) -> float:
        """How deep the space before a device has to reach, in mm."""
        ...

    def room(
        self, tables: Tables, *, to_earth_v: float, opposite: Opposite, room: Room
    ) -> Iterable[Constraint]:
        """Judge depth, width and headroom before a device."""
        ...
