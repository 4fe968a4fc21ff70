"""What is asked about the surroundings of a device: water and dust, heat, thin air, noise."""

from collections.abc import Iterable
from typing import Literal, Protocol

from ferrule.clauses.procedures.base import Procedure
from ferrule.constraint import Constraint
from ferrule.working import Tables, Trace

#: what is built around the house, the quietest first
Area = Literal["purely-residential", "residential", "mixed"]


class Enclosure(Procedure, Protocol):
    """What an IP code must hold off."""

    def water(self, tables: Tables, *, water: str, ip: str) -> Iterable[Constraint]:
        """Judge the second digit against the water at the place."""
        ...

    def dust(self, tables: Tables, *, dusty: bool, ip: str) -> Iterable[Constraint]:
        """Judge the first digit against the dust there, and against fingers."""
        ...

    def wet_floor(self, tables: Tables, *, bottom_mm: float) -> Iterable[Constraint]:
        """Judge how far a device stands off a floor that gets wet."""
        ...


class Air(Procedure, Protocol):
    """Sun and height, where a device's sheet leaves them open."""

    def sun_k(self, t: Trace) -> float:
        """What direct sun adds to the air around a device, in K."""
        ...

    def cooling(self, tables: Tables, *, altitude_m: float) -> Iterable[Constraint]:
        """Judge what thin air leaves of a converter's power at a height, in m."""
        ...

    def insulation(self, tables: Tables, *, altitude_m: float) -> Iterable[Constraint]:
        """Judge how well thin air insulates at a height, in m. Raises `Uncovered` beyond what was read."""
        ...


class Noise(Procedure, Protocol):
    """How loud a device may be at a bedroom window."""

    def at_window(
        self, tables: Tables, *, levels: Iterable[tuple[float, float]], area: Area, own: bool
    ) -> Iterable[Constraint]:
        """Judge all devices together at a window of the household's own or of a neighbour, each by its level
        at 1 m in dB(A) and its distance in m.
        """
        ...

    def behind_wall(self, tables: Tables, *, level_dba: float) -> Iterable[Constraint]:
        """Judge a device that hangs on the wall of a bedroom, by its level at 1 m in dB(A)."""
        ...
