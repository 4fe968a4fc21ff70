"""System bonding of a separately derived source (NFPA 70:2023, 250.30)."""

from collections.abc import Iterator

from ferrule.constraint import Constraint, is_so
from ferrule.working import Tables, Trace


class SourceBond:
    """A switched neutral makes the source separately derived, bonded at the source; a neutral that runs
    through is bonded at the service alone. Either way there is one bond, and never two.
    """

    needs = ("links_per_state",)

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
