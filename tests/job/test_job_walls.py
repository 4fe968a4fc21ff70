"""Walls that cannot be as they are written."""

from typing import Any

import pytest

from ferrule.document import Unreadable
from houses import loaded

ZONES = {"wind": "1", "snow": "2"}
WALL = "places.utility.walls.U-north"
ROOF = "faces.south.roof"
SPOT = {"left": "11 m", "bottom": "0 mm", "width": "100 mm", "height": "5 m"}


@pytest.mark.parametrize(
    ("edits", "found", "allowed"),
    [
        ({"devices.INV1.at.wall": "U-nort"}, "'U-nort'", "a wall of a place"),
        (
            {
                f"{WALL}.openings": [
                    {"kind": "door", "left": "4.5 m", "bottom": "0 mm", "width": "900 mm", "height": "2 m"}
                ]
            },
            "5400 mm from the left end to its right edge",
            "not beyond the wall, which is 5000 mm wide",
        ),
        (
            {
                f"{WALL}.openings": [
                    {"kind": "window", "left": "0 m", "bottom": "2 m", "width": "1 m", "height": "1 m"}
                ]
            },
            "3000 mm from the floor to its upper edge",
            "not beyond the wall, which is 2400 mm high",
        ),
        ({"devices.INV1.at.left": "-1 mm"}, "-1 mm", "not below 0"),
        (
            {f"{WALL}.keep_clear": [{"left": "1 m", "bottom": "0 mm", "width": "1 m", "height": "1 m"}]},
            "'clear' and something to keep clear",
            "marked",
        ),
        (  # a marking without a height could lie anywhere
            {
                f"{WALL}.services": "marked",
                f"{WALL}.keep_clear": [{"left": "1 m", "width": "1 m", "height": "1 m"}],
            },
            "no value for 'bottom'",
            "bottom",
        ),
        ({f"{WALL}.things.1.left": "300 mm"}, "'backup board' where 'main board' hangs", "a spot of its own"),
        ({f"{WALL}.things.1.name": " "}, "found ''", "at least 1"),
        ({"aids": [{"name": "", "load": "100 kg", "reach": "2 m"}]}, "found ''", "at least 1"),
        ({"devices.NET.into": "INV9.ACC"}, "'INV9.ACC'", "of another device"),
        ({"devices.NET.into": "INV1"}, "'INV1'", "a port, such as INV1.ACC"),
        ({"faces.south.roof": "none"}, "'none' and mounting close-roof", "mounting rack"),
        (
            {f"{ROOF}.services": "marked", f"{ROOF}.keep_clear": [SPOT]},
            "11100 mm from the left edge to its right edge",
            "not beyond the roof, which is 9600 mm wide",
        ),
        ({"faces.south.roof.surveyed_year": 1990}, "1990", "not before laid_year, which is 1998"),
        ({"parts.example-hook-rail.tilt_low": "80°"}, "60°", "not below tilt_low"),
        (
            {"parts.example-hook-rail.spans": [{**ZONES, "hooks": "900 mm"}, {**ZONES, "hooks": "9 m"}]},
            "",
            "each pair of wind and snow zone once",
        ),
        ({"parts.example-lfp-10k.body.mass": "260 kg"}, "", "make up the mass of 260 kg"),
        ({f"{WALL}.width": "-4 m"}, "-4 m", "not below 100"),
        ({"places.+": {"id": "utility", "use": "garage"}}, "utility", ""),
        ({"places.utility.hottest": "7 °C"}, "7 °C", "not below coldest, which is 8 °C"),
        (
            {f"{WALL}.height": "2.5 m"},
            "2500 mm high",
            "not above the headroom of its place, which is 2400 mm",
        ),
        ({f"{WALL}.things.0.name": "INV1"}, "'INV1', which is the id of a device", "another name"),
        ({f"{WALL}.left_end": {"wall": "U-north"}}, "'U-north'", "another wall of this place"),
        ({f"{WALL}.left_end": {"wall": "U-west", "angle": "0°"}}, "0°", "not below 1"),
        (
            {
                f"{WALL}.left_end": {"wall": "U-west"},
                "places.utility.walls.+": {"id": "U-west", "right_end": "free"},
            },
            "'U-west', whose right_end is not joined by 'U-north'",
            "both walls say the same",
        ),
        (
            {
                f"{WALL}.left_end": {"wall": "U-west", "angle": "90°"},
                "places.utility.walls.+": {"id": "U-west", "right_end": {"wall": "U-north", "angle": "80°"}},
            },
            "another angle",
            "one angle for one corner",
        ),
        ({"parts.example-hybrid-6k-single.body.ip": "65"}, "65", "IP"),
        ({"parts.example-hybrid-6k-single.body.width": "0 mm"}, "0 mm", "not below 1"),
    ],
)
def test_a_slip_is_refused_with_its_place(edits: dict[str, Any], found: str, allowed: str) -> None:
    with pytest.raises(Unreadable) as refused:
        loaded(edits)
    told = [str(problem) for problem in refused.value.problems]
    assert len(told) == 1
    assert found in told[0]
    assert allowed in told[0]
