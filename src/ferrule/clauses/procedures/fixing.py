"""What is asked of the fixings of a device, on a wall and on the floor."""

from collections.abc import Iterable, Sequence
from typing import Protocol

from ferrule.clauses.anchors import Acting, Anchor, Hole, Setting, Sides
from ferrule.clauses.procedures.base import Procedure
from ferrule.constraint import Constraint
from ferrule.working import Tables, Trace


class Fixing(Procedure, Protocol):
    """Loads of fixings, and what an anchor holds against them."""

    def acting(
        self, t: Trace, *, mass_kg: float, out_mm: float, across_mm: float, holes: Sequence[Hole]
    ) -> Acting:
        """The greatest pull and the greatest shear among the fixings of what hangs on them.

        `out_mm` is the distance of its centre of gravity from the wall, `across_mm` from the same left edge
        as the holes. Raises `Missing` where the holes cannot hold it.
        """
        ...

    def holds(
        self, tables: Tables, *, acting: Acting, anchor: Anchor, share: float, steps: Trace
    ) -> Iterable[Constraint]:
        """Judge pull, shear and both together, in use and while the device is hung.

        `share` is what is left of the resistance near edges and neighbours; `steps` is the working so far.
        """
        ...

    def distances(
        self, tables: Tables, *, anchor: Anchor, edge_mm: float, spacing_mm: float
    ) -> Iterable[Constraint]:
        """Judge the distances to the nearest edge and the nearest neighbour."""
        ...

    def share(self, t: Trace, *, anchor: Anchor, fixings: Sequence[Sides]) -> float:
        """What is left of an anchor's resistance where edges and neighbours leave least of it."""
        ...

    def hole(self, tables: Tables, *, anchor: Anchor, thickness_mm: float) -> Iterable[Constraint]:
        """Judge how deep the hole of an anchor goes into a wall of this thickness."""
        ...

    def plate_kg(self, t: Trace, *, thickness_mm: float, width_mm: float, height_mm: float) -> float:
        """The mass of a plate between a framed wall and a device."""
        ...

    def base(self, tables: Tables, *, anchor: Anchor) -> Iterable[Constraint]:
        """Judge whether the kind of anchor is made for the base."""
        ...

    def studs(self, tables: Tables, *, count: int, thread_mm: float) -> Iterable[Constraint]:
        """Judge over how many studs the fixings spread and how deep they go into the wood."""
        ...

    def backing(self, tables: Tables, *, thickness_mm: float, studs: int) -> Iterable[Constraint]:
        """Judge a plate of plywood between a framed wall and the device."""
        ...

    def setting(
        self,
        t: Trace,
        *,
        base: str,
        torque_n_m: float | None,
        torque_in_concrete_n_m: float | None,
        cure_s: float | None,
    ) -> Setting:
        """How the anchor is set in its base."""
        ...

    def stands(
        self, tables: Tables, *, height_mm: float, inward_mm: float, tied: bool
    ) -> Iterable[Constraint]:
        """Judge a device on the floor by how far it may be tilted, unless it is tied to the wall."""
        ...
