"""What earthing and bonding leave open: the sizes of their conductors."""

from collections.abc import Sequence

from ferrule.choose.offers.offer import Offer, carried_first
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.design import Design
from ferrule.job.firm import Firm
from ferrule.quantity import Size


def _bonding_sizes(_design: Design, code: Code, firm: Firm, _bond: str) -> Sequence[Size]:
    return carried_first(covered(code.procedures.bonding).sizes(code.rulebook), firm.sizes)


def _earthing_sizes(_design: Design, code: Code, firm: Firm, _owner: str) -> Sequence[Size]:
    return carried_first(covered(code.procedures.earthing).sizes(code.rulebook), firm.sizes)


EARTHING = Offer(
    "earthing",
    owners=lambda _design: ["earth"],
    given=lambda design, _owner: design.house.job.earth.conductor,
    candidates=_earthing_sizes,
    path="earth.conductor",
)
BONDING = Offer(
    "bonding",
    owners=lambda design: design.house.bonding,
    given=lambda design, bond: design.house.bonding[bond].size,
    candidates=_bonding_sizes,
    path="earth.bonding.{owner}.size",
)
