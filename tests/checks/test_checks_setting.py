"""How anchors are set on the day, through the demo houses with a few things changed."""

from typing import Any

import pytest

from ferrule.constraint import Verdict
from ferrule.display import filled
from houses import REMOVED, answered, constraint, finding

RESIN = {"devices.INV1.fixing": {"anchor": "example-resin-m8"}}


def inverter(edits: dict[str, Any]) -> Any:
    return finding(answered(edits), "device.fixing", "inverter/INV1")


@pytest.mark.parametrize(
    ("edits", "verdict", "told"),
    [
        ({}, Verdict.PASS, "180 min, in a wet hole 360 min"),
        ({"site.work_day": "22 °C"}, Verdict.PASS, "90 min, in a wet hole 180 min"),
        ({"site.work_day": "5 °C"}, Verdict.PASS, "360 min, in a wet hole 720 min"),
        ({"site.work_day": "4.9 °C"}, Verdict.FAIL, ""),
    ],
)
def test_resin_by_the_temperature_of_the_day(edits: dict[str, Any], verdict: Verdict, told: str) -> None:
    """The coldest of the place, 12 °C here, where nobody says."""
    found = inverter({**RESIN, "places.utility.coldest": "12 °C", **edits})
    assert constraint(found, "cures").verdict is verdict
    text = filled(constraint(found, "set_so"))
    assert "Drill 10 mm, 80 mm deep; clean: blow, brush and blow" in text
    assert told in text


def test_torque_in_brick_is_half_of_that_in_concrete() -> None:
    """The rod has 10 N·m in concrete and no figure of its own in solid brick."""
    assert "tighten to 5 N·m" in filled(constraint(inverter(RESIN), "set_so"))
    own = {f"parts.{part}.bases.1.torque": "8 N·m" for part in ("example-resin-m8",)}
    assert "tighten to 8 N·m" in filled(constraint(inverter({**RESIN, **own}), "set_so"))


@pytest.mark.parametrize(
    ("edits", "verdict"),
    [
        ({"site.work_day": "40 °C"}, Verdict.PASS),
        ({"site.work_day": "40.1 °C"}, Verdict.FAIL),
        ({"places.utility.hottest": "41 °C"}, Verdict.FAIL),
        ({"places.utility.hottest": "41 °C", "site.work_day": "20 °C"}, Verdict.PASS),
        ({"places.utility.hottest": REMOVED}, Verdict.UNKNOWN),
        ({"parts.example-resin-m8.sets_upto": REMOVED}, Verdict.UNKNOWN),
    ],
)
def test_resin_does_not_go_into_a_hot_wall(edits: dict[str, Any], verdict: Verdict) -> None:
    """The hottest of the place where nobody says what the day has; the cartridge says 40 °C."""
    found = inverter({**RESIN, "places.utility.coldest": "12 °C", **edits})
    judged = {"workable": None, "cures": None} | {c.name: c.verdict for c in found.constraints}
    assert judged["workable"] is verdict
