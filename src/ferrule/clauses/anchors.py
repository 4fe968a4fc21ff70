"""Plain values about anchors. Loads and resistances carry their safety style in their type, so that a load
with its factors is never held against a resistance that has them in it already.
"""

import math
from collections.abc import Callable
from typing import Any, NamedTuple


class Forces:
    """Tension and shear of one fixing, in N. Two pairs are equal only where they are of one style."""

    __slots__ = ("shear_n", "tension_n")

    def __init__(self, tension_n: float, shear_n: float) -> None:
        self.tension_n = tension_n
        self.shear_n = shear_n

    def __eq__(self, other: object) -> bool:
        return type(other) is type(self) and self._pair == other._pair

    def __hash__(self) -> int:
        return hash((type(self), self._pair))

    def __repr__(self) -> str:
        return f"{type(self).__name__}(tension_n={self.tension_n:g}, shear_n={self.shear_n:g})"

    def each(self, how: Callable[[float], float]) -> tuple[float, float]:
        """Both of them put through the same calculation."""
        return how(self.tension_n), how(self.shear_n)

    @property
    def _pair(self) -> Any:
        return self.tension_n, self.shear_n


class Acting(Forces):
    """A load as it hangs there, without partial factors."""


class DesignLoad(Forces):
    """A load with its partial factors (EN 1990)."""


class Characteristic(Forces):
    """A resistance that 95 of 100 anchors reach; divided by a partial factor it is a design resistance."""


class DesignResistance(Forces):
    """A resistance with its partial factor; held against a design load."""


class Permissible(Forces):
    """A resistance with all partial factors in it, those of the load too; held against the load as it is."""


class MeanFailure(Forces):
    """The mean load at which anchors failed; a small share of it is permissible."""


Resistance = Characteristic | DesignResistance | Permissible | MeanFailure


class Hole(NamedTuple):
    """A fixing hole: from the left edge of the device, and above the edge it presses the wall with, in mm."""

    x_mm: float
    y_mm: float


class Near(NamedTuple):
    """What is nearest to a fixing on one of its four sides: an edge of its base, and another fixing."""

    edge_mm: float = math.inf
    spacing_mm: float = math.inf


#: the left, the right, above and below
Sides = tuple[Near, Near, Near, Near]


class Anchor(NamedTuple):
    """An anchor in one base material, as its sheet says; None where it says nothing.

    `family` is metal or plastic, `holds_by` what keeps it in its hole. The full distances belong to the full
    resistance; the least ones are never to be undercut.
    """

    name: str
    family: str
    holds_by: str
    base: str
    resistance: Resistance
    partial_factor: float | None
    interaction: str
    diameter_mm: float
    depth_mm: float
    edge_full_mm: float | None
    spacing_full_mm: float | None
    edge_least_mm: float | None
    spacing_least_mm: float | None


class Setting(NamedTuple):
    """How an anchor is set: None where nothing is tightened, or nothing cures."""

    cleaning: str
    torque_n_m: float | None
    wet_cure_s: float | None
