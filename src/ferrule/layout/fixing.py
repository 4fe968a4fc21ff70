"""Where the fixing holes of a device come to lie on its wall, and how far from what weakens it."""

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import NamedTuple

from ferrule.clauses.anchors import Near, Sides
from ferrule.fact import Missing, all_known, known
from ferrule.job.fixing import Backing, Fixing
from ferrule.job.places import Wall
from ferrule.layout.wall import Hung, Rectangle, WallFace, spot


class Point(NamedTuple):
    """A point on a wall, from its left end and from the floor."""

    x_mm: float
    y_mm: float

    @property
    def rectangle(self) -> Rectangle:
        return Rectangle(self.x_mm, self.y_mm, self.x_mm, self.y_mm)


def holes(hung: Hung) -> tuple[Point, ...]:
    """The fixing holes of a device, of all its packs. Raises `Missing`."""
    outline, holes = hung.rectangle, known(hung.body.mounting.holes)
    step_mm = known(hung.body.width_mm) + (hung.siting.pack_gap_mm or 0.0)
    return tuple(
        Point(outline.left_mm + pack * step_mm + hole.x_mm, outline.bottom_mm + hole.y_mm)
        for pack in range(hung.packs)
        for hole in holes
    )


def spacing_mm(points: Sequence[Point]) -> float:
    """Distance of the two points nearest each other; infinite for a single one."""
    gaps = (math.dist(one, other) for at, one in enumerate(points) for other in points[at + 1 :])
    return min(gaps, default=math.inf)


#: the way from a point to an edge of what it sits in: across and up
Way = tuple[float, float]


def edges_of_wall(face: WallFace) -> Callable[[Point], Iterator[Way]]:
    """The ways from a point to where the wall ends: its ends, its top, its openings. Raises `Missing`."""
    outline = face.outline
    openings = [spot(opening) for opening in known(face.wall.openings)]

    def ways(point: Point) -> Iterator[Way]:
        yield -max(point.x_mm, 0.0), 0.0
        yield max(outline.right_mm - point.x_mm, 0.0), 0.0
        yield 0.0, max(outline.top_mm - point.y_mm, 0.0)
        for opening in openings:
            yield (
                min(max(point.x_mm, opening.left_mm), opening.right_mm) - point.x_mm,
                min(max(point.y_mm, opening.bottom_mm), opening.top_mm) - point.y_mm,
            )

    return ways


def edges_of_plate(plate: Rectangle) -> Callable[[Point], Iterator[Way]]:
    """The ways from a point to the four edges of a plate; none where it does not lie on it."""

    def ways(point: Point) -> Iterator[Way]:
        yield -max(point.x_mm - plate.left_mm, 0.0), 0.0
        yield max(plate.right_mm - point.x_mm, 0.0), 0.0
        yield 0.0, max(plate.top_mm - point.y_mm, 0.0)
        yield 0.0, -max(point.y_mm - plate.bottom_mm, 0.0)

    return ways


def edges_of_studs(wall: Wall) -> Callable[[Point], Iterator[Way]]:
    """The ways from a point to both edges of its stud. Raises `Missing` where the studs are not known."""

    def ways(point: Point) -> Iterator[Way]:
        (on_stud,) = on_studs(wall, [point])
        yield -max(on_stud.left_mm, 0.0), 0.0
        yield max(on_stud.right_mm, 0.0), 0.0

    return ways


def edge_mm(points: Iterable[Point], edges: Callable[[Point], Iterable[Way]]) -> float:
    """Shortest distance from any of the points to an edge."""
    return min(math.hypot(*way) for point in points for way in edges(point))


def sides(points: Sequence[Point], edges: Callable[[Point], Iterable[Way]]) -> tuple[Sides, ...]:
    """What hems in each of the points on its four sides. What lies aslant counts on the side that it lies on
    further, by its distance there.
    """
    return tuple(
        _sides(
            edges(point),
            (
                (other.x_mm - point.x_mm, other.y_mm - point.y_mm)
                for at_other, other in enumerate(points)
                if at_other != at
            ),
        )
        for at, point in enumerate(points)
    )


def _sides(edges: Iterable[Way], neighbours: Iterable[Way]) -> Sides:
    found = [Near()] * 4
    for way in edges:
        at, mm = _side(way)
        found[at] = found[at]._replace(edge_mm=min(found[at].edge_mm, mm))
    for way in neighbours:
        at, mm = _side(way)
        found[at] = found[at]._replace(spacing_mm=min(found[at].spacing_mm, mm))
    left, right, above, below = found
    return left, right, above, below


def _side(way: Way) -> tuple[int, float]:
    """On which side it lies (left, right, above, below), and how far there."""
    across_mm, up_mm = way
    if abs(across_mm) >= abs(up_mm):
        return int(across_mm > 0), abs(across_mm)
    return 2 + int(up_mm < 0), abs(up_mm)


class OnStud(NamedTuple):
    """Where a point lies on a framed wall: the number of the nearest stud, and the wood to the left and to
    the right of the point; negative on one side for a point beside the stud.
    """

    stud: int
    left_mm: float
    right_mm: float

    @property
    def beside(self) -> bool:
        """Whether the point misses the stud."""
        return min(self.left_mm, self.right_mm) <= 0


def on_studs(wall: Wall, points: Iterable[Point]) -> tuple[OnStud, ...]:
    """Each point by its stud; there is none beyond the ends of the wall. Raises `Missing` where the studs are
    not known.
    """
    studs = wall.studs
    all_known(wall.width_mm, studs.first_mm, studs.spacing_mm, studs.width_mm)
    first_mm, step_mm, width_mm = known(studs.first_mm), known(studs.spacing_mm), known(studs.width_mm)
    last = math.floor((known(wall.width_mm) - first_mm) / step_mm)
    found = []
    for point in points:
        stud = min(max(round((point.x_mm - first_mm) / step_mm), 0), last)
        aside_mm = point.x_mm - first_mm - stud * step_mm
        found.append(OnStud(stud, width_mm / 2 + aside_mm, width_mm / 2 - aside_mm))
    return tuple(found)


def plate(backing: Backing) -> Rectangle:
    """The outline of a plate on its wall. Raises `Missing`."""
    all_known(backing.left_mm, backing.bottom_mm, backing.width_mm, backing.height_mm)
    left_mm, bottom_mm = known(backing.left_mm), known(backing.bottom_mm)
    return Rectangle(
        left_mm, bottom_mm, left_mm + known(backing.width_mm), bottom_mm + known(backing.height_mm)
    )


def screws(backing: Backing) -> tuple[Point, ...]:
    """The screws that hold a plate to the studs. Raises `Missing`."""
    outline = plate(backing)
    found = tuple(
        Point(outline.left_mm + each.x_mm, outline.bottom_mm + each.y_mm) for each in known(backing.screws)
    )
    if not all(point.rectangle.within(outline) for point in found):
        raise Missing("the screws of the plate once more: one lies beside it")
    return found


def ties(fixing: Fixing) -> tuple[Point, ...]:
    """The screws that tie a standing device to its wall. Raises `Missing`."""
    return tuple(Point(each.left_mm, each.bottom_mm) for each in known(fixing.ties))


def crossed(wall: Wall, points: Iterable[Point]) -> tuple[Point, ...]:
    """The points that lie where hidden services run."""
    kept_clear = [spot(each) for each in wall.keep_clear]
    return tuple(
        point for point in points if any(point.rectangle.distance_mm(each) == 0 for each in kept_clear)
    )
