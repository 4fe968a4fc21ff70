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
from ferrule.fact import Missing, Unknown, all_known, known
from ferrule.layout.corner import Box, body, box, met, standing
from ferrule.layout.wall import End, Hung, Rectangle, Side, WallFace, collisions
from ferrule.parts.body import Clearances


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
    own = ("device", subject.id)
    found = [
        other if (one.kind, one.name) == own else one
        for one, other in collisions(face.items())
        if own in {(one.kind, one.name), (other.kind, other.name)}
    ]
    return is_so(
        "nothing_in_the_way",
        "It meets {met}" if found else "Nothing else hangs where it hangs",
        code.trace(),
        not found,
        mend="move one of them",
        met=" and ".join(each.name for each in found),
    )


def corner(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """What stands at a wall that joins its own must leave it, and the air its maker asks for, alone."""
    face, hung = design.house.hung(subject.id)
    around = standing(design.house.walls, face)
    if not around:
        return
    clear = hung.body.clear
    all_known(clear.above_mm, clear.below_mm, clear.side_mm, clear.front_mm)
    own, asked, usual = body(hung), list[Box](), list[Box]()
    for gap in _GAPS:
        maker_mm: float | Literal["unstated"] = known(getattr(clear, f"{gap}_mm"))
        if maker_mm == "unstated":
            mm = covered(code.procedures.free_space).gap_mm(code.trace(), gap=gap)
            usual += _air_boxes(hung, own, gap, mm)
        else:
            asked += _air_boxes(hung, own, gap, maker_mm)
    for name, boxes, binding, what in (
        ("corner", [own, *asked], True, "or the air its maker asks for"),
        ("corner_air", usual, False, "or rather the air that is usual"),
    ):
        found = met(boxes, around)
        if boxes and any(not each.asks for each in around):
            yield is_so(
                name,
                "Round the corner it, {what}, meets {met}" if found else "Round the corner nothing meets it",
                code.trace(),
                not found,
                binding=binding,
                mend="move one of them away from the corner",
                what=what,
                met=" and ".join(found),
            )


def _air_boxes(hung: Hung, own: Box, gap: Gap, mm: float) -> list[Box]:
    """The air on one side of a device, or on two. What stands on the floor has none below."""
    r, depth_mm = hung.rectangle, known(hung.body.depth_mm)
    if not mm or (gap == "below" and hung.body.mount == "floor"):
        return []
    if gap == "front":
        return [box(own.name, own.kind, r, (depth_mm, depth_mm + mm))]
    beside: dict[Gap, list[Rectangle]] = {
        "above": [r._replace(bottom_mm=r.top_mm, top_mm=r.top_mm + mm)],
        "below": [r._replace(bottom_mm=r.bottom_mm - mm, top_mm=r.bottom_mm)],
        "side": [
            r._replace(left_mm=r.left_mm - mm, right_mm=r.left_mm),
            r._replace(left_mm=r.right_mm, right_mm=r.right_mm + mm),
        ],
    }
    return [box(own.name, own.kind, each, (0.0, depth_mm)) for each in beside[gap]]


_GAPS: tuple[Gap, ...] = ("above", "below", "side", "front")
_MAKER = "{value} are free {where} it, up to {what}; its maker asks for {limit}"
_USUAL = "{value} are free {where} it, up to {what}; its maker says nothing, {limit} is usual"
_WHERE: dict[Side, str] = {"above": "above", "below": "below", "left": "left of", "right": "right of"}


def air_above(design: Design, code: Code, subject: Subject) -> Constraint | None:
    return _air(design, code, subject, "above", "above")


def air_below(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """What stands on the floor has none below."""
    _, hung = design.house.hung(subject.id)
    return None if hung.body.mount == "floor" else _air(design, code, subject, "below", "below")


def air_left(design: Design, code: Code, subject: Subject) -> Constraint | None:
    return _air(design, code, subject, "left", "side")


def air_right(design: Design, code: Code, subject: Subject) -> Constraint | None:
    return _air(design, code, subject, "right", "side")


def _air(design: Design, code: Code, subject: Subject, side: Side, gap: Gap) -> Constraint | None:
    face, hung = design.house.hung(subject.id)
    free_mm, what = face.free_mm(subject.id, side)
    if not math.isfinite(free_mm):
        if side == "left" or side == "right":
            _past_the_end(code, face, hung, side)
        return None
    return _gap(code, f"air_{side}", _WHERE[side], gap, hung.body.clear, free_mm, what)


def _past_the_end(code: Code, face: WallFace, hung: Hung, end: End) -> None:
    """Raises `Missing` where its air reaches beyond the end of a wall and nobody said what is there."""
    joined = face.end(end)
    if isinstance(joined, Unknown):
        maker_mm: float | Literal["unstated"] = known(hung.body.clear.side_mm)
        usual = covered(code.procedures.free_space)
        wanted_mm = usual.gap_mm(code.trace(), gap="side") if maker_mm == "unstated" else maker_mm
        if face.to_end_mm(hung.rectangle, end) < wanted_mm:
            raise Missing(joined.ask)


def air_front(design: Design, code: Code, subject: Subject) -> Constraint | None:
    _, hung = design.house.hung(subject.id)
    front_mm: float | Literal["open"] = known(hung.siting.front_mm)
    if front_mm == "open":
        return None
    return _gap(code, "air_front", "before", "front", hung.body.clear, front_mm, "what stands opposite")


def _gap(
    code: Code, name: str, where: str, gap: Gap, clear: Clearances, free_mm: float, what: str
) -> Constraint:
    """What a maker asks for binds; where his manual names nothing, what is usual makes a caution at worst."""
    t = code.trace()
    maker_mm: float | Literal["unstated"] = known(getattr(clear, f"{gap}_mm"))
    silent = maker_mm == "unstated"
    return at_least(
        name,
        _USUAL if silent else _MAKER,
        t,
        value=t.given("free_mm", free_mm, f"up to {what}"),
        limit=covered(code.procedures.free_space).gap_mm(t, gap=gap) if maker_mm == "unstated" else maker_mm,
        unit="mm",
        binding=not silent,
        mend="move it, or what is in its way",
        where=where,
        what=what,
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
        each(on_wall, nothing_in_the_way, corner, air_above, air_below, air_left, air_right, air_front),
    ),
    Question("device.reach", "Can its display and switches be read and reached?", hung_devices, each(reach)),
)
