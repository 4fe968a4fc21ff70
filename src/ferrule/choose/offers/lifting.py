"""Who lifts a device into its place."""

from collections.abc import Sequence
from typing import get_args

from ferrule.choose.offers.offer import Offer
from ferrule.clauses import Code
from ferrule.design import Design
from ferrule.fact import Unknown
from ferrule.job.firm import Firm
from ferrule.job.lifting import Lifters


def _lifters(design: Design, _code: Code, _firm: Firm, _device: str) -> Sequence[Lifters]:
    """The fewest first, as many as are there, then an aid."""
    *people, aid = get_args(Lifters)
    crew = design.house.job.crew
    return [*(people if isinstance(crew, Unknown) else people[: len(crew)]), aid]


LIFTING = Offer(
    "lifting",
    owners=lambda design: (d.id for d in design.house.job.devices if hasattr(d, "lift")),
    given=lambda design, device: design.house.devices[device].lift.by,
    candidates=_lifters,
    path="devices.{owner}.lift.by",
)
