"""Groups of bolts and screws: printed examples, a rigid plate on springs, and traps in what is printed."""

import math
from itertools import pairwise

import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ferrule import rules
from ferrule.clauses.anchors import Acting, Anchor, Hole, Permissible
from ferrule.clauses.handwork.fixing import StatedStyle
from ferrule.layout.fixing import Point, edges_of_plate, sides
from ferrule.layout.wall import Rectangle
from ferrule.physics import fixing
from ferrule.working import Trace

BOOK = rules.load("iec-2024")
STANDARD_GRAVITY = 9.80665


def acting(load_n: float, out_mm: float, across_mm: float, holes: list[Hole]) -> Acting:
    """The loads of a pattern under a load given in N."""
    return StatedStyle().acting(
        Trace(BOOK), mass_kg=load_n / STANDARD_GRAVITY, out_mm=out_mm, across_mm=across_mm, holes=holes
    )


def rows(heights_mm: list[float], width_mm: float = 100.0) -> list[Hole]:
    """Two fixings in each row."""
    return [Hole(x_mm, y_mm) for y_mm in heights_mm for x_mm in (0.0, width_mm)]


# Printed examples


def test_bracket_turning_about_its_lower_edge_by_shear_stress() -> None:
    """Bhandari, Design of Machine Elements, example 7.5: 25 kN at 100 mm, rows at 150 and 25 mm, yield
    380 N/mm², safety 2.5. Printed in the textbook companion: 98.022213 mm² of core area.
    """
    found = acting(25_000, 100, 50, rows([150, 25]))
    shear_stress_n = math.hypot(found.tension_n / 2, found.shear_n)
    assert shear_stress_n / (0.5 * 380 / 2.5) == pytest.approx(98.022213, abs=5e-7)


def test_bracket_turning_about_its_lower_edge_by_tensile_stress() -> None:
    """The same book, example 7.6: 25 kN at 500 mm, rows at 550 and 50 mm, 35 N/mm². Printed: 401.446244 mm²
    of core area.
    """
    found = acting(25_000, 500, 50, rows([550, 50]))
    principal_n = found.tension_n / 2 + math.hypot(found.tension_n / 2, found.shear_n)
    assert principal_n / 35 == pytest.approx(401.446244, abs=5e-7)


def test_bracket_of_three_rows() -> None:
    """The same book, example 7.7: 50 kN at 250 mm, rows at 300, 200 and 100 mm, 100 N/mm², pull alone.
    Printed: 133.928571 mm².
    """
    found = acting(50_000, 250, 50, rows([300, 200, 100]))
    assert found.tension_n / 100 == pytest.approx(133.928571, abs=5e-7)


def test_bracket_under_a_straight_pull_as_well() -> None:
    """The same book, example 7.8: two bolts 450 and 50 mm from the edge share 20 kN, which also turns with
    550 mm, 75 N/mm². Printed: 455.284553 mm².
    """
    turning_n = fixing.pull_by_prying(weight_n=20_000, out_mm=550, height_mm=450, squares_mm2=450**2 + 50**2)
    share_n = fixing.shear_share(weight_n=20_000, count=2)
    assert (share_n + turning_n) / 75 == pytest.approx(455.284553, abs=5e-7)


def test_an_interview_question_on_four_bolts() -> None:
    """interviewmania.com, steel structures 96141: 10 kN, 100 mm aside of four bolts at ±40 and ±30 mm.
    Printed: 7.16 kN.
    """
    pattern = [Hole(x, y) for x in (0.0, 80.0) for y in (0.0, 60.0)]
    assert round(acting(10_000, 0, 140, pattern).shear_n / 1000, 2) == 7.16


def test_eight_fasteners_under_a_slanting_load() -> None:
    """Eccentric connections, additional example IP 4: 225 kN at 2 up of 1 across, 55 342.65 kN·mm about eight
    fasteners, two each at 0, 125, 200 and 275 mm, 140 mm apart. Printed: 98.867 kN.

    The page is turned until the load points down.
    """
    slope = math.atan2(100.623, 201.246)
    turned = [
        Hole(x * math.cos(slope) - y * math.sin(slope), x * math.sin(slope) + y * math.cos(slope) + 200)
        for y in (0, 125, 200, 275)
        for x in (0, 140)
    ]
    middle_mm = sum(hole.x_mm for hole in turned) / 8
    found = acting(225_000, 0, middle_mm + 55_342.65 / 225, turned)
    assert found.shear_n / 1000 == pytest.approx(98.867, abs=5e-4)


@pytest.mark.parametrize(
    ("gravity", "quarter", "three_eighths", "half"),
    [(0.58, 281, 381, 473), (0.55, 260, 352, 437), (0.50, 225, 305, 378), (0.42, 173, 235, 291)],
)
def test_lag_screws_of_the_american_table(
    gravity: float, quarter: int, three_eighths: int, half: int
) -> None:
    """National Design Specification for Wood Construction, table 12.2A, pounds an inch of thread."""
    for diameter_in, pounds in ((0.25, quarter), (0.375, three_eighths), (0.5, half)):
        force_n = fixing.lag_screw_withdrawal(
            constant=1800, gravity=gravity, diameter_mm=25.4 * diameter_in, thread_mm=25.4
        )
        assert round(force_n / 4.4482216152605) == pounds


def test_a_lag_screw_of_the_wood_council() -> None:
    """American Wood Council, solved example E2.3, as the tests of the open library xc give it: 1/2 in by 4 in
    through 1.5 in of southern pine (0.55), tip 5/16 in: 4.248 kN.
    """
    thread_mm = 25.4 * (4 - 1.5 - 0.3125)
    force_n = fixing.lag_screw_withdrawal(constant=1800, gravity=0.55, diameter_mm=12.7, thread_mm=thread_mm)
    assert round(force_n / 1000, 3) == 4.248


def test_tension_and_shear_of_a_foundation_bolt() -> None:
    """mechguru.com, example of an anchor bolt to ACI 318, part 8: 20 000 of 20 694.613 lb and 2300 of
    10 821.297 lb. It prints 1.181 below 1.2, which a slip of the last figures makes of 1.179.
    """
    sum_used = fixing.together(
        tension=fixing.used(acting_n=20_000, resistance_n=20_694.613),
        shear=fixing.used(acting_n=2_300, resistance_n=10_821.297),
        exponent=1,
    )
    limit = BOOK.cell("anchor_interaction", "linear", "limit").value
    assert round(sum_used, 3) == 1.179
    assert sum_used < float(limit) == 1.2


# Traps in what is printed


def test_the_bolt_on_the_far_side_is_not_the_worst() -> None:
    """steelcalculator.app, bolt group to EN 1993-1-8: 180 kN, 250 mm aside of eight bolts. It prints 70.1 kN,
    of a bolt from which the moment takes load; on the load's own side there are 86.2 kN.
    """
    pattern = [Hole(x, y) for x in (0.0, 90.0) for y in (0.0, 75.0, 150.0, 225.0)]
    squares_mm2 = 72_450.0
    far_n = fixing.shear_aside(
        share_n=22_500, weight_n=180_000, aside_mm=250, x_mm=-45, y_mm=112.5, squares_mm2=squares_mm2
    )
    assert round(far_n / 1000, 1) == 70.1
    assert round(acting(180_000, 0, 45 + 250, pattern).shear_n / 1000, 1) == 86.2


# A second way: a rigid plate on springs


def springs(
    holes: list[Hole], weight_n: float, out_mm: float, across_mm: float
) -> tuple[list[float], list[float]]:
    """Pull and shear of every fixing: each is a spring along three axes; the lower edge of the plate bears on
    the wall through springs a million times as stiff, which only press.
    """
    stiff = 1e6
    edge = [(x, 0.0) for x in numpy.linspace(-50, 150, 5)]
    points = [(hole.x_mm, hole.y_mm, 1.0) for hole in holes]
    pressing = set(range(len(edge)))
    pulls: list[float] = []
    for _ in range(20):
        active = points + [(*edge[at], stiff) for at in sorted(pressing)]
        # unknown: way off the wall, tilt about the horizontal axis, tilt about the upright axis
        shape = numpy.array([[1.0, y, x] for x, y, _ in active])
        k = numpy.array([stiffness for *_, stiffness in active])
        moved = numpy.linalg.lstsq(
            shape.T @ (shape * k[:, None]), numpy.array([0.0, weight_n * out_mm, 0.0]), rcond=None
        )[0]
        pulls = [float(moved @ [1.0, hole.y_mm, hole.x_mm]) for hole in holes]
        now = {at for at, (x, y) in enumerate(edge) if moved @ [1.0, y, x] < 0}
        if now == pressing or not now:
            break
        pressing = now
    plane = numpy.zeros((3, 3))
    for hole in holes:  # unknown: way down, way across, turn
        lever = numpy.array([[1.0, 0.0, hole.x_mm], [0.0, 1.0, hole.y_mm]])
        plane += lever.T @ lever
    moved = numpy.linalg.solve(plane, numpy.array([weight_n, 0.0, weight_n * across_mm]))
    shears = [math.hypot(moved[0] + moved[2] * hole.x_mm, moved[1] + moved[2] * hole.y_mm) for hole in holes]
    return pulls, shears


patterns = st.lists(
    st.tuples(st.integers(0, 20), st.integers(2, 40)), min_size=2, max_size=6, unique=True
).filter(lambda places: len({x for x, _ in places}) > 1)


@settings(deadline=None)
@given(patterns, st.floats(20, 250), st.floats(0, 200))
def test_a_rigid_plate_on_springs_shears_its_fixings_alike(
    places: list[tuple[int, int]], out_mm: float, across_mm: float
) -> None:
    """Linear algebra of the plate in its plane, for any pattern."""
    holes = [Hole(10.0 * x, 10.0 * y) for x, y in places]
    found = acting(300, out_mm, across_mm, holes)
    assert found.shear_n == pytest.approx(max(springs(holes, 300, out_mm, across_mm)[1]), rel=1e-6)


@settings(deadline=None)
@given(
    st.lists(st.integers(3, 60), min_size=1, max_size=3, unique=True), st.floats(20, 250), st.floats(50, 150)
)
def test_a_rigid_plate_that_presses_with_its_lower_edge_pulls_its_fixings_alike(
    heights: list[int], out_mm: float, width_mm: float
) -> None:
    """The same plate off its plane, for rows of two: contact springs find the edge by themselves."""
    holes = rows([10.0 * height for height in heights], width_mm)
    found = acting(300, out_mm, width_mm / 2, holes)
    pulls, _ = springs(holes, 300, out_mm, width_mm / 2)
    assert found.tension_n == pytest.approx(max(pulls), rel=1e-4)


# A second way: the area of the cones

FULL_MM = 100.0


def share(points: list[Point], base: Rectangle) -> float:
    """What is left of each anchor whose full distances are 100 mm to an edge, 200 mm to a neighbour."""
    anchor = Anchor(
        name="A", family="metal", holds_by="expansion", base="concrete", resistance=Permissible(1, 1),
        partial_factor=None, interaction="concrete", diameter_mm=8, depth_mm=66, edge_full_mm=FULL_MM,
        spacing_full_mm=2 * FULL_MM, edge_least_mm=None, spacing_least_mm=None,
    )  # fmt: skip
    return StatedStyle().share(Trace(BOOK), anchor=anchor, fixings=sides(points, edges_of_plate(base)))


def by_area(points: list[Point], base: Rectangle) -> float:
    """EN 1992-4 clause 7.2.1.4, for each of the anchors: the projected area of all cones, a square of 3 h_ef
    around each anchor as far as the concrete goes, over that of as many cones apart; times 0.7 + 0.3 c/c_cr
    at the nearest edge. The area is counted in the cells between all borders of squares.
    """
    squares = [
        (
            max(p.x_mm - FULL_MM, base.left_mm), max(p.y_mm - FULL_MM, base.bottom_mm),
            min(p.x_mm + FULL_MM, base.right_mm), min(p.y_mm + FULL_MM, base.top_mm),
        )
        for p in points
    ]  # fmt: skip
    across, up = (sorted({each[at] for each in squares for at in (axis, axis + 2)}) for axis in (0, 1))
    area_mm2 = sum(
        (right - left) * (top - bottom)
        for left, right in pairwise(across)
        for bottom, top in pairwise(up)
        if any(s[0] <= left and right <= s[2] and s[1] <= bottom and top <= s[3] for s in squares)
    )
    nearest_mm = min(
        min(p.x_mm - base.left_mm, base.right_mm - p.x_mm, p.y_mm - base.bottom_mm, base.top_mm - p.y_mm)
        for p in points
    )
    return area_mm2 / (len(points) * 4 * FULL_MM**2) * (0.7 + 0.3 * min(nearest_mm / FULL_MM, 1))


@settings(deadline=None, max_examples=400)
@given(
    st.lists(st.tuples(st.integers(1, 39), st.integers(1, 39)), min_size=1, max_size=9, unique=True),
    st.integers(0, 40), st.integers(0, 40),
)  # fmt: skip
def test_no_pattern_keeps_more_than_the_area_method_leaves_it(
    places: list[tuple[int, int]], further: int, higher: int
) -> None:
    """Any pattern in a corner, between two edges or in a field, down to 10 mm."""
    points = [Point(10.0 * x, 10.0 * y) for x, y in places]
    base = Rectangle(0, 0, 400 + 10.0 * further, 400 + 10.0 * higher)
    assert share(points, base) <= by_area(points, base) + 1e-9


@pytest.mark.parametrize("rows_of", [1, 2, 3, 4])
@pytest.mark.parametrize("per_row", [1, 2, 3, 4])
@pytest.mark.parametrize("step_mm", [40.0, 100.0, 160.0, 199.0])
def test_fields_of_anchors_keep_no_more_than_their_area(rows_of: int, per_row: int, step_mm: float) -> None:
    """In the middle of three by three each anchor has (s/s_cr)² of its cone; what the nearest neighbour alone
    leaves, s/s_cr, is more.
    """
    points = [Point(5_000 + x * step_mm, 5_000 + y * step_mm) for x in range(per_row) for y in range(rows_of)]
    base = Rectangle(0, 0, 10_000, 10_000)
    assert share(points, base) <= by_area(points, base) + 1e-9


def test_the_nearest_edge_alone_says_too_much() -> None:
    """30 mm from two edges, 0.3 of 100 mm: by area 0.65² × 0.79 = 0.334 are left, and with three edges
    0.3 × 0.65 × 0.79 = 0.154, less than the 0.3 of the nearest alone.
    """
    corner = [Point(30, 30)]
    assert by_area(corner, Rectangle(0, 0, 900, 900)) == pytest.approx(0.65**2 * 0.79)
    assert by_area(corner, Rectangle(0, 0, 60, 900)) == pytest.approx(0.3 * 0.65 * 0.79)
    assert share(corner, Rectangle(0, 0, 60, 900)) == pytest.approx(0.3**3)


# Invariants


@given(patterns, st.floats(5, 60), st.floats(1.1, 4), st.floats(20, 250), st.floats(0, 200))
def test_loads_grow_as_the_mass(
    places: list[tuple[int, int]], mass_kg: float, times: float, out_mm: float, across_mm: float
) -> None:
    """Twice the mass, twice the load on every fixing."""
    holes = [Hole(10.0 * x, 10.0 * y) for x, y in places]
    one = acting(mass_kg * STANDARD_GRAVITY, out_mm, across_mm, holes)
    more = acting(times * mass_kg * STANDARD_GRAVITY, out_mm, across_mm, holes)
    assert more.tension_n == pytest.approx(times * one.tension_n)
    assert more.shear_n == pytest.approx(times * one.shear_n)


@given(patterns, st.floats(20, 250), st.floats(0, 200), st.floats(-300, 300))
def test_loads_do_not_mind_from_where_it_is_measured(
    places: list[tuple[int, int]], out_mm: float, across_mm: float, moved_mm: float
) -> None:
    """The left edge of the device is only where the tape begins."""
    holes = [Hole(10.0 * x, 10.0 * y) for x, y in places]
    moved = [Hole(hole.x_mm + moved_mm, hole.y_mm) for hole in holes]
    one, other = acting(300, out_mm, across_mm, holes), acting(300, out_mm, across_mm + moved_mm, moved)
    assert other.tension_n == pytest.approx(one.tension_n)
    assert other.shear_n == pytest.approx(one.shear_n)
