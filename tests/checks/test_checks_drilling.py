"""Drilling waits for the search, through the demo houses with a few things changed."""

from typing import Any

import pytest

from ferrule.constraint import Verdict
from ferrule.display import filled
from houses import REMOVED, answered, finding

WALL = "places.utility.walls.U-north"
#: a pipe behind the battery, and a screw that goes into it
MARKED: dict[str, Any] = {
    f"{WALL}.services": "marked",
    f"{WALL}.keep_clear": [{"left": "2400 mm", "bottom": "0 mm", "width": "100 mm", "height": "1 m"}],
}
TIES = [{"left": "2450 mm", "bottom": "850 mm"}]


@pytest.mark.parametrize(
    ("edits", "verdict", "told"),
    [
        ({f"{WALL}.services": "clear"}, Verdict.PASS, "searched"),
        ({f"{WALL}.services": REMOVED}, Verdict.UNKNOWN, "before any drilling"),
        ({f"{WALL}.services": "marked"}, Verdict.UNKNOWN, "hidden cables and pipes run"),
        (
            {f"{WALL}.services": "marked", f"{WALL}.keep_clear": [
                {"left": "900 mm", "bottom": "0 mm", "width": "79 mm", "height": "2400 mm"}]},
            Verdict.PASS,
            "No fixing meets",
        ),
        (
            {f"{WALL}.services": "marked", f"{WALL}.keep_clear": [
                {"left": "900 mm", "bottom": "0 mm", "width": "80 mm", "height": "2400 mm"}]},
            Verdict.FAIL,
            "behind the fixings of INV1",
        ),
        # a battery that is tied to the wall is drilled for too, and asked where
        ({**MARKED, "devices.BAT.fixing": {"tied": True}}, Verdict.UNKNOWN, "BAT: where the screws"),
        ({**MARKED, "devices.BAT.fixing": {"tied": True, "ties": TIES}}, Verdict.FAIL, "of the tie of BAT"),
        ({**MARKED, "devices.BAT.fixing": {"tied": True, "ties": []}}, Verdict.PASS, "No fixing meets"),
    ],
)  # fmt: skip
def test_drilling_waits_for_the_search(edits: dict[str, Any], verdict: Verdict, told: str) -> None:
    """The inverter's outer fixings sit 980 mm from the left end."""
    found = finding(answered(edits), "wall.hidden_services", "wall/U-north")
    assert found.verdict is verdict
    assert found.place == "wall"
    assert told in filled(found.governed_by)
