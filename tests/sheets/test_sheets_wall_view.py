"""The wall view has everything on the wall, where the layout has it, with its measures."""

from typing import Any

import pytest

from ferrule.layout.measures import measures
from ferrule.sheets.scene import Rectangle, Scene, Text
from ferrule.sheets.wall_view import wall_view
from houses import REMOVED, answered

HOUSES = ("meter-led", "controller-led", "changeover-led")


def words(*scenes: Scene) -> list[str]:
    return [item.shown for scene in scenes for item in scene.items if isinstance(item, Text)]


def rectangles(scene: Scene, layer: str) -> list[Rectangle]:
    return [item for item in scene.items if isinstance(item, Rectangle) and item.layer == layer]


@pytest.mark.parametrize("house", HOUSES)
def test_everything_that_is_measured_stands_in_the_list_and_is_drawn(house: str) -> None:
    result = answered(house=house)
    faces = [face for face in result.design.house.walls.values() if face.hung]
    for face, scene in zip(faces, wall_view(result), strict=True):
        told = " ".join(words(scene))
        for item in measures(face)["items"]:
            place = item["rectangle_mm"]
            assert f"{place['left_mm']:.0f} to {place['right_mm']:.0f} from the left" in told
            assert f"{place['bottom_mm']:.0f} to {place['top_mm']:.0f} up" in told
        devices = [item for item in rectangles(scene, "device") if not item.pen.dashed]
        assert len(devices) == len(face.hung)


def test_devices_are_to_scale_and_where_they_hang() -> None:
    result = answered(house="changeover-led")
    (scene,) = wall_view(result)
    (scale,) = [float(each.removeprefix("scale 1:")) for each in words(scene) if each.startswith("scale")]
    (wall,) = [item.box for item in rectangles(scene, "building") if item.box.width_mm * scale > 5900]
    (face,) = result.design.house.walls.values()
    drawn = sorted(item.box for item in rectangles(scene, "device") if not item.pen.dashed)
    for box, hung in zip(drawn, sorted(face.hung, key=lambda each: each.rectangle.left_mm), strict=True):
        place = hung.rectangle
        assert (box.left_mm - wall.left_mm) * scale == pytest.approx(place.left_mm)
        assert (wall.bottom_mm - box.bottom_mm) * scale == pytest.approx(place.bottom_mm)
        assert box.width_mm * scale == pytest.approx(place.width_mm)
        assert box.height_mm * scale == pytest.approx(place.height_mm)


def test_measures_that_several_share_name_them_all() -> None:
    edits: dict[str, Any] = {"devices.INV2.at.bottom": "1200 mm"}
    assert "INV1, INV2, BAT 1200" in words(*wall_view(answered(edits, "controller-led")))


def test_what_is_not_measured_is_asked_for() -> None:
    no_width = wall_view(answered({"places.0.walls.0.width": REMOVED}, "changeover-led"))
    assert any(each.startswith("find out: width of the wall") for each in words(*no_width))
    no_place = wall_view(answered({"devices.INV1.at.left": REMOVED}, "changeover-led"))
    assert any("find out: INV1: from the left end" in each for each in words(*no_place))
    assert any(each.startswith(("2 CO", "1 BAT")) for each in words(*no_place))


def test_what_cannot_both_be_there_is_told() -> None:
    edits = {"devices.CO.at.left": "1200 mm"}
    assert any("overlaps" in each for each in words(*wall_view(answered(edits, "changeover-led"))))


def test_what_joins_an_end_is_noted() -> None:
    edits = {"places.0.walls.0.left_end": "bare", "places.0.walls.0.right_end": "free"}
    told = words(*wall_view(answered(edits, "changeover-led")))
    assert "left end: a bare wall joins" in told
    assert "right end: free" in told
