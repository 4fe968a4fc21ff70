"""What a circuit leaves open: the rating of its device and the size of its conductors."""

from collections.abc import Sequence

from ferrule.choose.offers.offer import Offer, amperes, carried_first
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.design import Design
from ferrule.job.firm import Firm
from ferrule.quantity import Size


def _ratings(design: Design, code: Code, firm: Firm, circuit: str) -> Sequence[float]:
    kind = design.house.circuits[circuit].device.kind
    return carried_first(covered(code.procedures.conductor).ratings_a(code.rulebook, kind), firm.ratings_a)


def _sizes(design: Design, code: Code, firm: Firm, run: str) -> Sequence[Size]:
    if run in design.house.string_runs:
        sizes = covered(code.procedures.dc_conductor).sizes(code.rulebook)
    else:
        sizes = covered(code.procedures.conductor).sizes(code.rulebook)
    return carried_first(sizes, firm.sizes)


RATING = Offer(
    "rating",
    owners=lambda design: [circuit.id for circuit in design.house.from_origin],
    given=lambda design, circuit: design.house.circuits[circuit].device.rating_a,
    candidates=_ratings,
    path="circuits.{owner}.device.rating",
    spell=amperes,
)
CONDUCTOR = Offer(
    "conductor",
    owners=lambda design: [*(circuit.run for circuit in design.house.from_origin), *design.house.string_runs],
    given=lambda design, run: design.house.runs[run].size,
    candidates=_sizes,
    path="runs.{owner}.size",
)
