"""How far apart the hooks of a roof sit."""

from collections.abc import Sequence

from ferrule.choose.offers.offer import Offer
from ferrule.clauses import Code
from ferrule.design import Design
from ferrule.job.firm import Firm
from ferrule.job.roof import Roof

_FEWEST = 4  # nobody leaves more than three rafters between two hooks


def _every(_design: Design, _code: Code, _firm: Firm, _face: str) -> Sequence[int]:
    """The fewest hooks first."""
    return range(_FEWEST, 0, -1)


HOOKS = Offer(
    "hooks",
    owners=lambda design: (face.id for face in design.house.job.faces if isinstance(face.roof, Roof)),
    given=lambda design, face: design.house.faces[face].hooks_every,
    candidates=_every,
    path="faces.{owner}.hooks_every",
)
