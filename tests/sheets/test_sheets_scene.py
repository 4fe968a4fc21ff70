"""Placing, boxes and words on a page."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.sheets.scene import (
    FACINGS,
    Arc,
    Box,
    Circle,
    Facing,
    Item,
    Placing,
    Point,
    Polygon,
    Rectangle,
    Text,
    line,
)

mm = st.floats(min_value=-300, max_value=300)
points = st.builds(Point, mm, mm)
placings = st.builds(Placing, mm, mm, st.integers(0, 7))
ITEMS: tuple[Item, ...] = (
    line((0, 0), (10, 0), (10, 5)),
    Rectangle(Box(1, 2, 7, 4)),
    Circle(Point(3, 4), 2),
    Arc(Point(1, 1), 3, 0, 90),
    Arc(Point(1, 1), 3, 300, 30),
    Polygon((Point(0, 0), Point(4, 0), Point(2, 5))),
)


@given(points)
def test_a_quarter_turns_clockwise_as_the_page_is_read(at: Point) -> None:
    assert Placing(0, 0, 1).point(Point(1, 0)) == (0, 1)  # what pointed right points down
    turned = at
    for _ in range(4):
        turned = Placing(0, 0, 1).point(turned)
    assert turned == at


@pytest.mark.parametrize("facing", FACINGS)
def test_a_port_turns_with_its_symbol(facing: Facing) -> None:
    ways: dict[Facing, Point] = {
        "up": Point(0, -1),
        "right": Point(1, 0),
        "down": Point(0, 1),
        "left": Point(-1, 0),
    }
    for quarters in range(4):
        placing = Placing(0, 0, quarters)
        assert placing.point(ways[facing]) == ways[placing.facing(facing)]


@pytest.mark.parametrize("item", ITEMS)
@given(placings)
def test_the_box_turns_with_what_it_holds(item: Item, placing: Placing) -> None:
    turned = Rectangle(item.box).placed(placing).box
    assert item.placed(placing).box == pytest.approx(turned, abs=1e-9)


def test_an_arc_runs_clockwise_from_start_to_end() -> None:
    arc = Arc(Point(0, 0), 10, 0, 90)
    assert arc.chords[0] == pytest.approx((10, 0))
    assert arc.chords[-1] == pytest.approx((0, 10))
    assert arc.box == pytest.approx((0, 0, 10, 10))


def test_an_arc_of_no_span_is_a_full_circle() -> None:
    assert Arc(Point(0, 0), 10, 0, 360).box == pytest.approx((-10, -10, 10, 10))


@pytest.mark.parametrize(("anchor", "left_share"), [("start", 0.0), ("middle", 0.5), ("end", 1.0)])
def test_words_lie_about_their_anchor(anchor: str, left_share: float) -> None:
    text = Text(Point(50, 50), "HHH", 3.5, anchor)  # type: ignore[arg-type]
    box = text.box
    assert box.left_mm == pytest.approx(50 - left_share * box.width_mm)
    assert box.top_mm < 50 - 3.5
    upright = text._replace(upright=True).box
    assert (upright.width_mm, upright.height_mm) == pytest.approx((box.height_mm, box.width_mm))
    assert upright.bottom_mm == pytest.approx(50 + left_share * box.width_mm)


@pytest.mark.parametrize("upright", [False, True])
def test_words_in_the_middle_have_their_capitals_about_it(upright: bool) -> None:
    base = Text(Point(50, 50), "H", 4.0, level="middle", upright=upright).base
    assert base == ((52, 50) if upright else (50, 52))


@given(points, st.floats(0, 50), st.floats(0, 50))
def test_boxes_that_share_an_edge_do_not_meet(at: Point, width_mm: float, height_mm: float) -> None:
    x, y = at
    box = Box(x, y, x + width_mm, y + height_mm)
    beside = Box(box.right_mm, y, box.right_mm + 10, y + 10)
    assert not box.meets(beside)
    assert box.grown(1).meets(beside)
    assert box.grown(1).holds(box)
