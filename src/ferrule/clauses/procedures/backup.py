"""What is asked of a house that an inverter feeds by itself."""

from collections.abc import Iterable, Sequence
from typing import Protocol

from ferrule.clauses.procedures.base import Procedure
from ferrule.clauses.values import Device, LoopPart
from ferrule.constraint import Constraint
from ferrule.quantity import Size
from ferrule.working import Tables, Trace


class IslandFault(Procedure, Protocol):
    """What ends a fault where the source can give only so much current."""

    def loop_ohm(self, t: Trace, *, outside_ohm: float, parts: Sequence[LoopPart]) -> float:
        """The fault loop with warm conductors, in Ω; `outside_ohm` is what lies outside these cables."""
        ...

    def residual(
        self, tables: Tables, *, residual_a: float, loop_ohm: float, source_a: float
    ) -> Iterable[Constraint]:
        """Judge an earth fault that a residual current device is to end."""
        ...

    def trips_at_a(self, t: Trace, *, device: Device, lasts_s: float) -> float | None:
        """The current at which a device surely trips at once, in A; None where the source does not last."""
        ...

    def tripped_most_a(self, t: Trace, *, source_a: float) -> float:
        """The largest rated current of a device of the quickest curve that a source trips at once, in A."""
        ...

    def withstand(
        self, tables: Tables, *, size: Size, insulation: str, metal: str, source_a: float, lasts_s: float
    ) -> Iterable[Constraint]:
        """Judge whether a conductor bears what the source can give for as long as it gives it."""
        ...


class Backup(Procedure, Protocol):
    """What may be fed in an outage, and how loads count."""

    def phase_share(self, t: Trace) -> float:
        """Share of a three-phase inverter's power that one phase may carry if its sheet is silent."""
        ...

    def start_multiple(self, t: Trace, *, kind: str) -> float | None:
        """How many times its running power a kind of load takes to start; None where it must be asked."""
        ...

    def start_time_s(self, t: Trace) -> float:
        """How long a start may last, in s."""
        ...

    def shared_neutral(self, tables: Tables, *, others: Sequence[str]) -> Iterable[Constraint]:
        """Judge a neutral that a backed-up circuit shares with `others` that are not."""
        ...

    def heater_most_w(self, t: Trace) -> float:
        """Power from which on an uncontrolled heater should stay on the network, in W."""
        ...

    def isolating_contacts(self, tables: Tables, *, declared: bool) -> Iterable[Constraint]:
        """Judge contacts that separate the house from the network by what their maker declares."""
        ...
