"""Rectangles on walls."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.fact import Missing
from ferrule.layout.wall import Rectangle, Side, collisions, wall_faces
from houses import REMOVED, loaded

edges = st.integers(0, 3_000).map(float)


@st.composite
def rectangles(draw: st.DrawFn) -> Rectangle:
    left, right = sorted(draw(st.tuples(edges, edges).filter(lambda pair: pair[0] != pair[1])))
    bottom, top = sorted(draw(st.tuples(edges, edges).filter(lambda pair: pair[0] != pair[1])))
    return Rectangle(left, bottom, right, top)


@given(rectangles(), rectangles())
def test_overlap_is_mutual_and_excludes_any_gap_or_distance(one: Rectangle, other: Rectangle) -> None:
    assert one.overlaps(other) == other.overlaps(one)
    assert one.distance_mm(other) == other.distance_mm(one)
    if one.overlaps(other):
        assert one.distance_mm(other) == 0
        sides: tuple[Side, ...] = ("left", "right", "above", "below")
        assert all(one.gap_mm(other, side) is None for side in sides)


@given(rectangles(), rectangles())
def test_overlap_is_what_a_raster_of_millimetres_shows(one: Rectangle, other: Rectangle) -> None:
    """The second way: two rectangles overlap where some square millimetre lies in both."""
    across = set(range(int(one.left_mm), int(one.right_mm))) & set(
        range(int(other.left_mm), int(other.right_mm))
    )
    upwards = set(range(int(one.bottom_mm), int(one.top_mm))) & set(
        range(int(other.bottom_mm), int(other.top_mm))
    )
    assert one.overlaps(other) == bool(across and upwards)


@given(rectangles(), rectangles(), st.sampled_from(["left", "below"]))
def test_a_gap_is_the_same_from_the_other_side(one: Rectangle, other: Rectangle, side: Side) -> None:
    opposite: dict[Side, Side] = {"left": "right", "below": "above"}
    assert one.gap_mm(other, side) == other.gap_mm(one, opposite[side])


@given(rectangles(), rectangles())
def test_moved_by_their_overlap_two_are_clear_of_each_other_and_not_before(
    one: Rectangle, other: Rectangle
) -> None:
    overlap = one.overlap_mm(other)
    assert overlap == other.overlap_mm(one)
    assert (overlap > 0) == one.overlaps(other)

    def clear(by: float) -> bool:
        ways = ((by, 0), (-by, 0), (0, by), (0, -by))
        return any(
            not Rectangle(
                one.left_mm + across, one.bottom_mm + up, one.right_mm + across, one.top_mm + up
            ).overlaps(other)
            for across, up in ways
        )

    assert clear(overlap)
    assert overlap == 0 or not clear(overlap - 1)


def test_a_common_edge_is_no_overlap_and_a_gap_of_nought() -> None:
    one, other = Rectangle(0, 0, 100, 100), Rectangle(100, 0, 200, 100)
    assert not one.overlaps(other)
    assert one.gap_mm(other, "right") == 0
    assert one.gap_mm(other, "above") is None


def test_diagonal_distance() -> None:
    assert Rectangle(0, 0, 10, 10).distance_mm(Rectangle(13, 14, 20, 20)) == 5


def test_the_nearest_thing_bounds_the_air_and_openings_do_not() -> None:
    """Plum Cottage: inverter from 900 to 1360 mm, main board up to 650 mm, backup board from 1800 mm."""
    face = wall_faces(loaded().job)["U-north"]
    assert face.free_mm("INV1", "left") == (250, "main board")
    assert face.free_mm("INV1", "right") == (440, "backup board")
    assert face.free_mm("INV1", "above") == (600, "the ceiling")
    assert face.free_mm("INV1", "below") == (1_250, "the floor")
    assert face.free_mm("BAT", "right") == (2_150, "the corner")


def test_outdoors_only_the_ground_bounds_it() -> None:
    job = loaded({"places.utility.use": "outdoors", "places.utility.walls.U-north.things": []}).job
    face = wall_faces(job)["U-north"]
    assert face.free_mm("INV1", "above") == (float("inf"), "nothing")
    assert face.free_mm("BAT", "below") == (0, "the floor")


def test_packs_side_by_side_are_one_outline() -> None:
    """Two packs of 600 mm with 920 mm between them."""
    face = wall_faces(loaded(house="controller-led").job)["G-north"]
    battery = next(hung for hung in face.hung if hung.id == "BAT")
    assert (battery.rectangle.left_mm, battery.rectangle.width_mm) == (2_900, 2_120)


def test_everything_to_measure_is_named_at_once() -> None:
    job = loaded({"devices.INV1.at.left": REMOVED, "devices.BAT.at.bottom": REMOVED}).job
    with pytest.raises(Missing) as missing:
        wall_faces(job)["U-north"].items()
    assert missing.value.asks == (
        "INV1: from the left end of the wall to the left edge of the device",
        "BAT: from the floor to the lower edge of the device; 0 where it stands",
    )


def test_two_openings_that_overlap_are_no_collision_of_a_device() -> None:
    job = loaded(
        {
            "places.utility.walls.U-north.openings": [
                {"kind": "window", "left": "3 m", "bottom": "1 m", "width": "500 mm", "height": "900 mm"},
                {"kind": "door", "left": "3 m", "bottom": "0 mm", "width": "900 mm", "height": "2 m"},
            ]
        }
    ).job
    assert list(collisions(wall_faces(job)["U-north"].items())) == []


def test_of_two_things_of_one_name_each_counts() -> None:
    thing = {"name": "shelf", "kind": "store", "bottom": "1 m", "width": "100 mm", "height": "1 m"}
    shelves = [{**thing, "left": "700 mm"}, {**thing, "left": "4 m"}]
    face = wall_faces(loaded({"places.utility.walls.U-north.things": shelves}).job)["U-north"]
    assert face.free_mm("INV1", "left") == (100, "shelf")
    assert face.free_mm("INV1", "right") == (2_640, "shelf")


def test_beside_what_it_overlaps_nothing_is_free() -> None:
    face = wall_faces(loaded({"devices.INV1.at.left": "500 mm"}).job)["U-north"]
    assert face.free_mm("INV1", "left") == (0, "main board")


def test_packs_without_a_measured_gap_are_asked_about() -> None:
    job = loaded({"devices.BAT.packs": 2}).job
    with pytest.raises(Missing, match="free space between the packs"):
        wall_faces(job)["U-north"].items()
