"""What is asked about neutral and earth, earthing and bonding."""

from collections.abc import Iterable, Sequence
from typing import Protocol

from ferrule.clauses.procedures.base import Procedure
from ferrule.constraint import Constraint
from ferrule.quantity import Size
from ferrule.working import Tables


class NeutralEarth(Procedure, Protocol):
    """Where the neutral is joined to earth in each switch position, and how often."""

    def bonds(self, tables: Tables, *, position: str, earthing: str, closed: int) -> Iterable[Constraint]:
        """Judge the number of closed bonds joined to the neutral of the energised part."""
        ...

    def gap(self, tables: Tables, *, gap_s: float) -> Iterable[Constraint]:
        """Judge how long the house may be without a bond while its source changes."""
        ...

    def neutral(self, tables: Tables, *, earthing: str, through: bool, position: str) -> Iterable[Constraint]:
        """Judge whether the network's neutral is opened or runs through in island mode or on a generator."""
        ...

    def location(self, tables: Tables, *, behind: Sequence[str]) -> Iterable[Constraint]:
        """Judge where a bond stands: `behind` which residual current devices, as seen from the source."""
        ...

    def electrode(self, tables: Tables, *, through: bool, fitted: bool) -> Iterable[Constraint]:
        """Judge whether island mode needs an earth electrode of the house's own."""
        ...


class Earthing(Procedure, Protocol):
    """The earth electrode and the conductor that leads to it."""

    def conductor(self, tables: Tables, *, size: Size) -> Iterable[Constraint]:
        """Judge the size of the earthing conductor, of copper."""
        ...

    def touch_voltage(
        self, tables: Tables, *, electrode_ohm: float, residual_a: float
    ) -> Iterable[Constraint]:
        """Judge an electrode against the residual current device that relies on it."""
        ...

    def stable(self, tables: Tables, *, electrode_ohm: float) -> Iterable[Constraint]:
        """Judge whether an electrode is good enough to stay what it is."""
        ...

    def sizes(self, tables: Tables) -> tuple[Size, ...]:
        """The conductor sizes on offer, thinnest first."""
        ...


class Bonding(Procedure, Protocol):
    """Conductors that hold metal parts at one potential; all of copper."""

    def main(self, tables: Tables, *, size: Size, largest_protective: Size) -> Iterable[Constraint]:
        """Judge a main bonding conductor, given the largest protective conductor of the installation."""
        ...

    def supplementary(
        self, tables: Tables, *, size: Size, protective: Size, protected: bool
    ) -> Iterable[Constraint]:
        """Judge bonding from exposed to extraneous metal, given the protective conductor of the former."""
        ...

    def array(self, tables: Tables, *, size: Size, lightning: str) -> Iterable[Constraint]:
        """Judge the bonding conductor of an array's frame; `lightning` is none, separated or bonded."""
        ...

    def sizes(self, tables: Tables) -> tuple[Size, ...]:
        """The conductor sizes on offer, thinnest first."""
        ...
