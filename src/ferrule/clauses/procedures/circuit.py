"""What is asked about a circuit: its conductors together with its device."""

from collections.abc import Iterable, Sequence
from typing import Protocol

from ferrule.clauses.procedures.base import Procedure
from ferrule.clauses.values import CableKind, Device, Laid, LoopPart
from ferrule.constraint import Constraint
from ferrule.quantity import Size
from ferrule.working import Tables, Trace


class Conductor(Procedure, Protocol):
    """A conductor together with its overcurrent device, protected against overload.

    Each constraint's working begins with that of the trace given, which shows where the current comes from.
    """

    def device(self, t: Trace, *, design_a: float, kind: str, rating_a: float) -> Constraint:
        """Whether the device carries the design current."""
        ...

    def conductor(
        self,
        t: Trace,
        *,
        design_a: float,
        kind: str,
        rating_a: float,
        size: Size,
        cable: CableKind,
        stretches: Sequence[Laid],
        loaded: int,
    ) -> Iterable[Constraint]:
        """Whether the conductor carries the current and the device protects it, as laid."""
        ...

    def limited(
        self,
        t: Trace,
        *,
        source_a: float,
        size: Size,
        cable: CableKind,
        stretches: Sequence[Laid],
        loaded: int,
    ) -> Constraint:
        """Whether the conductor carries all that a source of limited current can give for good."""
        ...

    def capacity_a(self, t: Trace, *, size: Size, cable: CableKind, stretch: Laid, loaded: int) -> float:
        """What a conductor carries along one stretch, as laid, in A."""
        ...

    def sizes(self, tables: Tables) -> tuple[Size, ...]:
        """The conductor sizes on offer, thinnest first."""
        ...

    def ratings_a(self, tables: Tables, kind: str) -> tuple[float, ...]:
        """The rated currents on offer for a kind of device, lowest first."""
        ...


class ShortCircuit(Procedure, Protocol):
    """What a fault lets through, what a device breaks and when it trips at once."""

    def highest_a(
        self,
        t: Trace,
        *,
        origin_a: float,
        line_to_neutral_v: float,
        parts: Sequence[LoopPart],
        lines: int,
        inverters_a: float,
    ) -> float:
        """The highest prospective fault current behind some cables, in A; `inverters_a` is what inverters
        give in service, on top of the network.
        """
        ...

    def lowest_a(
        self, t: Trace, *, origin_ohm: float, line_to_neutral_v: float, parts: Sequence[LoopPart]
    ) -> float:
        """The lowest current of a fault at the end of some cables, in A."""
        ...

    def breaks(self, t: Trace, *, fault_a: float, breaking_capacity_a: float) -> Constraint:
        """Whether the device can break it."""
        ...

    def withstand(
        self, t: Trace, *, conductor: str, fault_a: float, device: Device, size: Size, cable: CableKind
    ) -> Iterable[Constraint]:
        """Whether a conductor, called `conductor`, bears what its device lets through."""
        ...

    def far_end(self, t: Trace, *, fault_a: float, device: Device) -> Constraint:
        """Whether the lowest fault current trips the device in time."""
        ...

    def starting(self, t: Trace, *, start_a: float, device: Device) -> Constraint | None:
        """Whether the device holds while a load starts; None where it is not made to trip at once."""
        ...

    def curves(self, tables: Tables, kind: str) -> tuple[str, ...]:
        """The tripping characteristics on offer for a kind of device, the most sensitive first."""
        ...

    def breaking_capacities_a(self, tables: Tables, kind: str) -> tuple[float, ...]:
        """The breaking capacities on offer for a kind of device, lowest first."""
        ...


class Disconnection(Procedure, Protocol):
    """Automatic disconnection when a line touches metal that is earthed."""

    def longest_s(
        self,
        t: Trace,
        *,
        system: str,
        line_to_neutral_v: float,
        rating_a: float,
        final: bool,
        sockets: bool,
    ) -> float:
        """How long a fault may last, in s; `system` is TN or TT."""
        ...

    def loop_ohm(self, t: Trace, *, origin_ohm: float, parts: Sequence[LoopPart]) -> float:
        """The fault loop at the end of some cables with warm conductors, in Ω."""
        ...

    def by_device(
        self,
        t: Trace,
        *,
        loop_ohm: float,
        origin_ohm: float,
        parts: Sequence[LoopPart],
        device: Device,
        line_to_neutral_v: float,
        within_s: float,
    ) -> Iterable[Constraint]:
        """Whether the overcurrent device disconnects in time, and what a loop measured cold may be."""
        ...

    def by_residual(
        self, t: Trace, *, loop_ohm: float, residual_a: float, selective: bool, line_to_neutral_v: float,
        within_s: float,
    ) -> Constraint:  # fmt: skip
        """Whether a residual current device disconnects in time."""
        ...

    def touch_voltage(
        self, t: Trace, *, electrode_ohm: float, parts: Sequence[LoopPart], residual_a: float
    ) -> Constraint:
        """Whether earthed metal stays harmless until a residual current device trips."""
        ...


class OtherCores(Procedure, Protocol):
    """The neutral and the protective conductor beside the lines."""

    def neutral(self, t: Trace, *, line: Size, neutral: Size, lines: int) -> Constraint:
        """Whether the neutral is thick enough for its lines."""
        ...

    def protective(self, t: Trace, *, line: Size, protective: Size) -> Constraint:
        """Whether the protective conductor is thick enough for its lines."""
        ...

    def protective_in_fault(
        self, t: Trace, *, line: Size, protective: Size, cable: CableKind, fault_a: float, device: Device
    ) -> Constraint:
        """Whether a thinner one bears the fault it is there for."""
        ...

    def separate(self, t: Trace, *, protective: Size, metal: str, methods: Sequence[str]) -> Constraint:
        """Whether a protective conductor that is no core of a cable is thick enough to last."""
        ...

    def combined(self, t: Trace, *, protective: Size, metal: str) -> Constraint:
        """Whether a conductor that is neutral and protective at once is thick enough never to break."""
        ...

    def reinforced(
        self, t: Trace, *, protective: Size, metal: str, leakage_a: float, doubled: bool
    ) -> Constraint | None:
        """Whether it bears a current that flows in it all the time; None where that current is small."""
        ...
