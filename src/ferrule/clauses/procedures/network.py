"""What is asked between a house and its network: voltage along the way, residual current, surges."""

from collections.abc import Collection, Iterable
from typing import Literal, Protocol

from ferrule.clauses.procedures.base import Procedure
from ferrule.constraint import Constraint
from ferrule.quantity import Size
from ferrule.working import Tables, Trace


class VoltageChange(Procedure, Protocol):
    """What a conductor takes from the voltage, or an inverter adds to it, and how much of that may be."""

    def drop_v(
        self,
        t: Trace,
        *,
        length_m: float,
        size: Size,
        metal: str,
        balanced_a: float,
        single_a: float,
        cos_phi: float | None,
    ) -> float:
        """Drop of one run, line to neutral, in V.

        `balanced_a` flows in three lines alike, `single_a` in one line and the neutral; without `cos_phi`
        the power factor is the worst one for this conductor.
        """
        ...

    def rise_v(
        self, t: Trace, *, length_m: float, size: Size, metal: str, balanced_a: float, single_a: float
    ) -> float:
        """Rise along one run that inverters feed into, line to neutral, in V."""
        ...

    def drop_limit_pct(
        self, t: Trace, *, supply: Literal["public", "private"], lighting: bool, main_m: float
    ) -> float:
        """How much of the nominal voltage a load may lack; `main_m` is the run before its final circuit."""
        ...

    def drop_most_pct(self, t: Trace) -> float:
        """How much of the nominal voltage equipment may lack at all."""
        ...

    def rise_should_pct(self, t: Trace) -> float:
        """Rise that should not be exceeded, of the nominal voltage."""
        ...

    def rise_ceiling_pct(self, t: Trace) -> float:
        """Rise that must not be exceeded where the network operator states none, of the nominal voltage."""
        ...

    def tolerated_v(self, t: Trace, *, nominal_v: float) -> float:
        """The highest voltage a public network may show, in V."""
        ...


class ResidualCurrent(Procedure, Protocol):
    """Where a residual current device is needed, and which."""

    def inverter_type(self, t: Trace, *, separated: bool, smooth_dc_excluded: bool) -> str:
        """Least type before an inverter."""
        ...

    def load_type(self, t: Trace, *, kinds: Collection[str], smooth_dc_excluded: bool) -> str:
        """Least type before loads of these kinds; the statement is a charger's."""
        ...

    def upstream_type(self, t: Trace, *, wanted: str) -> str:
        """Least type of a device further up, where a circuit wants a type of its own."""
        ...

    def strictest(self, tables: Tables, types: Collection[str]) -> str:
        """The type that also does what all the others do."""
        ...

    def additional_a(
        self, t: Trace, *, kinds: Collection[str], rating_a: float, dwelling: bool
    ) -> float | None:
        """Residual current of the device that adds protection; None where the rules ask for none."""
        ...

    def required(self, t: Trace, *, earthing: str, position: str) -> bool:
        """Whether every circuit needs a device, by earthing system and switch position."""
        ...

    def leakage(self, tables: Tables, *, leakage_a: float, residual_a: float) -> Iterable[Constraint]:
        """Whether a device stays closed with this leakage through it."""
        ...

    def selective(self, tables: Tables, *, upstream_a: float, delayed: bool, residual_a: float) -> Constraint:
        """Whether a device leaves a fault to the one behind it."""
        ...

    def opens_all(self, t: Trace) -> bool:
        """Whether a device with a source on its load side must open every live conductor."""
        ...

    def types(self, tables: Tables) -> tuple[str, ...]:
        """The types on offer, the lesser first."""
        ...

    def residuals_a(self, tables: Tables, *, final: bool) -> tuple[float, ...]:
        """The rated residual currents on offer, first those to be preferred."""
        ...

    def currents_a(self, tables: Tables) -> tuple[float, ...]:
        """The rated currents on offer, lowest first."""
        ...


class TwoWay(Procedure, Protocol):
    """What a device needs that can be fed from either side, and what separates an inverter."""

    def both_ways(self, t: Trace) -> bool:
        """Whether a device between two sources must break in both directions."""
        ...

    def switch(self, t: Trace) -> bool:
        """Whether a switch must stand between the network and an inverter."""
        ...


class SupplySurge(Procedure, Protocol):
    """Surge protection of the alternating-current side."""

    def unprotected(
        self,
        tables: Tables,
        *,
        lightning: str,
        flashes_per_km2_year: float | None,
        surroundings: str | None,
        overhead_m: float,
        cable_m: float,
        high_overhead_m: float,
        high_cable_m: float,
    ) -> Iterable[Constraint]:
        """Whether the supply may go without; no `surroundings` where nobody assessed the risk."""
        ...

    def origin_type(self, tables: Tables, *, kind: str, lightning: str) -> Constraint:
        """Whether the device at the origin is of the type that the lightning protection asks for."""
        ...

    def device(
        self, tables: Tables, *, earthing: str, nominal_v: float, voltage_max_v: float, nominal_a: float
    ) -> Iterable[Constraint]:
        """Voltage and discharge current of a device."""
        ...

    def reach(self, tables: Tables, *, distance_m: float) -> Constraint:
        """Whether a device so far away still protects."""
        ...

    def types(self, tables: Tables) -> tuple[str, ...]:
        """The types on offer, the lesser first."""
        ...

    def least_v(self, t: Trace, *, earthing: str, nominal_v: float) -> float:
        """The continuous voltage that a device must bear. Raises `Missing` where only its maker can tell."""
        ...

    def voltages_v(self, tables: Tables) -> tuple[float, ...]:
        """The continuous voltages on offer, lowest first."""
        ...

    def nominal_a(self, tables: Tables) -> float:
        """The least nominal discharge current of a device."""
        ...
