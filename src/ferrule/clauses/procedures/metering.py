"""What is asked about metering and about the way to the internet."""

from collections.abc import Iterable
from typing import Protocol

from ferrule.clauses.procedures.base import Procedure
from ferrule.constraint import Constraint
from ferrule.quantity import Size
from ferrule.working import Tables, Trace


class Metering(Procedure, Protocol):
    """Current transformers in front of a meter."""

    def lead_ohm_per_km(self, t: Trace, *, size: Size) -> float:
        """Resistance of a transformer's lead, in Ω/km."""
        ...

    def used(self, tables: Tables, *, main_fuse_a: float, primary_a: float) -> Constraint:
        """Judge whether the house ever draws enough of the transformers' primary current, in A."""
        ...


class Radio(Procedure, Protocol):
    """Whether a signal carries data for good."""

    def wired_m(self, t: Trace) -> float:
        """Greatest length of a data cable, in m."""
        ...

    def asks(self, technology: str) -> tuple[str, ...]:
        """The levels that decide for a technology: `rsrp_dbm`, `rssi_dbm` and so on."""
        ...

    def judged(
        self, tables: Tables, *, technology: str, level: str, value: float, lead_loss_db: float
    ) -> Iterable[Constraint]:
        """Judge one level, in dBm or dB as its name says, behind the lead of an aerial."""
        ...
