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
        ({f"{INVERTER}.clear.side": "unstated", f"{AT}.left": "850 mm"}, "air_left", Verdict.PASS),
        ({f"{INVERTER}.clear.side": "unstated", f"{AT}.left": "849 mm"}, "air_left", Verdict.CAUTION),
        ({f"{INVERTER}.clear.front": "unstated", f"{AT}.front": "499 mm"}, "air_front", Verdict.CAUTION),
        # a manual that nobody has read is not one that says nothing, however much is free
        ({f"{INVERTER}.clear": {}}, "air_left", Verdict.UNKNOWN),
        ({f"{INVERTER}.clear.front": REMOVED}, "air_front", Verdict.UNKNOWN),
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
        (
            {"places.utility.headroom": "1.99 m", f"{WALL}.height": "1.9 m", f"{WALL}.openings": []},
            "headroom",
            Verdict.CAUTION,
        ),
        (
            {
                "rulebook": "us-2023",
                "places.utility.headroom": "1981 mm",
                f"{WALL}.height": "1.9 m",
                f"{WALL}.openings": [],
            },
            "headroom",
            Verdict.FAIL,
        ),
    ],
)
def test_space_to_work(edits: dict[str, Any], name: str, expected: Verdict) -> None:
    assert verdict(edits, "device.working_space", name) is expected


@pytest.mark.parametrize(
    ("subject", "opposite", "front", "expected"),
    [  # a string of twelve modules brings more than 150 V into the inverter; the battery has 58 V
        ("inverter/INV1", "clear", "914.4 mm", Verdict.PASS),
        ("inverter/INV1", "clear", "914 mm", Verdict.FAIL),
        ("inverter/INV1", "earthed", "1066.8 mm", Verdict.PASS),
        ("inverter/INV1", "earthed", "1066 mm", Verdict.FAIL),
        ("inverter/INV1", "live", "1219.2 mm", Verdict.PASS),
        ("inverter/INV1", "live", "1219 mm", Verdict.FAIL),
        ("battery/BAT", "live", "914.4 mm", Verdict.PASS),
        # what nobody has said is asked for where it matters
        ("inverter/INV1", None, "1219.2 mm", Verdict.PASS),
        ("inverter/INV1", None, "1219 mm", Verdict.UNKNOWN),
        ("inverter/INV1", None, "914 mm", Verdict.FAIL),
        ("battery/BAT", None, "914.4 mm", Verdict.PASS),
    ],
)
def test_in_america_depth_goes_by_voltage_and_by_what_is_opposite(
    subject: str, opposite: str | None, front: str, expected: Verdict
) -> None:
    """NFPA 70, table 110.26(A)(1): 3 ft up to 150 V to earth; above that 3, 3.5 or 4 ft."""
    at = f"devices.{subject.partition('/')[2]}.at"
    said = {} if opposite is None else {f"{at}.opposite": opposite}
    found = finding(
        answered({"rulebook": "us-2023", f"{at}.front": front, **said}), "device.working_space", subject
    )
    if expected is Verdict.UNKNOWN:
        (ask,) = constraint(found, "working_space").find_out
        assert ask.startswith("what faces it across that space")
    else:
        assert constraint(found, "depth").verdict is expected


def _shelves(left: str, right: str) -> list[dict[str, str]]:
    deep = {"kind": "other", "bottom": "0 mm", "width": "100 mm", "height": "2 m", "depth": "600 mm"}
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
        "bottom": "0 mm",
        "width": "2 m",
        "height": "900 mm",
        "depth": "700 mm",
    }
    edits = {"rulebook": "us-2023", f"{WALL}.things": [bench], "devices.BAT.at.left": "3.3 m"}
    assert verdict(edits, "device.working_space", "width") is Verdict.FAIL


def _door(left: str, **leaf: str) -> dict[str, Any]:
    door = {"kind": "door", "left": left, "bottom": "0 mm", "width": "800 mm", "height": "2 m", **leaf}
    return {f"{WALL}.openings": [door], f"{WALL}.things": []}


@pytest.mark.parametrize(
    ("left", "leaf", "expected"),
    [
        # hung on its left edge it comes round until it lies on the wall from 2160 - 800 = 1360 mm on
        ("2160 mm", {"swings": "800 mm", "hinges": "left"}, Verdict.PASS),
        ("2159 mm", {"swings": "800 mm", "hinges": "left"}, Verdict.CAUTION),
        ("2159 mm", {"swings": "800 mm", "hinges": "both"}, Verdict.CAUTION),
        # hung on its right edge it never comes near
        ("2159 mm", {"swings": "800 mm", "hinges": "right"}, Verdict.PASS),
        ("1360 mm", {"swings": "800 mm", "hinges": "right"}, Verdict.PASS),
        # from the other side: the inverter begins at 900 mm
        ("99 mm", {"swings": "1 mm", "hinges": "right"}, Verdict.PASS),
        ("99 mm", {"swings": "800 mm", "hinges": "right"}, Verdict.CAUTION),
        ("99 mm", {"swings": "800 mm", "hinges": "left"}, Verdict.PASS),
        # what nobody measured is asked for where it could matter, and only there
        ("2159 mm", {"hinges": "left"}, Verdict.UNKNOWN),
        ("2159 mm", {"swings": "800 mm"}, Verdict.UNKNOWN),
        ("2160 mm", {}, Verdict.PASS),
    ],
)
def test_a_door_that_swings_onto_the_device(left: str, leaf: dict[str, str], expected: Verdict) -> None:
    assert verdict(_door(left, **leaf), "device.working_space", "door_swing") is expected


def test_a_door_that_opens_away_swings_onto_nothing() -> None:
    found = finding(answered(_door("1400 mm", swings="0 mm")), "device.working_space", "inverter/INV1")
    assert "door_swing" not in {c.name for c in found.constraints}


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


def _east(**said: Any) -> dict[str, Any]:
    """A wall to the right of U-north with a boiler 400 mm deep, from 100 mm beyond its left end on."""
    boiler = {"name": "boiler", "kind": "heater", "left": "100 mm", "width": "500 mm", "bottom": "1 m",
              "height": "1 m", "depth": "400 mm"}  # fmt: skip
    east = {"id": "U-east", "width": "3 m", "height": "2.4 m", "openings": [], "things": [boiler], **said}
    return {"places.utility.walls.+": east, f"{WALL}.openings": []}


SQUARE = {"wall": "U-north", "angle": "90°"}


@pytest.mark.parametrize(
    ("left", "said", "expected"),
    [
        # the inverter is 460 mm wide and asks for 200 mm at its sides; the boiler reaches 4600 mm
        ("3940 mm", {"left_end": SQUARE}, Verdict.PASS),
        ("3941 mm", {"left_end": SQUARE}, Verdict.FAIL),
        ("3941 mm", {"left_end": "free"}, None),
        # nobody said whether the two walls meet: asked where it matters, and only there
        ("3940 mm", {}, None),
        ("3941 mm", {}, Verdict.UNKNOWN),
        ("3941 mm", {"left_end": {"wall": "U-north"}}, Verdict.UNKNOWN),
        # round the outside of a house the two are far apart
        ("4540 mm", {"left_end": {"wall": "U-north", "angle": "270°"}}, Verdict.PASS),
    ],
)
def test_what_hangs_round_the_corner(left: str, said: dict[str, Any], expected: Verdict | None) -> None:
    found = finding(answered({**_east(**said), f"{AT}.left": left}), "device.room", "inverter/INV1")
    verdicts = {c.name: c.verdict for c in found.constraints}
    assert verdicts.get("corner") is expected


def test_one_corner_may_be_told_at_either_wall() -> None:
    told = {f"{WALL}.right_end": {"wall": "U-east", "angle": "90°"}, f"{AT}.left": "3941 mm"}
    assert verdict({**_east(), **told}, "device.room", "corner") is Verdict.FAIL


def test_the_boiler_narrows_the_room_to_work_in() -> None:
    """Shelf up to 3400 mm, boiler from 4600 mm: 1200 mm; with the shelf up to 3839 mm 761 mm."""
    deep = {
        "name": "shelf",
        "kind": "other",
        "bottom": "0 mm",
        "width": "100 mm",
        "height": "2 m",
        "depth": "600 mm",
    }
    for left, expected in (("3738 mm", Verdict.PASS), ("3739 mm", Verdict.FAIL)):
        edits = {"rulebook": "us-2023", f"{WALL}.things": [{**deep, "left": left}], f"{AT}.left": "3900 mm"}
        found = verdict({**_east(left_end=SQUARE), **edits}, "device.working_space", "width")
        assert found is expected


def test_outdoors_what_is_beyond_the_end_of_a_wall_is_asked() -> None:
    outdoors = {"places.utility.use": "outdoors", f"{WALL}.openings": [], f"{AT}.left": "4341 mm"}
    assert verdict(outdoors, "device.room", "air_right") is Verdict.UNKNOWN
    found = finding(answered({**outdoors, f"{AT}.left": "4340 mm"}), "device.room", "inverter/INV1")
    assert "air_right" not in {c.name for c in found.constraints}
    assert verdict({**outdoors, f"{WALL}.right_end": "bare"}, "device.room", "air_right") is Verdict.FAIL
