"""What is asked about earthing and bonding."""

from collections.abc import Iterable
from typing import Protocol

from ferrule.clauses.procedures.base import Procedure
from ferrule.constraint import Constraint
from ferrule.working import Tables


class NeutralEarth(Procedure, Protocol):
    """How many neutral-earth bonds there may be in a switch position."""

    def bonds(self, tables: Tables, *, position: str, earthing: str, closed: int) -> Iterable[Constraint]:
        """Judge the number of closed bonds joined to the neutral of the energised part."""
        ...
