"""Where fixing holes come to lie, and what is nearest to them."""

import math

import pytest

from ferrule.clauses.anchors import Near
from ferrule.fact import Missing
from ferrule.job.fixing import Backing
from ferrule.job.places import Opening, Place, Siting, Spot, Studs, Wall
from ferrule.layout.fixing import (
    OnStud,
    Point,
    crossed,
    edge_mm,
    edges_of_plate,
    edges_of_wall,
    holes,
    on_studs,
    screws,
    sides,
    spacing_mm,
)
from ferrule.layout.wall import Hung, Rectangle, WallFace
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
    assert edge_mm([point], edges_of_wall(face(own))) == pytest.approx(nearest_mm)


def test_inside_an_opening_there_is_no_wall() -> None:
    window = Opening.model_validate(
        {"kind": "window", "left": "1 m", "bottom": "0 mm", "width": "1 m", "height": "1 m"}
    )
    own = wall().model_copy(update={"openings": [window]})
    assert edge_mm([Point(1500, 500)], edges_of_wall(face(own))) == 0


def test_each_point_by_its_nearest_stud() -> None:
    own = wall().model_copy(
        update={"studs": Studs.model_validate({"first": "100 mm", "spacing": "600 mm", "width": "60 mm"})}
    )
    found = on_studs(own, [Point(100, 0), Point(725, 0), Point(400, 0), Point(1350, 0)])
    assert found == (OnStud(0, 30, 30), OnStud(1, 55, 5), OnStud(0, 330, -270), OnStud(2, 80, -20))
    assert [each.beside for each in found] == [False, False, True, True]


def test_beyond_the_ends_of_a_wall_there_is_no_stud() -> None:
    """4 m wide: the last stud stands at 3700 mm, and none at 4300 mm nor before the first."""
    own = wall().model_copy(
        update={"studs": Studs.model_validate({"first": "100 mm", "spacing": "600 mm", "width": "60 mm"})}
    )
    before, beyond = on_studs(own, [Point(-500, 0), Point(4_300, 0)])
    assert (before.stud, before.beside) == (0, True)
    assert (beyond.stud, beyond.beside) == (6, True)


def test_each_side_of_a_fixing() -> None:
    """Three corners of a square of 100 mm, on a plate."""
    found = sides([Point(50, 60), Point(150, 60), Point(50, 160)], edges_of_plate(Rectangle(0, 0, 400, 300)))
    assert found[0] == (Near(50), Near(350, 100), Near(240, 100), Near(60))
    assert found[1] == (Near(150, 100), Near(250), Near(240), Near(60))


def test_an_opening_aslant_counts_on_the_side_it_lies_on_further() -> None:
    window = Opening.model_validate(
        {"kind": "window", "left": "1200 mm", "bottom": "1200 mm", "width": "800 mm", "height": "1 m"}
    )
    own = wall().model_copy(update={"openings": [window]})
    ((_, right, above, below),) = sides([Point(1_000, 1_050)], edges_of_wall(face(own)))
    assert (right, above, below) == (Near(200), Near(1_350), Near())


def test_the_screws_of_a_plate_lie_on_it() -> None:
    given = {"thickness": "21 mm", "left": "1 m", "bottom": "1.2 m", "width": "600 mm", "height": "500 mm"}
    corners = [{"x": "50 mm", "y": "40 mm"}, {"x": "550 mm", "y": "460 mm"}]
    assert screws(Backing.model_validate({**given, "screws": corners})) == (
        Point(1_050, 1_240),
        Point(1_550, 1_660),
    )
    beside = [*corners, {"x": "601 mm", "y": "40 mm"}]
    with pytest.raises(Missing, match="one lies beside it"):
        screws(Backing.model_validate({**given, "screws": beside}))
    with pytest.raises(Missing) as asked:
        screws(Backing.model_validate({"thickness": "21 mm"}))
    assert len(asked.value.asks) == 4


def test_unknown_studs_are_asked_for_at_once() -> None:
    with pytest.raises(Missing) as asked:
        on_studs(wall(), [Point(0, 0)])
    assert len(asked.value.asks) == 3


def test_what_runs_in_the_wall() -> None:
    pipe = Spot.model_validate({"left": "1 m", "bottom": "0 mm", "width": "200 mm", "height": "2.4 m"})
    own = wall().model_copy(update={"keep_clear": [pipe]})
    points = [Point(999, 100), Point(1000, 100), Point(1200, 100), Point(1201, 100)]
    assert crossed(own, points) == (Point(1000, 100), Point(1200, 100))
