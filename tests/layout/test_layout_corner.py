"""What stands round a corner, held against a raster of the floor and against mirrors and shifts."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from ferrule.layout.corner import Box, Neighbour, box, met, standing
from ferrule.layout.wall import Rectangle, wall_faces
from houses import loaded

STEP_MM = 10.0


def _inside(each: Box, x: float, y: float) -> bool:
    """Whether a point lies in a convex outline: always on the same side as one walks round it."""
    turns = [
        (next_x - at_x) * (y - at_y) - (next_y - at_y) * (x - at_x)
        for (at_x, at_y), (next_x, next_y) in zip(each.plan, (*each.plan[1:], each.plan[0]), strict=True)
    ]
    return all(turn >= 0 for turn in turns) or all(turn <= 0 for turn in turns)


def _turned(each: Box, by_deg: float, across_mm: float) -> Box:
    cos, sin = math.cos(math.radians(by_deg)), math.sin(math.radians(by_deg))
    return each._replace(plan=tuple((x * cos - y * sin + across_mm, x * sin + y * cos) for x, y in each.plan))


sides = st.integers(5, 40).map(lambda n: n * STEP_MM)


@st.composite
def boxes(draw: st.DrawFn) -> Box:
    left, low = draw(st.integers(0, 60)) * STEP_MM, draw(st.integers(0, 60)) * STEP_MM
    rectangle = Rectangle(left, 0, left + draw(sides), 1_000)
    return _turned(box("a", "thing", rectangle, (low, low + draw(sides))), draw(st.integers(0, 359)), 0.0)


def _points(each: Box) -> list[tuple[float, float]]:
    (x0, y0), (x1, y1), _, (x3, y3) = each.plan
    along, up = math.dist((x0, y0), (x1, y1)), math.dist((x0, y0), (x3, y3))
    return [
        (
            x0 + (x1 - x0) * (i + 0.5) * STEP_MM / along + (x3 - x0) * (j + 0.5) * STEP_MM / up,
            y0 + (y1 - y0) * (i + 0.5) * STEP_MM / along + (y3 - y0) * (j + 0.5) * STEP_MM / up,
        )
        for i in range(round(along / STEP_MM))
        for j in range(round(up / STEP_MM))
    ]


@given(boxes(), boxes())
def test_two_boxes_meet_where_a_raster_of_one_lies_in_the_other(one: Box, other: Box) -> None:
    """The second way: square centimetres of one box, each asked whether it lies in the other. Between two
    that share a sliver thinner than a cell, the raster cannot decide.
    """
    seen = any(_inside(other, *point) for point in _points(one))
    if seen:
        assert one.meets(other)
    if not one.meets(other):
        assert not seen
        nearest = min(math.dist(p, q) for p in _points(one)[::7] for q in _points(other)[::7])
        assert one.distance_mm(other) <= nearest


@given(boxes(), boxes())
def test_the_distance_is_what_the_corners_of_a_fine_outline_show(one: Box, other: Box) -> None:
    """The second way: a hundred points on each side of both outlines."""
    assume(not one.meets(other))

    def outline(each: Box) -> list[tuple[float, float]]:
        ends = zip(each.plan, (*each.plan[1:], each.plan[0]), strict=True)
        return [(a + (c - a) * k / 100, b + (d - b) * k / 100) for (a, b), (c, d) in ends for k in range(101)]

    nearest = min(math.dist(p, q) for p in outline(one)[::4] for q in other.plan)
    nearest = min(nearest, *(math.dist(p, q) for p in outline(other)[::4] for q in one.plan))
    assert one.distance_mm(other) <= nearest + 1e-6
    assert nearest - one.distance_mm(other) <= 400 / 25


@given(boxes(), boxes(), st.integers(0, 359), st.integers(-5_000, 5_000))
def test_turning_and_shifting_both_changes_nothing(one: Box, other: Box, by: int, across: int) -> None:
    assume(one.meets(other) or one.distance_mm(other) > 0.01)
    moved, other_moved = _turned(one, by, across), _turned(other, by, across)
    assert moved.distance_mm(other_moved) == pytest.approx(one.distance_mm(other), abs=1e-6)
    assert one.distance_mm(other) == pytest.approx(other.distance_mm(one), abs=1e-9)


def test_a_common_face_is_no_meeting_and_heights_part() -> None:
    one = box("a", "thing", Rectangle(0, 0, 100, 100), (0, 100))
    assert met([one], [Neighbour(box("b", "thing", Rectangle(100, 0, 200, 100), (0, 100)))]) == []
    assert met([one], [Neighbour(box("b", "thing", Rectangle(99, 0, 200, 100), (0, 100)))]) == ["b"]
    above = box("b", "thing", Rectangle(0, 130, 100, 200), (0, 100))
    assert not one.meets(above)
    assert one.distance_mm(above._replace(plan=((140, 0), (200, 0), (200, 9), (140, 9)))) == 50


WALL = "places.utility.walls.U-north"


def _corner(end: str, angle: str, thing_left: str) -> Box:
    """A cupboard 600 x 400 mm on a wall 3 m wide that joins U-north, which is 5 m wide."""
    thing = {"name": "cupboard", "kind": "other", "left": thing_left, "bottom": "0 mm", "width": "600 mm",
             "height": "2 m", "depth": "400 mm"}  # fmt: skip
    other = {"id": "U-side", "width": "3 m", "height": "2.4 m", "things": [thing]}
    corner = {"wall": "U-side", "angle": angle}
    walls = wall_faces(loaded({"places.utility.walls.+": other, f"{WALL}.{end}": corner}).job)
    (found,) = [each for each in standing(walls, walls["U-north"]) if not each.asks]
    return found.box


@pytest.mark.parametrize(
    ("angle", "along", "out"),
    [
        ("90°", (4_600, 5_000), (100, 700)),  # a square corner of a room
        ("180°", (5_100, 5_700), (0, 400)),  # straight on
        ("270°", (5_000, 5_400), (-700, -100)),  # round the outside
    ],
)
def test_a_corner_at_the_right_end_and_its_mirror(
    angle: str, along: tuple[int, int], out: tuple[int, int]
) -> None:
    """Measured by hand in plan: the cupboard begins 100 mm from the corner."""
    right = _corner("right_end", angle, "100 mm")
    assert (min(x for x, _ in right.plan), max(x for x, _ in right.plan)) == pytest.approx(along)
    assert (min(y for _, y in right.plan), max(y for _, y in right.plan)) == pytest.approx(out)
    left = _corner("left_end", angle, "2300 mm")  # the mirror: 3000 - 100 - 600
    assert sorted(5_000 - x for x, _ in left.plan) == pytest.approx(sorted(x for x, _ in right.plan))
    assert sorted(y for _, y in left.plan) == pytest.approx(sorted(y for _, y in right.plan), abs=1e-9)
