"""Neutral and earth in each switch position (IEC 60364-4-41:2005+AMD1, IEC 60364-5-55:2011 clause 551)."""

from collections.abc import Iterator, Sequence

from ferrule.constraint import Constraint, at_most, is_so
from ferrule.working import Tables, Trace


class SwitchedBond:
    """One bond in each steady position, none in an IT system, never two, not even in transit; the network's
    neutral leaves together with its lines, and the house then stands on its own electrode.
    """

    needs = (
        "links_per_state",
        "link_gap_most",
        "neutral_in_island",
        "pen_switching",
        "link_location",
        "island_electrode",
    )

    def bonds(self, tables: Tables, *, position: str, earthing: str, closed: int) -> Iterator[Constraint]:
        """551.4.3.2.1 with 411.4 and 411.6: a system is TN or TT by its one earthed point, IT by none."""
        t = Trace(tables)
        wanted = 0 if earthing == "IT" else int(t.figure("links_per_state"))
        good = closed <= wanted if position == "transit" else closed == wanted
        yield is_so(
            "bonds",
            "Neutral-earth bonds closed: {closed}; there must be {wanted}"
            if position != "transit"
            else "Neutral-earth bonds closed in transit: {closed}; there may be {wanted} at most",
            t,
            good,
            closed=closed,
            wanted=wanted,
        )

    def gap(self, tables: Tables, *, gap_s: float) -> Iterator[Constraint]:
        """NRS 097-2-1 clause 5.4."""
        t = Trace(tables)
        yield at_most(
            "gap",
            "For {value} no bond is closed while the source changes; {limit} is allowed",
            t,
            value=gap_s,
            limit=t.figure("link_gap_most"),
            unit="s",
        )

    def neutral(self, tables: Tables, *, earthing: str, through: bool, position: str) -> Iterator[Constraint]:
        """551.4.3.2; a combined conductor is never opened (543.4), and then only the lines are. Behind the
        transfer switch of a generator the neutral may stay (551.6.2), where one bond is left: a look, since
        the house then hangs on a neutral that an outage may have broken.
        """
        t = Trace(tables)
        if earthing == "TN-C":
            must_stay = t.term("pen_switching") == "forbidden"
        else:
            must_stay = t.term("neutral_in_island") == "through"
        yield is_so(
            "neutral",
            ("The network's neutral runs through" if through else "The network's neutral is opened")
            + ("; it must stay joined" if must_stay else "; it must be opened together with the lines"),
            t,
            through == must_stay,
            binding=must_stay or position != "generator",
            mend="take a device that lets the neutral run through and opens the lines only"
            if must_stay
            else "take a device that opens the neutral together with the lines",
        )  # fmt: skip

    def location(self, tables: Tables, *, behind: Sequence[str]) -> Iterator[Constraint]:
        """551.4: else the fault current bypasses the residual current device, or load current trips it."""
        t = Trace(tables)
        source_side = t.term("link_location") == "source_side_of_rcd"
        yield is_so(
            "location",
            "The bond stands behind the RCD of {behind}; it must be on the source side"
            if behind
            else "The bond is on the source side of every RCD",
            t,
            not (behind and source_side),
            mend="join neutral to earth on the source side of the RCD of {behind}",
            behind=", ".join(behind),
        )

    def electrode(self, tables: Tables, *, through: bool, fitted: bool) -> Iterator[Constraint]:
        """551.4.3.2.1: the earth of the network is not to be relied on while the house runs by itself."""
        t = Trace(tables)
        wanted = t.term("island_electrode")
        required = wanted == "required" or (wanted == "when_neutral_switched" and not through)
        yield is_so(
            "electrode",
            "The house has an earth electrode of its own"
            if fitted
            else "The house has no earth electrode of its own to stand on in island mode",
            t,
            fitted or not required,
            mend="fit an earth electrode and measure it",
        )
