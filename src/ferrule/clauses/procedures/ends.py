"""What is asked about cable ends: sleeves, lugs, rings, glands, bends."""

from typing import Literal, NamedTuple, Protocol

from ferrule.clauses.procedures.base import Procedure
from ferrule.working import Trace

CableBend = Literal["plain", "screened", "solar", "data"]


class Sleeve(NamedTuple):
    """A sleeve on a stranded conductor, what to strip for it, and its colour by system (`din`, `din_other`,
    `older_german`, `french`). No colour goes without the size: systems differ, and one colour serves several.
    """

    area_mm2: float
    length_mm: float
    strip_mm: float
    colours: tuple[tuple[str, str], ...]


class Lug(NamedTuple):
    """A pressed lug: the die that presses it, its hole, and the least and most to strip for it."""

    area_mm2: float
    bolt_mm: float
    die: int
    hole_mm: float
    strip_least_mm: float
    strip_most_mm: float


class Gland(NamedTuple):
    """A gland by its thread: the hole it needs and the cables it holds, `wide` by a wide seal only."""

    thread_mm: float
    hole_mm: float
    from_mm: float
    to_mm: float
    wide: bool


class CableEnds(Procedure, Protocol):
    """How an end is prepared where neither the part nor its sheet says so."""

    def sleeve_lengths(self, t: Trace, *, area_mm2: float) -> tuple[float, ...]:
        """The lengths, in mm, that sleeves of a size are sold in. Raises `NotPrinted` for another size."""
        ...

    def sleeve(self, t: Trace, *, area_mm2: float, length_mm: float, insulated: bool) -> Sleeve:
        """The sleeve of a size and length, with a collar (insulated) or bare. Raises `NotPrinted` for a size
        that sleeves are not made in.
        """
        ...

    def twin_sleeve(self, t: Trace, *, area_mm2: float) -> bool:
        """Whether there are twin sleeves for two conductors of this size."""
        ...

    def lug(self, t: Trace, *, area_mm2: float, bolt_mm: float) -> Lug:
        """The pressed copper lug of a size for a bolt. Raises `NotPrinted` where there is none."""
        ...

    def lug_strip_mm(self, t: Trace, *, barrel_mm: float) -> float:
        """What to strip for a lug whose barrel was measured."""
        ...

    def shrink_mm(self, t: Trace, *, barrel_mm: float) -> float:
        """Length to cut of the heat-shrink over a lug with a barrel so deep and over the insulation."""
        ...

    def ring_colours(self, t: Trace, *, area_mm2: float, bolt_mm: float) -> tuple[str, ...]:
        """The insulated ring terminals that take conductor and bolt, by their colours; empty if none does."""
        ...

    def gland(self, t: Trace, *, outer_least_mm: float, outer_most_mm: float) -> Gland:
        """The smallest usual gland that holds every cable between two outer diameters with room to spare.
        Raises `NotPrinted` where none does. For planning: the bag of the gland in hand decides.
        """
        ...

    def gland_holds(
        self, t: Trace, *, outer_least_mm: float, outer_most_mm: float, from_mm: float, to_mm: float
    ) -> bool:
        """Whether a gland whose maker states its range holds the cable with room to spare."""
        ...

    def bend_radius_mm(self, t: Trace, *, cable: CableBend, outer_mm: float, laying: bool) -> float:
        """Least radius at the inner edge of a bend, while a cable is laid or once it is in place."""
        ...
