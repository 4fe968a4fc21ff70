"""What is asked about what is cut, bought and carried."""

from collections.abc import Iterable
from typing import Literal, Protocol

from ferrule.clauses.procedures.base import Procedure
from ferrule.working import Trace

End = Literal["board", "device", "enclosure", "roof", "elsewhere"]
Sort = Literal["multicore", "single", "pv", "signal"]


class Buying(Procedure, Protocol):
    """Allowances of a cut, lengths in the shops, spares."""

    def cut_m(self, t: Trace, *, route_m: float, stretches: int, ends: Iterable[End]) -> float:
        """The length to cut for a route, from one end to the other."""
        ...

    def cut_waste_mm(self, t: Trace) -> float:
        """What each cut takes."""
        ...

    def by_metre(self, t: Trace, *, area_mm2: float) -> bool:
        """Whether cable of this size, that of its thickest core, is sold by the whole metre."""
        ...

    def cable_lengths_m(self, t: Trace, *, cable: Sort) -> tuple[float, ...]:
        """The lengths in which cable of a sort is sold, the shortest first."""
        ...

    def patch_m(self, t: Trace, *, needed_m: float) -> float:
        """The shortest patch cable that is long enough. Raises `NotPrinted` where none is sold."""
        ...

    def spares(self, t: Trace, *, count: int) -> int:
        """How many spares of a small part to buy with so many; none with none."""
        ...
