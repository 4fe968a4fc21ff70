"""Whether a person can stand and work before a device: the space there, and no door that swings into it."""

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import product
from typing import Literal

from ferrule.checks.question import Question, Subject, each
from ferrule.checks.string_voltage import highest_on_input_v
from ferrule.checks.subjects import hung_devices
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.clauses.procedures.place import Opposite, Room
from ferrule.constraint import Constraint, is_so
from ferrule.design import Design
from ferrule.fact import Missing, Unknown, all_known, known
from ferrule.job.devices import BatteryDevice
from ferrule.layout.corner import Neighbour, body, box, met, standing, swing, swinging
from ferrule.layout.wall import End, Hung, WallFace, spot

_OPPOSITE: tuple[Opposite, ...] = ("live", "earthed", "clear")


def working_space(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """What nobody has said of what is opposite or round the corner is asked for where it matters."""
    face, hung = design.house.hung(subject.id)
    all_known(hung.siting.front_mm, face.place.headroom_mm)
    depth_mm: float | Literal["open"] = known(hung.siting.front_mm)
    headroom_mm: float | Literal["open"] = known(face.place.headroom_mm)
    space = covered(code.procedures.working_space)
    to_earth_v = _to_earth_v(design, code, subject.id) if space.by_voltage else 0.0

    def judged(opposite: Opposite, around: Iterable[Neighbour]) -> list[Constraint]:
        space_mm = space.depth_mm(code.trace(), to_earth_v=to_earth_v, opposite=opposite)
        room = Room(
            depth_mm=None if depth_mm == "open" else depth_mm,
            width_mm=_free_width_mm(face, hung, around, space_mm),
            headroom_mm=None if headroom_mm == "open" else headroom_mm,
        )
        return list(space.room(code.rulebook, to_earth_v=to_earth_v, opposite=opposite, room=room))

    around = standing(design.house.walls, face)
    facing = _facing(hung, space.by_voltage)
    certain = [each for each in around if not each.asks]
    worst, *others = [judged(*case) for case in product(facing, (around, certain))]
    if any([c.verdict for c in other] != [c.verdict for c in worst] for other in others):
        asks = [ask for each in around for ask in each.asks]
        if len(facing) > 1 and isinstance(hung.siting.opposite, Unknown):
            asks.append(hung.siting.opposite.ask)
        raise Missing(*dict.fromkeys(asks))
    yield from worst


def _facing(hung: Hung, matters: bool) -> Sequence[Opposite]:
    """What may be opposite, the worst first."""
    if hung.siting.front_mm == "open" or not matters:
        return ("clear",)
    opposite = hung.siting.opposite
    return _OPPOSITE if isinstance(opposite, Unknown) else (opposite,)


def _to_earth_v(design: Design, code: Code, device: str) -> float:
    """The highest voltage to earth inside a device, in V: of the network's lines and of the strings and
    batteries that lead into it; of a battery its own. Raises `Missing`.
    """
    if isinstance(design.house.devices[device], BatteryDevice):
        return known(design.battery(device).voltage_high_v)
    strings = [terminal for terminal in design.house.inputs if terminal.partition(".")[0] == device]
    ends = [link.other(f"{device}.battery") for link in design.house.topology.at(f"{device}.battery")]
    return max(
        *(line.voltage_v for line in design.house.job.supply.live),
        0.0,
        *(highest_on_input_v(design, code, terminal)[1] for terminal in strings),
        *(known(design.battery(end).voltage_high_v) for end in ends if end in design.house.devices),
    )


def _free_width_mm(face: WallFace, own: Hung, around: Iterable[Neighbour], space_mm: float) -> float:
    """How wide the floor before a device is free: the device itself and what it leaves to either side, up to
    what stands out further than the device does, or stands before it round the corner.
    """
    own_mm, rectangle = known(own.body.depth_mm), own.rectangle
    left_mm = 0.0 if _closed(face, "left") else -math.inf
    right_mm = face.outline.right_mm if _closed(face, "right") else math.inf
    beside = [(spot(t), known(t.depth_mm)) for t in known(face.wall.things) if t.kind != "pipe"]
    beside += [(other.rectangle, known(other.body.depth_mm)) for other in face.hung if other is not own]
    spans = [(other.left_mm, other.right_mm) for other, depth_mm in beside if depth_mm > own_mm]
    for near in around:
        along, out = zip(*near.box.plan, strict=True)
        if near.box.kind != "pipe" and min(out) < own_mm + space_mm and max(out) > own_mm:
            spans.append((min(along), max(along)))
    for from_mm, to_mm in spans:
        if to_mm <= rectangle.left_mm:
            left_mm = max(left_mm, to_mm)
        elif from_mm >= rectangle.right_mm:
            right_mm = min(right_mm, from_mm)
        else:
            return 0.0  # it stands where a person would
    return right_mm - left_mm


def _closed(face: WallFace, end: End) -> bool:
    """Whether nobody can stand beyond the end of a wall, for all that is known."""
    return isinstance(face.end(end), Unknown) or face.ends(end)


def door_swing(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """A leaf that swings out before its wall, or round the corner, must not reach the device."""
    face, hung = design.house.hung(subject.id)
    own = [(opening.kind, swept) for opening in known(face.wall.openings) if (swept := swing(opening))]
    leaves = [Neighbour(box(kind, "swing", s.rectangle, (0.0, s.out_mm)), s.asks) for kind, s in own]
    leaves += swinging(design.house.walls, face)
    if not leaves:
        return None
    reached = met([body(hung)], leaves)
    return is_so(
        "door_swing",
        "The {what} swings onto it" if reached else "No door swings onto it",
        code.trace(),
        not reached,
        binding=False,
        mend="hang it beyond the swing, or hang the door the other way round",
        what=" and the ".join(reached),
    )


QUESTIONS = (
    Question(
        "device.working_space",
        "Can a person stand and work before it?",
        hung_devices,
        each(working_space, door_swing),
    ),
)
