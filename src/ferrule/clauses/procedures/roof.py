"""What is asked about work on a roof, whatever the mounting system."""

from collections.abc import Iterable
from typing import Protocol

from ferrule.clauses.procedures.base import Procedure
from ferrule.constraint import Constraint
from ferrule.working import Tables


class RoofWork(Procedure, Protocol):
    """A roof that people work on."""

    def asbestos(
        self, tables: Tables, *, found: str, covering: str, laid_year: int | None
    ) -> Iterable[Constraint]:
        """Judge what is known of asbestos; `laid_year` is needed for fibre cement only."""
        ...

    def age(self, tables: Tables, *, laid_year: int, year: int) -> Iterable[Constraint]:
        """Judge the age of the covering against that of an array."""
        ...

    def access(self, tables: Tables, *, access: str, fall_protection: str) -> Iterable[Constraint]:
        """Judge how people get up and what keeps them from falling."""
        ...
