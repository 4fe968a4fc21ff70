"""The neutral-earth bond in each switch position (IEC 60364-4-41, IEC 60364-5-55 clause 551.4)."""

from collections.abc import Iterator

from ferrule.constraint import Constraint, is_so
from ferrule.working import Tables, Trace


class SwitchedBond:
    """One bond in each steady position; none in an IT system; never two, not even in transit."""

    needs = ("links_per_state",)

    def bonds(self, tables: Tables, *, position: str, earthing: str, closed: int) -> Iterator[Constraint]:
        t = Trace(tables)
        wanted = 0 if earthing == "IT" else int(t.figure("links_per_state"))
        good = closed <= wanted if position == "transit" else closed == wanted
        yield is_so(
            "bonds",
            "{closed} neutral-earth bond(s) closed; there must be {wanted}"
            if position != "transit"
            else "{closed} neutral-earth bond(s) closed in transit; there may be {wanted} at most",
            t,
            good,
            closed=closed,
            wanted=wanted,
        )
