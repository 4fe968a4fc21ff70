"""Where the fixing holes of a device come to lie on its wall, and how far from what weakens it."""

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from ferrule.fact import all_known, known
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


def edge_mm(face: WallFace, points: Iterable[Point]) -> float:
    """Shortest distance from a point to where the wall ends: its ends, its top, its openings. Raises
    `Missing`.
    """
    outline = face.outline
    openings = [spot(opening) for opening in known(face.wall.openings)]
    return min(
        distance_mm
        for point in points
        for distance_mm in (
            point.x_mm,
            outline.right_mm - point.x_mm,
            outline.top_mm - point.y_mm,
            *(point.rectangle.distance_mm(opening) for opening in openings),
        )
    )


class OnStud(NamedTuple):
    """Where a point lies on a framed wall: the number of the nearest stud, and the wood beside the point
    towards the nearer edge of it; negative beside the stud.
    """

    stud: int
    beside_mm: float


def on_studs(wall: Wall, points: Iterable[Point]) -> tuple[OnStud, ...]:
    """Each point by its stud. Raises `Missing` where the studs are not known."""
    studs = wall.studs
    all_known(studs.first_mm, studs.spacing_mm, studs.width_mm)
    first_mm, step_mm, width_mm = known(studs.first_mm), known(studs.spacing_mm), known(studs.width_mm)
    found = []
    for point in points:
        stud = max(round((point.x_mm - first_mm) / step_mm), 0) if step_mm else 0
        found.append(OnStud(stud, width_mm / 2 - abs(point.x_mm - first_mm - stud * step_mm)))
    return tuple(found)


def crossed(wall: Wall, points: Iterable[Point]) -> tuple[Point, ...]:
    """The points that lie where hidden services run."""
    kept_clear = [spot(each) for each in wall.keep_clear]
    return tuple(
        point for point in points if any(point.rectangle.distance_mm(each) == 0 for each in kept_clear)
    )
