"""The air around a device and the height of its controls: what crews leave where the maker says nothing."""

from ferrule.clauses.procedures.place import Gap
from ferrule.working import Trace


class UsualGaps:
    """Common practice; no document was found."""

    needs = ("usual_gap", "reach_least", "reach_most")

    def gap_mm(self, t: Trace, *, gap: Gap) -> float:
        return t.read("usual_gap", gap)

    def reach_mm(self, t: Trace) -> tuple[float, float]:
        return t.figure("reach_least"), t.figure("reach_most")
