"""Whether what is made to stand on the floor stands there, and stays upright."""

import math
from collections.abc import Iterator

from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import hung_devices
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, is_so
from ferrule.design import Design
from ferrule.fact import Missing, all_known, known
from ferrule.layout.wall import Hung

_AS_WRITTEN_MM = 0.5  # heights are written to the millimetre


def _standing(design: Design, device: str) -> Hung | None:
    """A device that stands; None for one that hangs."""
    _, hung = design.house.hung(device)
    return hung if known(hung.body.mount) == "floor" else None


def on_the_floor(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """Nothing holds up in the air what is made to stand."""
    hung = _standing(design, subject.id)
    if hung is None:
        return None
    bottom_mm, plinth_mm = known(hung.siting.bottom_mm), _plinth_mm(design, subject.id)
    good = math.isclose(bottom_mm, plinth_mm, abs_tol=_AS_WRITTEN_MM)
    if good:
        said = "It stands on its plinth, {plinth_mm} high" if plinth_mm else "It stands on the floor"
    else:
        said = "It is made to stand, and is drawn {bottom_mm} above the floor; its plinth is {plinth_mm} high"
    return is_so(
        "on_the_floor",
        said,
        code.trace(),
        good,
        mend="set it on the floor, or state the plinth or frame that it stands on",
        bottom_mm=bottom_mm,
        plinth_mm=plinth_mm,
    )


def stands(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """Forwards it tips over its front, sideways over the nearer side; the wall is behind it. With a plinth
    both go over as one.
    """
    hung = _standing(design, subject.id)
    if hung is None:
        return
    body, mounting = hung.body, hung.body.mounting
    all_known(
        body.width_mm, body.depth_mm,
        mounting.gravity_out_mm, mounting.gravity_across_mm, mounting.gravity_up_mm,
    )  # fmt: skip
    across_mm = known(mounting.gravity_across_mm)
    inward_mm = min(
        known(body.depth_mm) - known(mounting.gravity_out_mm), across_mm, known(body.width_mm) - across_mm
    )
    if inward_mm < 0:
        raise Missing("its centre of gravity once more: it does not lie within the device")
    yield from covered(code.procedures.fixing).stands(
        code.rulebook,
        height_mm=known(mounting.gravity_up_mm) + _plinth_mm(design, subject.id),
        inward_mm=inward_mm,
        tied=design.house.devices[subject.id].fixing.tied,
    )


def _plinth_mm(design: Design, device: str) -> float:
    return design.house.devices[device].fixing.plinth_mm or 0.0


QUESTIONS = (
    Question("device.stands", "Does it stand without going over?", hung_devices, each(on_the_floor, stands)),
)
