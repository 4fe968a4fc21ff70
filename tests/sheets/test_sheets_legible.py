"""Each fault is found where it is, and nothing is found where there is none."""

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ferrule.sheets.legible import Crossings, crossings, faults
from ferrule.sheets.scene import (
    Arc,
    Box,
    Circle,
    Item,
    Point,
    Polygon,
    Rectangle,
    Scene,
    Text,
    line,
)

WORDS = Text(Point(50, 50), "main board")
"""About 19 mm wide, 2.5 mm high, on a baseline at 50 mm."""


def kinds(*items: Item, **options: float) -> list[str]:
    return [fault.kind for fault in faults(Scene(210, 297, items, "a page"), **options)]  # type: ignore[arg-type]


def test_a_clean_page_has_none() -> None:
    assert kinds(WORDS, Rectangle(Box(45, 40, 90, 60)), line((40, 30), (95, 30))) == []


@pytest.mark.parametrize(
    "item",
    [
        line((40, 49), (90, 49)),
        line((60, 20), (60, 80)),
        line((45, 40), (60, 60)),
        Rectangle(Box(60, 40, 90, 60)),
        Circle(Point(60, 40), 9.5),
        Arc(Point(60, 40), 9.5, 0, 180),
        Polygon((Point(40, 40), Point(90, 40), Point(65, 90))),
        Circle(Point(60, 49), 40, filled=True),
    ],
)
def test_what_runs_through_words_is_found(item: Item) -> None:
    assert kinds(WORDS, item) == ["line through text"]


@pytest.mark.parametrize(
    "item",
    [
        line((40, 52), (90, 52)),
        Circle(Point(60, 49), 40),
        Arc(Point(60, 40), 9.5, 180, 360),
        line((40, 40), (90, 45)),
    ],
)
def test_what_goes_round_words_is_none(item: Item) -> None:
    assert kinds(WORDS, item) == []


def test_words_over_words() -> None:
    assert kinds(WORDS, Text(Point(65, 51), "meter")) == ["text over text"]
    assert kinds(WORDS, Text(Point(50, 54), "meter")) == []
    assert kinds(WORDS, Text(Point(60, 60), "meter", upright=True)) == ["text over text"]


def test_outside_and_too_small() -> None:
    assert kinds(Text(Point(205, 50), "main board")) == ["outside"]
    assert kinds(line((10, 10), (10, 300))) == ["outside"]
    assert kinds(WORDS._replace(height_mm=1.7)) == ["small text"]
    assert kinds(WORDS, least_mm=3.0) == ["small text"]
    inside = faults(Scene(210, 297, (WORDS,), "a page"), within=Box(0, 0, 60, 60))
    assert [(fault.kind, fault.of) for fault in inside] == [("outside", ("main board",))]


@pytest.mark.parametrize("shift_mm", [0.0, 10.0])
def test_conductors_along_each_other(shift_mm: float) -> None:
    along = line((10 + shift_mm, 20), (60 + shift_mm, 20), layer="signal")
    assert kinds(line((10, 20), (50, 20)), along).count("line upon line") == 1
    corners = line((10, 20), (10, 60), (30, 60)), line((10, 40), (10, 50), (40, 50))
    assert kinds(*corners).count("line upon line") == 1


def test_conductors_that_meet_end_to_end_or_the_edges_of_devices_are_none() -> None:
    assert kinds(line((10, 20), (50, 20)), line((50, 20), (90, 20))) == []
    assert kinds(Rectangle(Box(10, 10, 20, 20)), Rectangle(Box(20, 10, 30, 20))) == []


def test_conductors_that_are_joined_have_a_dot() -> None:
    across, branch = line((10, 20), (90, 20)), line((50, 20), (50, 40), layer="signal")
    assert kinds(across, branch) == ["no dot"]
    assert kinds(across, branch, Circle(Point(50, 20), 0.7, filled=True)) == []
    assert kinds(across, line((50, 10), (50, 20), (60, 20.5))) == ["no dot"]


def test_crossings_are_counted_and_joints_are_none() -> None:
    across = line((10, 20), (90, 20))

    def counted(*items: Item) -> Crossings:
        return crossings(Scene(210, 297, (across, *items), "a page"))

    assert counted(line((50, 10), (50, 30))) == (1, 0)
    assert counted(line((50, 10), (50, 20))) == (0, 0)
    assert counted(line((20, 10), (20, 30), (40, 30), (40, 10))) == (2, 2)
    assert counted(line((20, 10), (20, 30), (40, 30), (40, 10), (60, 10), (60, 30))) == (3, 2)
    assert counted(line((50, 10), (50, 30), layer="dimension")) == (0, 0)


places = st.builds(Point, st.floats(-20, 230), st.floats(-20, 320))
texts = st.builds(Text, places, st.text("HIg ", min_size=1, max_size=30), st.just(2.5), upright=st.booleans())


@given(st.lists(texts, max_size=8), st.lists(st.tuples(places, places), max_size=3))
@settings(max_examples=50)
def test_no_pair_is_missed_for_where_it_lies(words: list[Text], strokes: list[tuple[Point, Point]]) -> None:
    """Against holding each thing against each other one, by points along the strokes."""
    items: tuple[Item, ...] = (*words, *(line(*each) for each in strokes))
    found = [fault.kind for fault in faults(Scene(210, 297, items, "a page"))]
    boxes = [text.box.grown(-0.1) for text in words if text.shown]
    assert found.count("text over text") == sum(one.meets(other) for one, other in combinations(boxes, 2))
    through = sum(
        any(
            box.grown(-0.01).left_mm < x1 + (x2 - x1) * at / 300 < box.right_mm - 0.01
            and box.top_mm + 0.01 < y1 + (y2 - y1) * at / 300 < box.bottom_mm - 0.01
            for at in range(301)
        )
        for (x1, y1), (x2, y2) in strokes
        for box in boxes
    )
    # Points that lie apart may step over a corner, never onto one that is not there.
    assert found.count("line through text") >= through
