"""What stands at the walls that join a wall at its ends, seen from that wall.

In plan a point lies some way along the wall, from its left end, and some way out from its face. A neighbour's
points are turned about the corner by the angle between the two faces, on the side where a person stands.
"""

import math
from collections.abc import Callable, Iterable, Iterator, Mapping
from itertools import pairwise
from typing import NamedTuple

from ferrule.fact import Missing, Unknown, known
from ferrule.job.places import Corner, Opening
from ferrule.layout.wall import End, Hung, Rectangle, WallFace, spot

Point = tuple[float, float]

#: the corner that is tried where nobody said how two walls of a place meet
SQUARE_DEG = 90.0
# Two that touch do not meet: what turning leaves of a common edge is far below a tenth of a millimetre.
_TOUCH_MM = 1e-6
_OPPOSITE: Mapping[End, End] = {"left": "right", "right": "left"}


class Box(NamedTuple):
    """What something takes up: a convex outline in plan, and the heights between which it stands."""

    name: str
    kind: str
    plan: tuple[Point, ...]
    bottom_mm: float
    top_mm: float

    def meets(self, other: "Box") -> bool:
        """Whether the two share a volume; a common face is none."""
        return (
            self.bottom_mm < other.top_mm and other.bottom_mm < self.top_mm and not self._parted_from(other)
        )

    def distance_mm(self, other: "Box") -> float:
        """Shortest distance between the two, in mm; 0 where they touch or meet."""
        upwards_mm = max(other.bottom_mm - self.top_mm, self.bottom_mm - other.top_mm, 0.0)
        across_mm = _plan_distance_mm(self.plan, other.plan) if self._parted_from(other) else 0.0
        return math.hypot(upwards_mm, across_mm)

    def _parted_from(self, other: "Box") -> bool:
        """Whether a line parts the two in plan: one along a side of either, for both are convex."""
        return any(_apart(self.plan, other.plan, normal) for normal in (*_normals(self), *_normals(other)))


class Neighbour(NamedTuple):
    """Something round a corner; `asks` is what to find out where nobody knows whether it stands there."""

    box: Box
    asks: tuple[str, ...] = ()


class Swing(NamedTuple):
    """What the leaf of an opening sweeps over its wall, and how far out; the most it may where `asks` says
    what was not measured.
    """

    rectangle: Rectangle
    out_mm: float
    asks: tuple[str, ...]


def box(name: str, kind: str, rectangle: Rectangle, out_mm: tuple[float, float]) -> Box:
    """What stands before a wall, over a rectangle of it, between two distances from its face."""
    near_mm, far_mm = out_mm
    left_mm, right_mm = rectangle.left_mm, rectangle.right_mm
    plan = ((left_mm, near_mm), (right_mm, near_mm), (right_mm, far_mm), (left_mm, far_mm))
    return Box(name, kind, plan, rectangle.bottom_mm, rectangle.top_mm)


def body(hung: Hung) -> Box:
    """A device as it stands out from its wall. Raises `Missing`."""
    return box(hung.id, "device", hung.rectangle, (0.0, known(hung.body.depth_mm)))


def swing(opening: Opening) -> Swing | None:
    """The leaf sweeps its opening, and as much again at its hinges: it may come round until it lies on the
    wall. A leaf that was not measured is as wide as its opening. None for one that does not swing out here.
    """
    if opening.kind == "vent" or opening.swings_mm == 0:
        return None
    asks = tuple(fact.ask for fact in (opening.swings_mm, opening.hinges) if isinstance(fact, Unknown))
    frame = spot(opening)
    out_mm = frame.width_mm if isinstance(opening.swings_mm, Unknown) else opening.swings_mm
    hinges = "both" if isinstance(opening.hinges, Unknown) else opening.hinges
    swept = frame._replace(
        left_mm=frame.left_mm - (out_mm if hinges in {"left", "both"} else 0.0),
        right_mm=frame.right_mm + (out_mm if hinges in {"right", "both"} else 0.0),
    )
    return Swing(swept, out_mm, asks)


def standing(walls: Mapping[str, WallFace], face: WallFace) -> list[Neighbour]:
    """The devices and things round the corners of a wall. Raises `Missing`."""
    return list(_round_corners(walls, face, _standing))


def swinging(walls: Mapping[str, WallFace], face: WallFace) -> list[Neighbour]:
    """The doors and windows that swing round the corners of a wall. Raises `Missing`."""
    return list(_round_corners(walls, face, _swinging))


def met(boxes: Iterable[Box], around: Iterable[Neighbour]) -> list[str]:
    """The names of what any of the boxes meets. Raises `Missing` where that only might stand there."""
    own = list(boxes)
    found = [neighbour for neighbour in around if any(each.meets(neighbour.box) for each in own)]
    certain = [neighbour.box.name for neighbour in found if not neighbour.asks]
    if found and not certain:
        raise Missing(*dict.fromkeys(ask for neighbour in found for ask in neighbour.asks))
    return certain


def _round_corners(
    walls: Mapping[str, WallFace], face: WallFace, of: Callable[[WallFace], Iterator[Neighbour]]
) -> Iterator[Neighbour]:
    """What stands at the walls that join one. Where its end is unknown, every other wall of the place whose
    end is unknown too is tried there in a square corner.
    """
    for end, opposite in _OPPOSITE.items():
        joined = face.end(end)
        if isinstance(joined, Corner):
            other, angle_deg = walls[joined.wall], known(joined.angle_deg)
            found = [*of(other), *([Neighbour(_itself(other))] if angle_deg < SQUARE_DEG else [])]
            yield from (_turned(each, face, other, end, angle_deg) for each in found)
        elif isinstance(joined, Unknown):
            for other in walls.values():
                if (
                    other is not face
                    and other.place is face.place
                    and isinstance(other.end(opposite), Unknown)
                ):
                    yield from (
                        _turned(each._replace(asks=(joined.ask, *each.asks)), face, other, end, SQUARE_DEG)
                        for each in of(other)
                    )


def _open(face: WallFace, end: End) -> bool:
    """Whether anything might join a wall there, for all that was said."""
    return isinstance(face.end(end), Unknown)


def _standing(face: WallFace) -> Iterator[Neighbour]:
    yield from (Neighbour(body(hung)) for hung in face.hung)
    for thing in known(face.wall.things):
        yield Neighbour(box(thing.name, thing.kind, spot(thing), (0.0, known(thing.depth_mm))))


def _swinging(face: WallFace) -> Iterator[Neighbour]:
    for opening in known(face.wall.openings):
        if swept := swing(opening):
            yield Neighbour(box(opening.kind, "swing", swept.rectangle, (0.0, swept.out_mm)), swept.asks)


def _itself(face: WallFace) -> Box:
    """In a corner sharper than a square one the other wall leans over what stands before this one."""
    return box("the other wall", "wall", face.outline, (-1.0, 0.0))


def _turned(found: Neighbour, face: WallFace, other: WallFace, end: End, angle_deg: float) -> Neighbour:
    """A neighbour, turned about the corner. At a right end the other wall begins with its left end."""
    cos, sin = math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg))

    def at(point: Point) -> Point:
        along_mm, out_mm = point
        if end == "left":
            along_mm = other.outline.right_mm - along_mm
            return along_mm * cos + out_mm * sin, along_mm * sin - out_mm * cos
        return face.outline.right_mm - along_mm * cos - out_mm * sin, along_mm * sin - out_mm * cos

    return found._replace(box=found.box._replace(plan=tuple(at(point) for point in found.box.plan)))


def _normals(each: Box) -> Iterator[Point]:
    for (x, y), (next_x, next_y) in pairwise((*each.plan, each.plan[0])):
        length = math.hypot(next_x - x, next_y - y)
        if length:
            yield (next_y - y) / length, (x - next_x) / length


def _apart(one: tuple[Point, ...], other: tuple[Point, ...], normal: Point) -> bool:
    """Whether a line square to the normal parts the two."""
    first, second = ([x * normal[0] + y * normal[1] for x, y in plan] for plan in (one, other))
    return max(first) <= min(second) + _TOUCH_MM or max(second) <= min(first) + _TOUCH_MM


def _plan_distance_mm(one: tuple[Point, ...], other: tuple[Point, ...]) -> float:
    """Of two outlines that do not meet, a corner of one and a side of the other lie nearest."""
    return min(
        _to_side_mm(point, start, stop)
        for points, sides in ((one, other), (other, one))
        for point in points
        for start, stop in pairwise((*sides, sides[0]))
    )


def _to_side_mm(point: Point, start: Point, stop: Point) -> float:
    across, up = stop[0] - start[0], stop[1] - start[1]
    square = across**2 + up**2
    share = ((point[0] - start[0]) * across + (point[1] - start[1]) * up) / square if square else 0.0
    share = min(max(share, 0.0), 1.0)
    return math.hypot(point[0] - start[0] - share * across, point[1] - start[1] - share * up)
