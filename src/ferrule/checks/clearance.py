"""Whether a device has room on its wall: nothing in its way, its air, space to work, controls in reach."""

import math
from collections.abc import Iterator
from typing import Literal

from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import hung_devices
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.clauses.procedures.place import Gap
from ferrule.constraint import Constraint, at_least, is_so, within
from ferrule.design import Design
from ferrule.fact import Fact, Unknown, all_known, known
from ferrule.layout.wall import Side, WallFace, collisions, spot


def on_wall(design: Design, code: Code, subject: Subject) -> Constraint:
    face, hung = design.house.hung(subject.id)
    good = hung.rectangle.within(face.outline)
    return is_so(
        "on_wall",
        "It lies on the wall '{wall}' with its whole back" if good else "It reaches beyond the wall '{wall}'",
        code.trace(),
        good,
        mend="hang it further in, or take a wider wall",
        wall=face.wall.id,
    )


def nothing_in_the_way(design: Design, code: Code, subject: Subject) -> Constraint:
    """Two rectangles that overlap cannot both hang there."""
    face, _ = design.house.hung(subject.id)
    met = [
        other.name if one.name == subject.id else one.name
        for one, other in collisions(face.items())
        if subject.id in {one.name, other.name}
    ]
    return is_so(
        "nothing_in_the_way",
        "It meets {met}" if met else "Nothing else hangs where it hangs",
        code.trace(),
        not met,
        mend="move one of them",
        met=" and ".join(met),
    )


_MAKER = "{value} are free {where} it, up to {what}; its maker asks for {limit}"
_USUAL = "{value} are free {where} it, up to {what}; its maker says nothing, {limit} is usual"
_WHERE: dict[Side, str] = {"above": "above", "below": "below", "left": "left of", "right": "right of"}


def air(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """Free space at each side. What a maker asks for binds; what is usual can make a caution at worst."""
    face, hung = design.house.hung(subject.id)
    clear = hung.body.clear
    wanted: tuple[tuple[Side, Gap, Fact[float]], ...] = (
        ("above", "above", clear.above_mm),
        ("below", "below", clear.below_mm),
        ("left", "side", clear.side_mm),
        ("right", "side", clear.side_mm),
    )
    for side, gap, maker_mm in wanted:
        if side == "below" and hung.body.mount == "floor":
            continue
        free_mm, what = face.free_mm(subject.id, side)
        if not math.isfinite(free_mm):
            continue
        yield _gap(code, f"air_{side}", _WHERE[side], gap, maker_mm, free_mm, what)


def air_before(design: Design, code: Code, subject: Subject) -> Constraint | None:
    _, hung = design.house.hung(subject.id)
    front_mm: float | Literal["open"] = known(hung.siting.front_mm)
    if front_mm == "open":
        return None
    return _gap(
        code, "air_front", "before", "front", hung.body.clear.front_mm, front_mm, "what stands opposite"
    )


def _gap(
    code: Code, name: str, where: str, gap: Gap, maker_mm: Fact[float], free_mm: float, what: str
) -> Constraint:
    t = code.trace()
    silent = isinstance(maker_mm, Unknown)
    return at_least(
        name,
        _USUAL if silent else _MAKER,
        t,
        value=t.given("free_mm", free_mm, f"up to {what}"),
        limit=covered(code.procedures.free_space).gap_mm(t, gap=gap) if silent else known(maker_mm),
        unit="mm",
        binding=not silent,
        mend="move it, or what is in its way",
        where=where,
        what=what,
    )


def working_space(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    face, hung = design.house.hung(subject.id)
    all_known(hung.siting.front_mm, face.place.headroom_mm)
    depth_mm: float | Literal["open"] = known(hung.siting.front_mm)
    headroom_mm: float | Literal["open"] = known(face.place.headroom_mm)
    yield from covered(code.procedures.working_space).room(
        code.rulebook,
        depth_mm=None if depth_mm == "open" else depth_mm,
        width_mm=_free_width_mm(face, subject.id),
        headroom_mm=None if headroom_mm == "open" else headroom_mm,
    )


def _free_width_mm(face: WallFace, device: str) -> float:
    """How wide the floor before a device is free: the device itself and what it leaves to either side, up to
    what stands out further than the device does.
    """
    own = next(hung for hung in face.hung if hung.id == device)
    own_mm, rectangle = known(own.body.depth_mm), own.rectangle
    left_mm, right_mm = face.outline.left_mm, face.outline.right_mm
    beside = [(t.depth_mm, spot(t)) for t in known(face.wall.things) if t.kind != "pipe"]
    beside += [(known(other.body.depth_mm), other.rectangle) for other in face.hung if other is not own]
    for depth_mm, other in beside:
        if depth_mm > own_mm and other.right_mm <= rectangle.left_mm:
            left_mm = max(left_mm, other.right_mm)
        elif depth_mm > own_mm and other.left_mm >= rectangle.right_mm:
            right_mm = min(right_mm, other.left_mm)
        elif depth_mm > own_mm:
            return 0.0  # it stands where a person would
    return right_mm - left_mm


def door_swing(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """A leaf that swings out before the wall must not reach the device, nor whoever stands there."""
    face, hung = design.house.hung(subject.id)
    rectangle = hung.rectangle
    swinging = [opening for opening in known(face.wall.openings) if opening.swings_mm]
    if not swinging:
        return None
    reached = [
        opening.kind
        for opening in swinging
        if spot(opening)
        ._replace(
            left_mm=opening.left_mm - opening.swings_mm,
            right_mm=opening.left_mm + opening.width_mm + opening.swings_mm,
        )
        .overlaps(rectangle)
    ]
    return is_so(
        "door_swing",
        "The {what} swings onto it" if reached else "No door swings onto it",
        code.trace(),
        not reached,
        binding=False,
        mend="hang it beyond the swing, or hang the door the other way round",
        what=" and the ".join(reached),
    )


def reach(design: Design, code: Code, subject: Subject) -> Constraint | None:
    _, hung = design.house.hung(subject.id)
    if hung.body.controls_mm is None:
        return None
    t = code.trace()
    low_mm, high_mm = covered(code.procedures.free_space).reach_mm(t)
    return within(
        "controls_height",
        "Its display and switches are {value} above the floor; from {low} to {high} they are within reach",
        t,
        value=known(hung.siting.bottom_mm) + hung.body.controls_mm,
        low=low_mm,
        high=high_mm,
        unit="mm",
        binding=False,
        mend="hang it so that they come within reach",
    )


QUESTIONS = (
    Question(
        "device.room",
        "Does it fit where it hangs, with the air it needs?",
        hung_devices,
        each(on_wall, nothing_in_the_way, air, air_before),
    ),
    Question(
        "device.working_space",
        "Can a person stand and work before it?",
        hung_devices,
        each(working_space, door_swing),
    ),
    Question("device.reach", "Can its display and switches be read and reached?", hung_devices, each(reach)),
)
