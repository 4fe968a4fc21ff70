"""What a string leaves open, and how many modules a remedy may propose."""

from collections.abc import Sequence

from ferrule.choose.offers.offer import Offer
from ferrule.clauses import Code
from ferrule.design import Design
from ferrule.job.firm import Firm


def _counts(design: Design, _code: Code, _firm: Firm, string: str) -> Sequence[int]:
    """Nearest count first, so that a remedy changes as little as it can."""
    given = design.house.strings[string].modules
    return sorted(range(1, 2 * given + 1), key=lambda count: (abs(count - given), count))


MODULES = Offer(
    "modules",
    owners=lambda design: design.house.strings,
    given=lambda design, string: design.house.strings[string].modules,
    candidates=_counts,
    path="strings.{owner}.modules",
)
