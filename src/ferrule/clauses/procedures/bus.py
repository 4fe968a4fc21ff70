"""What is asked of a signal bus of two wires."""

from collections.abc import Iterable
from typing import Literal, NamedTuple, Protocol

from ferrule.clauses.procedures.base import Procedure
from ferrule.constraint import Constraint
from ferrule.physics.bus import Network
from ferrule.working import Tables, Trace

BusKind = Literal["rs485", "can"]
Divider = Literal["none", "aluminium", "steel"]


class Expected(NamedTuple):
    """What an instrument should show, and between which values it may; None where nothing bounds it above."""

    value: float
    low: float
    high: float | None

    def holds(self, reading: float) -> bool:
        """Whether a reading lies within."""
        return self.low <= reading and (self.high is None or reading <= self.high)


class SignalBus(Procedure, Protocol):
    """A bus on a twisted pair: what a meter reads on it, and what it may be."""

    def input_ohm(self, t: Trace, *, kind: BusKind, load: float) -> float:
        """What one device puts between each line and its reference, in Ω; `load` in unit loads."""
        ...

    def core_ohm(self, t: Trace, *, area_mm2: float, length_m: float) -> float:
        """Resistance of one core of the cable, in Ω."""
        ...

    def terminator_ohm(self, t: Trace) -> float:
        """A terminator whose maker states no other, in Ω."""
        ...

    def terminators(self, t: Trace) -> int:
        """How many a bus has, at the ends of its line."""
        ...

    def resistance(self, t: Trace, *, network: Network, at: int) -> Expected:
        """What an ohmmeter shows between the lines at a node, everything without power, in Ω."""
        ...

    def idle(self, t: Trace, *, network: Network, at: int) -> Expected:
        """What a voltmeter shows between the lines at a node while nobody sends, in V."""
        ...

    def idle_enough(self, tables: Tables, *, network: Network) -> Iterable[Constraint]:
        """Whether every receiver takes the idle bus for idle."""
        ...

    def biased(self, tables: Tables, *, places: int) -> Constraint:
        """Whether no more places bias the bus than may."""
        ...

    def load(
        self, tables: Tables, *, kind: BusKind, loads: Iterable[float], biases_ohm: Iterable[float]
    ) -> Constraint:
        """Whether a sender can drive all receivers and the bias."""
        ...

    def length(self, tables: Tables, *, kind: BusKind, speed_bit_per_s: float, length_m: float) -> Constraint:
        """Whether the line is short enough for its speed."""
        ...

    def taps(
        self, tables: Tables, *, kind: BusKind, speed_bit_per_s: float, taps_m: Iterable[float]
    ) -> Iterable[Constraint]:
        """Whether the taps between line and devices are short enough."""
        ...

    def addresses(self, t: Trace) -> tuple[int, int]:
        """The lowest and the highest address a device may have."""
        ...

    def separation(
        self,
        tables: Tables,
        *,
        distance_mm: float,
        power_screened: bool,
        screened: bool,
        divider: Divider,
    ) -> Constraint:
        """Whether a power cable runs far enough away."""
        ...

    def screen_places(self, t: Trace) -> int:
        """At how many places the screen is earthed where no maker says otherwise."""
        ...

    def stop_sense(self, t: Trace) -> str:
        """How an emergency stop should act, `opening` or `closing`."""
        ...

    def joined_reference(self, t: Trace) -> bool:
        """Whether a conductor must join the signal references."""
        ...
