"""What is asked about strings of modules."""

from collections.abc import Iterable
from typing import Protocol

from ferrule.clauses.procedures.base import Procedure
from ferrule.constraint import Constraint
from ferrule.working import Tables, Trace


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

    def shortfall_pct(self, t: Trace, *, coldest_c: float) -> float:
        """How far a coefficient may put the cold voltage of crystalline silicon too low, in per cent."""
        ...

    def cap_v(self, t: Trace, *, building: str) -> float:
        """The highest voltage the rules allow for an array on such a building, in V."""
        ...


class StringHeat(Procedure, Protocol):
    """How hot the cells of a string get while they work."""

    def hottest_cell_c(self, t: Trace, *, hottest_c: float, mounting: str) -> float:
        """Cell temperature in full sun on the hottest day, in °C."""
        ...


class StringCurrent(Procedure, Protocol):
    """The highest current strings can drive."""

    def highest_a(self, t: Trace, *, short_circuit_a: float, count: int) -> float:
        """Current of so many like strings together in the brightest light, in A."""
        ...


class StringFuse(Procedure, Protocol):
    """Whether strings need fuses, and which fuses protect them.

    `count` is the number of strings tied together, the faulted one included; `backfeed_a` what the inverter
    and the battery behind it can feed back; `module_limit_a` the modules' maximum series fuse.
    """

    def unfused(
        self, tables: Tables, *, count: int, short_circuit_a: float, backfeed_a: float, module_limit_a: float
    ) -> Iterable[Constraint]:
        """Whether a string without fuses bears what can flow back."""
        ...

    def of_use(
        self, tables: Tables, *, count: int, short_circuit_a: float, backfeed_a: float, module_limit_a: float
    ) -> Iterable[Constraint]:
        """Whether fuses that are fitted have a purpose."""
        ...

    def fused(
        self, tables: Tables, *, rating_a: float, poles: str, short_circuit_a: float, module_limit_a: float
    ) -> Iterable[Constraint]:
        """Whether fuses that are fitted are of the right rating and in the right poles."""
        ...

    def ratings_a(self, tables: Tables) -> tuple[float, ...]:
        """The rated currents on offer, lowest first."""
        ...

    def voltages_v(self, tables: Tables) -> tuple[float, ...]:
        """The rated voltages on offer, lowest first."""
        ...

    def breaking_capacity_a(self, tables: Tables) -> float:
        """What such a fuse breaks at least."""
        ...


class ArraySize(Procedure, Protocol):
    """How large an array suits an inverter."""

    def usual(
        self, tables: Tables, *, array_w: float, inverter_w: float, battery: bool
    ) -> Iterable[Constraint]:
        """Whether the array is as large as is usual, without or with a battery that takes the surplus."""
        ...
