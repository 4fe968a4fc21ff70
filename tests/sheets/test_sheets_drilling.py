"""The drilling sheet measured as it is printed: set as the pack is set, read by a parser that is not ours."""

import io
import math
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pdfminer.high_level import extract_pages
from pdfminer.layout import LTCurve, LTFigure, LTLine, LTPage

from ferrule.answering import Answer
from ferrule.layout.fixing import Point as Hole
from ferrule.layout.fixing import holes
from ferrule.sheets.drilling import drilling
from ferrule.sheets.drilling_tiles import CONTROL_MM, OVERLAP_MM, tiles_of
from ferrule.sheets.paper import Chapter, Drawing, Paper
from ferrule.sheets.scene import Box, Circle, Line, Scene, Text
from ferrule.sheets.typeset import pdf
from houses import REMOVED, answered

POINTS = 72 / 25.4
WITHIN_MM = 0.2
HOUSES = ("meter-led", "controller-led", "changeover-led")
WINDOW = Box(11.0, 11.0, 199.0, 215.0)
places = st.tuples(st.integers(0, 3000), st.integers(0, 2000))


def tiles(scenes: Sequence[Scene]) -> list[Scene]:
    return [scene for scene in scenes if "at true size, row" in scene.description]


def words(scenes: Sequence[Scene]) -> list[str]:
    return [item.shown for scene in scenes for item in scene.items if isinstance(item, Text)]


def printed(scenes: Sequence[Scene]) -> list[LTPage]:
    """The pages with drawings of a paper that holds nothing else besides its cover."""
    blocks = tuple(Drawing(f"drilling-{at}", scene) for at, scene in enumerate(scenes))
    paper = Paper(
        "drilling", "", "", (2026, 1, 1), "a4", "", ("", ""), (), (Chapter("wall", "Wall", "", blocks),)
    )
    pages = list(extract_pages(io.BytesIO(pdf(paper))))
    found = [page for page in pages if abs(page.height / POINTS - scenes[0].height_mm) < 0.01]
    assert len(found) == len(scenes)
    return found


def _round(each: LTCurve) -> bool:
    return abs(each.width - each.height) < 0.01


def strokes(found: LTPage | LTFigure, kind: type[LTCurve]) -> list[LTCurve]:
    inner = [each for part in found if isinstance(part, LTFigure) for each in strokes(part, kind)]
    return [*(each for each in found if type(each) is kind), *inner]


@pytest.mark.parametrize("house", HOUSES)
def test_the_control_line_is_100_mm_on_every_sheet_as_printed(house: str) -> None:
    for page in printed(tiles(drilling(answered(house=house)))):
        level = [each for each in strokes(page, LTLine) if each.height < 0.01 and each.y0 / POINTS < 60]
        longest = max(each.width / POINTS for each in level if each.width / POINTS < 150)
        assert abs(longest - CONTROL_MM) < WITHIN_MM


def test_holes_on_one_sheet_are_as_far_apart_as_on_the_wall_as_printed() -> None:
    """Three holes near each other, their edges drawn as circles."""
    given_holes = [(100.0, 300.0), (187.5, 300.0), (130.0, 361.3)]
    edits = {
        "parts.example-hybrid-10k-three.body.mounting.holes": [
            {"x": f"{x} mm", "y": f"{y} mm"} for x, y in given_holes
        ]
    }
    (sheet,) = [
        scene for scene in tiles(drilling(answered(edits, "changeover-led"))) if "INV1" in scene.description
    ]
    (page,) = printed([sheet])
    circles = [each for each in strokes(page, LTCurve) if _round(each) and each.width > 20]
    middles = sorted(((each.x0 + each.x1) / 2 / POINTS, (each.y0 + each.y1) / 2 / POINTS) for each in circles)
    wanted = sorted(given_holes)
    assert len(middles) == len(wanted)
    for at in range(3):
        for other in range(at):
            apart = math.dist(middles[at], middles[other])
            assert abs(apart - math.dist(wanted[at], wanted[other])) < WITHIN_MM


def test_holes_of_two_sheets_are_as_far_apart_when_their_joining_lines_are_laid_upon_each_other() -> None:
    """As printed: from the hole to the joining line on one sheet, and on from it on the other."""
    scenes = tiles(drilling(answered(house="meter-led")))
    first, second = (
        next(scene for scene in scenes if f"row 1, column {column}." in scene.description)
        for column in (1, 2)
    )
    reach = []
    for page, side in zip(printed([first, second]), (max, min), strict=True):
        (circle,) = [each for each in strokes(page, LTCurve) if _round(each) and each.width > 15]
        upright = [each for each in strokes(page, LTLine) if each.width < 0.01 and each.height / POINTS > 150]
        joining = side(each.x0 for each in upright)
        reach.append(abs(joining - (circle.x0 + circle.x1) / 2) / POINTS)
    result = answered(house="meter-led")
    (_, hung) = result.design.house.hung("INV1")
    top = sorted(hole.x_mm for hole in holes(hung) if hole.y_mm == max(each.y_mm for each in holes(hung)))
    assert abs(sum(reach) - (top[1] - top[0])) < WITHIN_MM


def hung(result: Answer) -> list[tuple[str, tuple[Hole, ...]]]:
    return [
        (each.id, holes(each))
        for face in result.design.house.walls.values()
        for each in face.hung
        if each.body.mount == "wall"
    ]


@pytest.mark.parametrize("house", HOUSES)
def test_every_hole_stands_on_one_sheet_with_its_diameter_and_depth(house: str) -> None:
    result = answered(house=house)
    scenes = drilling(result)
    for device, points in hung(result):
        anchor = result.design.anchor(device)
        material = str(result.design.house.hung(device)[0].wall.material)
        in_base = anchor.in_base(material)
        assert in_base is not None
        own = [scene for scene in tiles(scenes) if f"Drilling {device} " in scene.description]
        for number, hole in enumerate(points, start=1):
            label = f"{number}: Ø {in_base.hole_mm:g}, {in_base.depth_mm:g} deep"
            assert words(own).count(label) == 1
            assert words(own).count(f"{hole.x_mm:.0f} from left, {hole.y_mm:.0f} up") >= 1
        whole = [
            item
            for scene in own
            for item in scene.items
            if isinstance(item, Circle) and item.radius_mm == in_base.hole_mm / 2 and not item.pen.dashed
        ]
        assert len(whole) == len(points)


@given(st.lists(places, min_size=1, max_size=12, unique=True))
def test_each_hole_belongs_to_one_tile_and_lies_well_within_it(given_places: list[tuple[int, int]]) -> None:
    points = [Hole(float(x), float(y)) for x, y in given_places]
    found = tiles_of(points, WINDOW)
    for point in points:
        own = [tile for tile in found if tile.has(point)]
        assert len(own) == 1
        shows = own[0].shows
        assert min(point.x_mm - shows.left_mm, shows.right_mm - point.x_mm) >= OVERLAP_MM / 2 - 1e-6
        assert min(point.y_mm - shows.bottom_mm, shows.top_mm - point.y_mm) >= OVERLAP_MM / 2 - 1e-6


@given(st.lists(places, min_size=1, max_size=6, unique=True))
def test_neighbours_overlap_and_join_on_one_line(given_places: list[tuple[int, int]]) -> None:
    found = tiles_of([Hole(float(x), float(y)) for x, y in given_places], WINDOW)
    at = {(tile.row, tile.column): tile for tile in found}
    for (row, column), tile in at.items():
        if beside := at.get((row, column + 1)):
            assert tile.own.right_mm == pytest.approx(beside.own.left_mm)
            assert tile.shows.right_mm - beside.shows.left_mm == pytest.approx(OVERLAP_MM)
        if under := at.get((row + 1, column)):
            assert tile.own.bottom_mm == pytest.approx(under.own.top_mm)
            assert under.shows.top_mm - tile.shows.bottom_mm == pytest.approx(OVERLAP_MM)


def test_a_wall_that_nobody_searched_is_not_drilled() -> None:
    edits = {"places.0.walls.0.services": REMOVED, "places.0.walls.0.keep_clear": []}
    told = " ".join(words(drilling(answered(edits, "changeover-led"))))
    assert "Nobody has searched this wall" in told
    assert "Search for cables and pipes first." in told


def test_a_hole_on_hidden_services_is_named() -> None:
    edits = {
        "places.0.walls.0.keep_clear": [
            {"left": "1150 mm", "bottom": "1350 mm", "width": "100 mm", "height": "100 mm"}
        ]
    }
    told = " ".join(words(drilling(answered(edits, "changeover-led"))))
    assert "hidden services run behind hole 3." in told


def test_holes_nobody_knows_are_asked_for() -> None:
    edits = {"parts.example-changeover-63.body.mounting.holes": REMOVED}
    assert "find out: where its fixing holes are, from its sheet" in " ".join(
        words(drilling(answered(edits, "changeover-led")))
    )


def test_level_and_plumb_line_run_through_the_holes() -> None:
    result = answered(house="meter-led")
    top = max(hole.y_mm for hole in dict(hung(result))["INV1"])
    assert f"level line: {top:.0f} mm above the finished floor" in words(drilling(result))
    for scene in tiles(drilling(result)):
        assert any(isinstance(item, Line) and item.layer == "dimension" for item in scene.items)
