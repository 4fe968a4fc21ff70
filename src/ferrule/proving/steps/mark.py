"""Looking for what is hidden, marking out, and drilling."""

from collections.abc import Iterator, Sequence
from functools import partial

from ferrule.checks.fastening import base_of
from ferrule.checks.question import Subject
from ferrule.checks.subjects import faces
from ferrule.design import Design
from ferrule.fact import Missing, Unknown
from ferrule.job.array import Face
from ferrule.job.places import Siting
from ferrule.parts.anchor import InBase
from ferrule.proving.phrase import Words, named
from ferrule.proving.steps.plan import Plan, decided
from ferrule.proving.steps.step import Step

_DRILLING = ("caution.drilling", "caution.dust")


def steps(plan: Plan, _before: Sequence[Step]) -> Iterator[Step]:
    for wall in plan.house.walls.values():
        if wall.hung:
            yield plan.step(
                "mark", "search", Subject("wall", wall.wall.id), ["walk/house"], gate="licensed",
                drawing=f"wall/{wall.wall.id}", tools=("tool.detector",), cautions=_DRILLING,
                words=(("wall", wall.wall.id), ("services", named("services", wall.wall.services))),
            )  # fmt: skip
    for device in plan.house.job.devices:
        if hasattr(device, "at"):
            yield from _device(plan, device.id, device.at)
    for subject in faces(plan.design):
        yield from _face(plan, plan.house.faces[subject.id])


def _device(plan: Plan, device: str, at: Siting | Unknown) -> Iterator[Step]:
    subject, before = plan.subject(device), [f"deliver/{device}"]
    if isinstance(at, Unknown):
        where: Words = (("wall", at), ("left_mm", at), ("bottom_mm", at))
        drawing = ""
    else:
        where = (("wall", at.wall), ("left_mm", at.left_mm), ("bottom_mm", at.bottom_mm))
        before, drawing = [f"search/{at.wall}", *before], f"wall/{at.wall}"
    yield plan.step(
        "mark", "mark", subject, before, words=(("device", device), *where), drawing=drawing,
        tools=("tool.tape", "tool.level"), parts=(plan.house.devices[device].part,),
    )  # fmt: skip
    if drilled(plan, device):
        anchor, in_base = decided(plan.design.anchor, device), decided(partial(_in_base, plan.design), device)
        name, parts = (anchor, ()) if isinstance(anchor, Unknown) else (anchor.name, (anchor.id,))
        words: Words = (("device", device), ("anchor", name), *_hole(in_base))
        yield plan.step(
            "mark", "drill", subject, [f"mark/{device}"], words=words, drawing=f"drilling/{device}",
            tools=("tool.drill", "tool.extraction", "tool.torque_wrench"), cautions=_DRILLING,
            parts=parts,
        )  # fmt: skip


def drilled(plan: Plan, device: str) -> bool:
    """Whether a device is held by anchors, for all that is known."""
    return plan.house.hangs(device) or plan.house.devices[device].fixing.tied


def _in_base(design: Design, device: str) -> InBase:
    face, _ = design.house.hung(device)
    anchor = design.anchor(device)
    found = anchor.in_base(base_of(face, design.house.devices[device].fixing))
    if found is None:
        raise Missing(f"{device}: an anchor whose sheet knows the wall")
    return found


def _hole(in_base: InBase | Unknown) -> Words:
    if isinstance(in_base, Unknown):
        return (("hole_mm", in_base), ("depth_mm", in_base))
    return (("hole_mm", in_base.hole_mm), ("depth_mm", in_base.depth_mm))


def _face(plan: Plan, face: Face) -> Iterator[Step]:
    """Nobody goes up before it is known what holds them, nor drills before what lies beneath is known."""
    subject, roof = Subject("face", face.id), face.roof
    if roof == "none":
        return
    access, guard, under = (
        (roof,) * 3
        if isinstance(roof, Unknown)
        else (
            named("access", roof.access),
            named("fall", roof.fall_protection),
            named("services", roof.services),
        )
    )
    yield plan.step(
        "mark", "access", subject, ["walk/house"], gate="licensed",
        words=(("face", face.id), ("access", access), ("guard", guard)),
        cautions=("caution.height", "caution.weather"),
    )  # fmt: skip
    yield plan.step(
        "mark", "look", subject, [f"access/{face.id}"], gate="licensed", drawing=f"array/{face.id}",
        words=(("face", face.id), ("services", under)), cautions=("caution.height", *_DRILLING),
    )  # fmt: skip
