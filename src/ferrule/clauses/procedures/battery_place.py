"""What is asked about the place of a battery."""

from collections.abc import Iterable
from typing import Literal, Protocol

from ferrule.clauses.procedures.base import Procedure
from ferrule.constraint import Constraint
from ferrule.working import Tables

#: what a battery keeps its distance from; an opening above it may ask for more than one beside it
Neighbour = Literal["opening", "opening_above", "escape", "flammables", "battery", "above", "appliance"]
Rule = Literal["opens_to", "separation", "alarm", "cars", "wall", "finish"]


class BatteryPlace(Procedure, Protocol):
    """Where a battery may stand, and how far from what."""

    def use(self, tables: Tables, *, use: str) -> Iterable[Constraint]:
        """Judge the kind of place."""
        ...

    def asks(self, tables: Tables, rule: Rule, *, use: str) -> bool:
        """Whether the rules ask anything of this in a place of that kind. Raises `Uncovered` where they were
        not read.
        """
        ...

    def opens_to(self, tables: Tables, *, use: str, uses: Iterable[str]) -> Iterable[Constraint]:
        """Judge the kinds of rooms that its doors lead to."""
        ...

    def separation(self, tables: Tables, *, use: str, separated: bool) -> Iterable[Constraint]:
        """Judge the fire separation of a room indoors."""
        ...

    def alarm(self, tables: Tables, *, use: str, alarm: str) -> Iterable[Constraint]:
        """Judge the smoke or heat alarm of a room indoors."""
        ...

    def cars(self, tables: Tables, *, use: str, cars: str) -> Iterable[Constraint]:
        """Judge whether a car can hit it."""
        ...

    def wall(self, tables: Tables, *, use: str, behind: str, combustible: bool) -> Iterable[Constraint]:
        """Judge the wall behind it."""
        ...

    def finish(self, tables: Tables, *, use: str, finished: bool) -> Iterable[Constraint]:
        """Judge the walls and the ceiling of a room."""
        ...

    def keeps_from(self, tables: Tables, neighbour: Neighbour, *, use: str) -> bool:
        """Whether a distance from this is asked for in a place of that kind."""
        ...

    def distance(
        self, tables: Tables, neighbour: Neighbour, *, use: str, distance_mm: float
    ) -> Iterable[Constraint]:
        """Judge the distance from something, in mm."""
        ...


class BatteryEnergy(Procedure, Protocol):
    """How much energy may be stored, in one unit and in one kind of place."""

    def stored(self, tables: Tables, *, use: str, unit_wh: float, place_wh: float) -> Iterable[Constraint]:
        """Judge the energy of one unit and of all units in the place, in Wh."""
        ...
