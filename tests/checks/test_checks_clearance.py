"""Room on the wall, space to work, controls in reach."""

from typing import Any

import pytest

from ferrule.constraint import Verdict
from houses import REMOVED, answered, constraint, finding

INVERTER = "parts.example-hybrid-6k-single.body"
AT = "devices.INV1.at"
WALL = "places.utility.walls.U-north"


def verdict(edits: dict[str, Any], question: str, name: str, subject: str = "inverter/INV1") -> Verdict:
    return constraint(finding(answered(edits), question, subject), name).verdict


@pytest.mark.parametrize(
    ("edits", "name", "expected"),
    [
        # the maker's gap is held to the millimetre
        ({f"{AT}.left": "850 mm"}, "air_left", Verdict.PASS),
        ({f"{AT}.left": "849 mm"}, "air_left", Verdict.FAIL),
        ({f"{AT}.left": "1140 mm"}, "air_right", Verdict.PASS),
        ({f"{AT}.left": "1141 mm"}, "air_right", Verdict.FAIL),
        ({f"{AT}.bottom": "1450 mm"}, "air_above", Verdict.PASS),
        ({f"{AT}.bottom": "1451 mm"}, "air_above", Verdict.FAIL),
        ({f"{AT}.bottom": "400 mm"}, "air_below", Verdict.PASS),
        ({f"{AT}.bottom": "399 mm"}, "air_below", Verdict.FAIL),
        ({f"{AT}.front": "500 mm"}, "air_front", Verdict.PASS),
        ({f"{AT}.front": "499 mm"}, "air_front", Verdict.FAIL),
        # where the maker says nothing, what is usual makes a caution and no more
        ({f"{INVERTER}.clear": {}, f"{AT}.left": "850 mm"}, "air_left", Verdict.PASS),
        ({f"{INVERTER}.clear": {}, f"{AT}.left": "849 mm"}, "air_left", Verdict.CAUTION),
        ({f"{INVERTER}.clear": {}, f"{AT}.front": "499 mm"}, "air_front", Verdict.CAUTION),
        # collisions, and the end of the wall
        ({f"{AT}.left": "600 mm"}, "nothing_in_the_way", Verdict.FAIL),
        ({f"{AT}.left": "4 m"}, "nothing_in_the_way", Verdict.FAIL),
        ({f"{AT}.bottom": "700 mm", f"{AT}.left": "1800 mm"}, "nothing_in_the_way", Verdict.FAIL),
        ({f"{AT}.left": "4540 mm", f"{WALL}.openings": []}, "on_wall", Verdict.PASS),
        ({f"{AT}.left": "4541 mm", f"{WALL}.openings": []}, "on_wall", Verdict.FAIL),
    ],
)
def test_room_on_the_wall(edits: dict[str, Any], name: str, expected: Verdict) -> None:
    assert verdict(edits, "device.room", name) is expected


@pytest.mark.parametrize(
    ("path", "ask"),
    [
        (AT, "the wall it hangs on or stands at, with its position there"),
        (f"{AT}.left", "from the left end of the wall to the left edge of the device"),
        (f"{WALL}.things", "what else hangs or stands at the wall, measured; [] if nothing"),
        (f"{WALL}.openings", "doors, windows and vents in the wall, measured; [] if none"),
        (f"{INVERTER}.width", "width of the device, from its sheet"),
    ],
)
def test_a_missing_measure_is_asked_for_and_never_passes(path: str, ask: str) -> None:
    found = finding(answered({path: REMOVED}), "device.room", "inverter/INV1")
    assert found.verdict is Verdict.UNKNOWN
    assert any(ask in each for c in found.constraints for each in c.find_out)


def test_a_battery_on_the_floor_needs_no_air_below() -> None:
    found = finding(answered(), "device.room", "battery/BAT")
    assert "air_below" not in {c.name for c in found.constraints}
    assert found.verdict is Verdict.PASS


def test_outdoors_the_sky_bounds_nothing() -> None:
    edits = {"places.utility.use": "outdoors", f"{AT}.front": "open", f"{WALL}.things": []}
    found = finding(answered(edits), "device.room", "inverter/INV1")
    assert {c.name for c in found.constraints} == {"on_wall", "nothing_in_the_way", "air_below"}


@pytest.mark.parametrize(
    ("edits", "name", "expected"),
    [
        ({f"{AT}.front": "700 mm"}, "depth", Verdict.PASS),
        ({f"{AT}.front": "699 mm"}, "depth", Verdict.CAUTION),
        ({"places.utility.headroom": "1.99 m"}, "headroom", Verdict.CAUTION),
        ({"rulebook": "us-2023", f"{AT}.front": "914.4 mm"}, "depth", Verdict.PASS),
        ({"rulebook": "us-2023", f"{AT}.front": "914 mm"}, "depth", Verdict.FAIL),
        ({"rulebook": "us-2023", "places.utility.headroom": "1981 mm"}, "headroom", Verdict.FAIL),
    ],
)
def test_space_to_work(edits: dict[str, Any], name: str, expected: Verdict) -> None:
    assert verdict(edits, "device.working_space", name) is expected


def _shelves(left: str, right: str) -> list[dict[str, str]]:
    deep = {"kind": "other", "width": "100 mm", "height": "2 m", "depth": "600 mm"}
    return [{"name": "shelf", "left": left, **deep}, {"name": "cupboard", "left": right, **deep}]


def test_the_width_to_work_in_lies_between_what_stands_out_further() -> None:
    """Shelf up to 600 mm, cupboard from 1362 mm: 762 mm are free, as NFPA 70 110.26(A)(2) asks."""
    edits = {"rulebook": "us-2023", "devices.BAT.at.left": "3.2 m", f"{WALL}.openings": []}
    wide = {**edits, f"{WALL}.things": _shelves("500 mm", "1362 mm")}
    assert verdict(wide, "device.working_space", "width") is Verdict.PASS
    narrow = {**edits, f"{WALL}.things": _shelves("500 mm", "1361 mm")}
    assert verdict(narrow, "device.working_space", "width") is Verdict.FAIL


def test_nobody_works_where_a_bench_stands() -> None:
    bench = {
        "name": "bench",
        "kind": "other",
        "left": "1 m",
        "width": "2 m",
        "height": "900 mm",
        "depth": "700 mm",
    }
    edits = {"rulebook": "us-2023", f"{WALL}.things": [bench], "devices.BAT.at.left": "3.3 m"}
    assert verdict(edits, "device.working_space", "width") is Verdict.FAIL


def _door(left: str, swings: str) -> list[dict[str, str]]:
    return [{"kind": "door", "left": left, "width": "800 mm", "height": "2 m", "swings": swings}]


def test_a_door_that_swings_onto_the_device() -> None:
    """The leaf lies flat on the wall from 2160 - 800 = 1360 mm on, where the inverter ends."""
    edits = {f"{WALL}.openings": _door("2160 mm", "800 mm"), f"{WALL}.things": []}
    assert verdict(edits, "device.working_space", "door_swing") is Verdict.PASS
    edits = {f"{WALL}.openings": _door("2159 mm", "800 mm"), f"{WALL}.things": []}
    assert verdict(edits, "device.working_space", "door_swing") is Verdict.CAUTION


@pytest.mark.parametrize(
    ("bottom", "expected"),
    [
        ("1300 mm", Verdict.PASS),
        ("1301 mm", Verdict.CAUTION),
        ("99 mm", Verdict.CAUTION),
        ("100 mm", Verdict.PASS),
    ],
)
def test_controls_within_reach(bottom: str, expected: Verdict) -> None:
    """Its display sits 500 mm above its lower edge; 600 to 1800 mm are within reach."""
    assert verdict({f"{AT}.bottom": bottom}, "device.reach", "controls_height") is expected


def test_a_device_without_controls_is_not_asked() -> None:
    found = answered({f"{INVERTER}.controls": REMOVED}).findings
    assert ("device.reach", "inverter/INV1") not in {(f.id, str(f.subject)) for f in found}
