"""Where fixing holes come to lie, and what is nearest to them."""

import math

import pytest

from ferrule.fact import Missing
from ferrule.job.places import Opening, Place, Siting, Spot, Studs, Wall
from ferrule.layout.fixing import OnStud, Point, crossed, edge_mm, holes, on_studs, spacing_mm
from ferrule.layout.wall import Hung, WallFace
from ferrule.parts.body import Body


def body() -> Body:
    return Body.model_validate(
        {
            "width": "400 mm",
            "height": "500 mm",
            "mounting": {"holes": [{"x": "50 mm", "y": "450 mm"}, {"x": "350 mm", "y": "450 mm"}]},
        }
    )


def wall(**given: object) -> Wall:
    return Wall.model_validate({"id": "W", "width": "4 m", "height": "2.4 m", "openings": [], **given})


def face(own: Wall) -> WallFace:
    return WallFace(Place(id="p", use="utility"), own, (), own.left_end, own.right_end)


def test_packs_side_by_side_have_holes_each() -> None:
    at = Siting.model_validate({"wall": "W", "left": "1 m", "bottom": "600 mm", "pack_gap": "100 mm"})
    found = holes(Hung("BAT", at, body(), 2))
    assert found == (Point(1050, 1050), Point(1350, 1050), Point(1550, 1050), Point(1850, 1050))
    assert spacing_mm(found) == 200
    assert spacing_mm(found[:1]) == math.inf


def test_without_a_position_it_is_asked_for() -> None:
    with pytest.raises(Missing, match="left edge of the device"):
        holes(Hung("BAT", Siting.model_validate({"wall": "W", "bottom": "0 mm"}), body()))


@pytest.mark.parametrize(
    ("point", "nearest_mm"),
    [(Point(300, 1000), 300), (Point(3900, 1000), 100), (Point(2000, 2350), 50), (Point(2000, 10), 390)],
)
def test_ends_top_and_openings_are_edges_and_the_floor_is_none(point: Point, nearest_mm: float) -> None:
    """A window 1.2 to 2 m from the left and 400 to 1400 mm high."""
    window = Opening.model_validate(
        {"kind": "window", "left": "1200 mm", "bottom": "400 mm", "width": "800 mm", "height": "1 m"}
    )
    own = wall().model_copy(update={"openings": [window]})
    assert edge_mm(face(own), [point]) == pytest.approx(nearest_mm)


def test_inside_an_opening_there_is_no_wall() -> None:
    window = Opening.model_validate({"kind": "window", "left": "1 m", "width": "1 m", "height": "1 m"})
    own = wall().model_copy(update={"openings": [window]})
    assert edge_mm(face(own), [Point(1500, 500)]) == 0


def test_each_point_by_its_nearest_stud() -> None:
    own = wall().model_copy(
        update={"studs": Studs.model_validate({"first": "100 mm", "spacing": "600 mm", "width": "60 mm"})}
    )
    found = on_studs(own, [Point(100, 0), Point(725, 0), Point(400, 0), Point(1350, 0)])
    assert found == (OnStud(0, 30), OnStud(1, 5), OnStud(0, -270), OnStud(2, -20))


def test_unknown_studs_are_asked_for_at_once() -> None:
    with pytest.raises(Missing) as asked:
        on_studs(wall(), [Point(0, 0)])
    assert len(asked.value.asks) == 3


def test_what_runs_in_the_wall() -> None:
    pipe = Spot.model_validate({"left": "1 m", "width": "200 mm", "height": "2.4 m"})
    own = wall().model_copy(update={"keep_clear": [pipe]})
    points = [Point(999, 100), Point(1000, 100), Point(1200, 100), Point(1201, 100)]
    assert crossed(own, points) == (Point(1000, 100), Point(1200, 100))
