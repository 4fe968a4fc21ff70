"""What stands on the floor, through the demo houses with a few things changed."""

from typing import Any

import pytest

from ferrule.constraint import Verdict
from houses import REMOVED, answered, constraint, finding


@pytest.mark.parametrize(
    ("edits", "verdict"),
    [
        ({"gravity_up": "748 mm"}, Verdict.PASS),
        ({"gravity_up": "749 mm"}, Verdict.FAIL),
        ({"gravity_across": "20 mm"}, Verdict.FAIL),
        ({"gravity_up": REMOVED}, Verdict.UNKNOWN),
    ],
)
def test_what_stands_bears_ten_degrees(edits: dict[str, Any], verdict: Verdict) -> None:
    """132 mm from its centre of gravity to its front: 132 / tan 10° = 748.6 mm high."""
    paths = {f"parts.example-lfp-10k.body.mounting.{key}": value for key, value in edits.items()}
    assert finding(answered(paths), "device.stands", "battery/BAT").verdict is verdict


def test_a_tie_to_the_wall_keeps_it_upright() -> None:
    high = {"parts.example-lfp-10k.body.mounting.gravity_up": "760 mm", "devices.BAT.fixing": {"tied": "yes"}}
    found = finding(answered(high), "device.stands", "battery/BAT")
    assert [(c.name, c.verdict) for c in found.constraints] == [
        ("on_the_floor", Verdict.PASS),
        ("tied", Verdict.PASS),
    ]


@pytest.mark.parametrize(
    ("bottom", "fixing", "verdict"),
    [
        ("0 mm", {}, Verdict.PASS),
        ("1 mm", {}, Verdict.FAIL),
        ("1200 mm", {}, Verdict.FAIL),
        ("100 mm", {"plinth": "100 mm"}, Verdict.PASS),
        ("10 cm", {"plinth": "0.1 m"}, Verdict.PASS),
        ("300 mm", {"plinth": "100 mm"}, Verdict.FAIL),
        ("0 mm", {"plinth": "100 mm"}, Verdict.FAIL),
        (REMOVED, {}, Verdict.UNKNOWN),
    ],
)
def test_what_is_made_to_stand_does_not_hang_in_the_air(
    bottom: Any, fixing: dict[str, str], verdict: Verdict
) -> None:
    edits = {"devices.BAT.at.bottom": bottom, "devices.BAT.fixing": fixing}
    found = finding(answered(edits), "device.stands", "battery/BAT")
    assert constraint(found, "on_the_floor").verdict is verdict


def test_on_a_plinth_it_goes_over_sooner() -> None:
    """380 mm up on the floor, 480 mm on the plinth, 132 mm from its front: 19.2° and 15.4°."""
    edits = {"devices.BAT.at.bottom": "100 mm", "devices.BAT.fixing": {"plinth": "100 mm"}}
    tilts = [
        constraint(finding(answered(each), "device.stands", "battery/BAT"), "tilt").value
        for each in ({}, edits)
    ]
    assert tilts == pytest.approx([19.16, 15.38], abs=0.01)
