"""What is asked about the direct-current gear between the array and the inverter."""

from collections.abc import Iterable, Sequence
from typing import Protocol

from ferrule.clauses.procedures.base import Procedure
from ferrule.clauses.values import CableKind, Laid
from ferrule.constraint import Constraint
from ferrule.quantity import Size
from ferrule.working import Tables


class DcConductor(Procedure, Protocol):
    """A cable between array and inverter."""

    def insulation(self, tables: Tables, *, doubled: bool) -> Constraint:
        """Whether its insulation is of the kind asked for there."""
        ...

    def carries(
        self,
        tables: Tables,
        *,
        count: int,
        short_circuit_a: float,
        backfeed_a: float,
        fuse_a: float | None,
        size: Size,
        cable: CableKind,
        stretches: Sequence[Laid],
    ) -> Iterable[Constraint]:
        """Whether it carries what its string drives and what can flow back, as laid.

        `count` strings of `short_circuit_a` each are tied together, this one included.
        """
        ...

    def drops(
        self,
        tables: Tables,
        *,
        length_m: float,
        current_a: float,
        voltage_v: float,
        size: Size,
        cable: CableKind,
    ) -> Iterable[Constraint]:
        """Whether it loses little enough at standard conditions."""
        ...

    def sizes(self, tables: Tables) -> tuple[Size, ...]:
        """The sizes on offer, thinnest first."""
        ...


class DcIsolator(Procedure, Protocol):
    """A switch between array and inverter."""

    def switch(
        self,
        tables: Tables,
        *,
        count: int,
        together_a: float,
        rating_a: float,
        category: str,
        all_poles: bool,
    ) -> Iterable[Constraint]:
        """Whether it may be opened under load; `together_a` is the rated short-circuit current through it."""
        ...

    def category(self, tables: Tables, *, count: int) -> str:
        """The utilisation category made for so many strings in parallel."""
        ...

    def ratings_a(self, tables: Tables) -> tuple[float, ...]:
        """The rated currents on offer, lowest first."""
        ...

    def voltages_v(self, tables: Tables) -> tuple[float, ...]:
        """The rated voltages on offer, lowest first."""
        ...


class DcSurge(Procedure, Protocol):
    """Surge protection of the array's lines."""

    def unprotected(
        self, tables: Tables, *, route_m: float, flashes_per_km2_year: float, building: str, lightning: str
    ) -> Iterable[Constraint]:
        """Whether the array may go without."""
        ...

    def protected(
        self,
        tables: Tables,
        *,
        kind: str,
        nominal_a: float,
        places: str,
        farthest_m: float,
        lightning: str,
    ) -> Iterable[Constraint]:
        """Whether what is fitted is of the right type, strong enough and in the right places."""
        ...

    def earth_size(self, tables: Tables, *, kind: str) -> Size:
        """The least earth conductor of a device of this type."""
        ...

    def types(self, tables: Tables) -> tuple[str, ...]:
        """The types on offer, the lesser first."""
        ...

    def nominal_a(self, tables: Tables) -> float:
        """The least nominal discharge current of a device, in A."""
        ...

    def voltages_v(self, tables: Tables) -> tuple[float, ...]:
        """The highest continuous voltages on offer, lowest first."""
        ...
