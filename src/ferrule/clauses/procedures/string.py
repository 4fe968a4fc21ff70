"""What is asked about strings of modules."""

from typing import Protocol

from ferrule.clauses.procedures.base import Procedure
from ferrule.working import Trace


class StringVoltage(Procedure, Protocol):
    """The highest voltage a string can reach, and what the law caps it at."""

    def highest_v(
        self,
        t: Trace,
        *,
        modules: int,
        voc_v: float,
        coefficient_v_per_k: float | None,
        coldest_c: float,
        technology: str,
    ) -> float:
        """Open-circuit voltage on the coldest morning, in V. Raises `Missing` where no method applies."""
        ...

    def cap_v(self, t: Trace, *, building: str) -> float:
        """The highest voltage the rules allow for an array on such a building, in V."""
        ...
