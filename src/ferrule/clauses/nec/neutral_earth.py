"""System bonding of a separately derived source (NFPA 70:2023, 250.30)."""

from collections.abc import Iterator, Sequence

from ferrule.constraint import Constraint, is_so
from ferrule.working import Tables, Trace


class SourceBond:
    """A switched neutral makes the source separately derived, bonded at the source; a neutral that runs
    through is bonded at the service alone. Either way there is one bond, and never two.
    """

    needs = ("links_per_state", "neutral_in_island", "island_electrode")

    def bonds(self, tables: Tables, *, position: str, earthing: str, closed: int) -> Iterator[Constraint]:
        t = Trace(tables)
        wanted = int(t.figure("links_per_state"))
        good = closed <= wanted if position == "transit" else closed == wanted
        yield is_so(
            "bonds",
            "{closed} system bonding jumper(s) in effect; there must be {wanted}",
            t,
            good,
            closed=closed,
            wanted=wanted,
        )

    def gap(self, tables: Tables, *, gap_s: float) -> Iterator[Constraint]:
        """No limit is stated for the moment of transfer."""
        return iter(())

    def neutral(self, tables: Tables, *, earthing: str, through: bool, position: str) -> Iterator[Constraint]:
        """250.30: either way is open to the designer; each then asks for its own bond."""
        t = Trace(tables)
        yield is_so(
            "neutral",
            "The neutral runs through; the source is not separately derived"
            if through
            else "The neutral is switched; the source is separately derived",
            t,
            t.term("neutral_in_island") == "either",
        )

    def location(self, tables: Tables, *, behind: Sequence[str]) -> Iterator[Constraint]:
        """250.30(A)(1): the jumper stands at the source or its first disconnect, before any GFCI."""
        yield is_so(
            "location",
            "The system bonding jumper stands behind the ground-fault device of {behind}"
            if behind
            else "The system bonding jumper stands before every ground-fault device",
            Trace(tables),
            not behind,
            mend="move the system bonding jumper to the source",
            behind=", ".join(behind),
        )

    def electrode(self, tables: Tables, *, through: bool, fitted: bool) -> Iterator[Constraint]:
        """250.30(A)(4): a separately derived source needs a grounding electrode."""
        t = Trace(tables)
        required = t.term("island_electrode") == "when_neutral_switched" and not through
        yield is_so(
            "electrode",
            "The house has a grounding electrode"
            if fitted
            else "The house has no grounding electrode for a separately derived source",
            t,
            fitted or not required,
            mend="fit a grounding electrode",
        )
