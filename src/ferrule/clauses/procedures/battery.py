"""What is asked about a battery's circuit."""

from collections.abc import Iterable, Sequence
from typing import Protocol

from ferrule.clauses.procedures.base import Procedure
from ferrule.clauses.values import CableKind, Laid
from ferrule.constraint import Constraint
from ferrule.quantity import Size
from ferrule.working import Tables, Trace


class BatteryCircuit(Procedure, Protocol):
    """A battery with its protective device, its cable and its switch, up to the inverter."""

    def rating(self, tables: Tables, *, rating_a: float, design_a: float) -> Iterable[Constraint]:
        """Judge the rated current of the protective device."""
        ...

    def device(
        self, tables: Tables, *, kind: str, polarised: bool, poles: str, earthed_pole: str
    ) -> Iterable[Constraint]:
        """Judge what kind of device it is and which poles it protects."""
        ...

    def earthed_pole(self, tables: Tables, *, separated: bool) -> Iterable[Constraint]:
        """Judge whether a pole of the battery may be earthed."""
        ...

    def distance(self, tables: Tables, *, distance_m: float) -> Iterable[Constraint]:
        """Judge how far the device is from the battery's poles."""
        ...

    def insulation(self, tables: Tables, *, doubled: bool, voltage_v: float) -> Iterable[Constraint]:
        """Judge the insulation of a cable on a battery that is not separated from the network."""
        ...

    def carries(
        self, tables: Tables, *, rating_a: float, size: Size, cable: CableKind, stretches: Sequence[Laid]
    ) -> Iterable[Constraint]:
        """Judge whether the cable carries what its device lets through for hours, as laid."""
        ...

    def withstands(
        self,
        tables: Tables,
        *,
        kind: str,
        rating_a: float,
        let_through_a2s: float | None,
        size: Size,
        cable: CableKind,
        stretches: Sequence[Laid],
        fault_a: float,
    ) -> Iterable[Constraint]:
        """Judge whether the cable survives a short circuit; None where the device's sheet is silent."""
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
        """Judge what is lost in the cable."""
        ...

    def isolates(self, tables: Tables, *, poles: str) -> Iterable[Constraint]:
        """Judge which poles the switch beside the battery opens."""
        ...

    def locks(self, tables: Tables, *, lockable: bool) -> Iterable[Constraint]:
        """Judge whether that switch stays open while somebody works."""
        ...

    def charged_cold(
        self, tables: Tables, *, chemistry: str, coldest_c: float, hottest_c: float
    ) -> Iterable[Constraint]:
        """Judge the temperatures of a place against what cells of that kind commonly bear."""
        ...

    def resistance_ohm_per_km(self, t: Trace, size: Size, cable: CableKind) -> float:
        """Resistance of a conductor warm from service, in Ω/km."""
        ...

    def class_of_fuse(self, tables: Tables) -> str:
        """The kind of device to offer."""
        ...

    def ratings_a(self, tables: Tables) -> tuple[float, ...]:
        """The rated currents on offer, lowest first."""
        ...

    def voltages_v(self, tables: Tables) -> tuple[float, ...]:
        """The rated voltages on offer, lowest first."""
        ...

    def breaking_capacities_a(self, tables: Tables) -> tuple[float, ...]:
        """The breaking capacities on offer, lowest first."""
        ...

    def sizes(self, tables: Tables, *, cable: CableKind, stretches: Sequence[Laid]) -> tuple[Size, ...]:
        """The sizes on offer for a cable laid like this, thinnest first."""
        ...
