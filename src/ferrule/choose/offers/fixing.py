"""What holds a device to its wall: the anchors at hand."""

from collections.abc import Sequence

from ferrule.checks.fastening import base_of
from ferrule.choose.offers.offer import Offer
from ferrule.clauses import Code
from ferrule.design import Design
from ferrule.fact import Missing
from ferrule.job.firm import Firm
from ferrule.parts import Anchor


def _anchors(design: Design, _code: Code, _firm: Firm, device: str) -> Sequence[str]:
    """Those made for this wall, each by the hole it needs: the thinnest, then the shallowest. Where none is
    made for it all of them, so that the finding says that.
    """
    anchors = [part for part in design.house.job.parts if isinstance(part, Anchor)]
    if not anchors:
        raise Missing("which anchors are at hand: their ids under 'anchors' in the firm's file")
    base = base_of(design.house.hung(device)[0], design.house.devices[device].fixing)

    def size(anchor: Anchor) -> tuple[float, float]:
        in_base = anchor.in_base(base) or anchor.bases[0]
        return in_base.hole_mm, in_base.depth_mm

    made_for_it = [anchor for anchor in anchors if anchor.in_base(base)]
    return [anchor.id for anchor in sorted(made_for_it or anchors, key=size)]


ANCHOR = Offer(
    "anchor",
    owners=lambda design: [
        device.id
        for device in design.house.job.devices
        if hasattr(device, "fixing") and design.house.hangs(device.id)
    ],
    given=lambda design, device: design.house.devices[device].fixing.anchor,
    candidates=_anchors,
    path="devices.{owner}.fixing.anchor",
    graded=False,
)
