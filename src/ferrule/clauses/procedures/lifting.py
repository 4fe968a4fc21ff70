"""What is asked about lifting by hand."""

from collections.abc import Iterable, Sequence
from typing import Protocol

from ferrule.clauses.procedures.base import Procedure
from ferrule.clauses.values import Hands, Lift, LiftingAid
from ferrule.constraint import Constraint
from ferrule.working import Tables, Trace


class Lifting(Procedure, Protocol):
    """What people may lift by hand, alone or together, and what a ladder bears."""

    def least_kg(self, t: Trace) -> float:
        """The mass from which on a lift is a question at all."""
        ...

    def reach_mm(self, t: Trace, *, depth_mm: float, height_mm: float) -> float:
        """How far the hands are out before the ankles, where only the depth of the load is known."""
        ...

    def recommended_kg(self, t: Trace, *, lift: Lift, hands: Hands) -> float:
        """The weight that one person should not exceed with the hands at one end of a lift."""
        ...

    def filter_kg(self, t: Trace, *, lift: Lift, people: Sequence[str]) -> float:
        """The weight up to which a lift by these people, each a `man` or a `woman`, needs no further
        assessment.
        """
        ...

    def by_hand(
        self,
        tables: Tables,
        *,
        load: str,
        mass_kg: float,
        lift: Lift,
        people: Sequence[str],
        footing: str,
        cramped: bool,
    ) -> Iterable[Constraint]:
        """Judge a lift by these people; where the methods do not apply, only that is told. `load` names
        what is lifted, as a sentence begins.
        """
        ...

    def with_aid(
        self,
        tables: Tables,
        *,
        load: str,
        mass_kg: float,
        seat_mm: float,
        aids: Sequence[LiftingAid],
        footing: str,
    ) -> Iterable[Constraint]:
        """Judge a lift that an aid does, by the one of those there that suits it best; `seat_mm` is where the
        lower edge of the load comes to, above the floor.
        """
        ...

    def ladder_foot_mm(self, t: Trace, *, height_mm: float) -> float:
        """How far the foot of a ladder stands out from where it leans."""
        ...

    def ladder_above_mm(self, t: Trace) -> float:
        """How far a ladder stands out above the landing that it leads to."""
        ...
