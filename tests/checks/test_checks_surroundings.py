"""Water and dust, heat and sun, height, people asleep."""

from typing import Any

import pytest

from ferrule.constraint import Verdict
from houses import REMOVED, answered, constraint, finding

BODY = "parts.example-hybrid-6k-single.body"
ROOM = "places.utility"
AT = "devices.INV1.at"
QUIET, SHOPS, MIXED = ({"site.area": area} for area in ("purely-residential", "residential", "mixed"))
DRIPS, WINDOW = {f"{ROOM}.water": "drips"}, {f"{AT}.neighbour_window": "2 m"}
OWN, ASLEEP = {f"{AT}.bedroom_window": "2 m"}, {f"{ROOM}.walls.U-north.behind": "sleeping"}
PLUGGED = {f"{AT}.entries_plugged": True, "devices.BAT.at.entries_plugged": True}


@pytest.mark.parametrize(
    ("water", "digits"), [("dry", "0"), ("drips", "2"), ("spray", "3"), ("splash", "4"), ("jets", "5")]
)
def test_each_water_asks_for_its_digit_and_no_less(water: str, digits: str) -> None:
    edits = {**PLUGGED, f"{ROOM}.water": water}
    asked = constraint(
        finding(answered({**edits, f"{BODY}.ip": f"IP2{digits}"}), "device.enclosure", "inverter/INV1"),
        "water",
    )
    assert asked.verdict is Verdict.PASS
    if digits != "0":
        assert _water({**edits, f"{BODY}.ip": f"IP2{int(digits) - 1}"}) is Verdict.FAIL


def _water(edits: dict[str, Any]) -> Verdict:
    return constraint(finding(answered(edits), "device.enclosure", "inverter/INV1"), "water").verdict


@pytest.mark.parametrize(
    ("question", "edits", "name", "expected"),
    [
        ("enclosure", {f"{BODY}.ip": "IPX5", f"{ROOM}.dusty": True, **PLUGGED}, "dust", Verdict.FAIL),
        ("enclosure", {f"{BODY}.ip": "IP54", f"{ROOM}.dusty": True, **PLUGGED}, "dust", Verdict.PASS),
        ("enclosure", {f"{BODY}.ip": "IP1X"}, "dust", Verdict.FAIL),
        ("enclosure", {**PLUGGED, f"{BODY}.entries": "above", **DRIPS}, "entries", Verdict.CAUTION),
        ("enclosure", {f"{ROOM}.water": "drips", f"{AT}.entries_plugged": False}, "plugged", Verdict.FAIL),
        ("enclosure", {f"{ROOM}.water": "drips"}, "plugged", Verdict.UNKNOWN),
        ("enclosure", {f"{ROOM}.flood": "1249 mm"}, "flood", Verdict.PASS),
        ("enclosure", {f"{ROOM}.flood": "1250 mm"}, "flood", Verdict.FAIL),
        ("enclosure", {f"{ROOM}.flood": REMOVED}, "flood", Verdict.UNKNOWN),
        # proof against immersion is not proof against jets
        ("enclosure", {**PLUGGED, f"{ROOM}.water": "jets", f"{BODY}.ip": "IP67"}, "water", Verdict.FAIL),
        ("enclosure", {**PLUGGED, f"{ROOM}.water": "splash", f"{BODY}.ip": "IP67"}, "water", Verdict.PASS),
        ("noise", {f"{AT}.neighbour_window": "999 mm"}, "at_window", Verdict.UNKNOWN),
        ("climate", {f"{AT}.sun": "direct"}, "sun", Verdict.FAIL),
        ("climate", {f"{AT}.sun": "direct", f"{BODY}.sun": "allowed"}, "sun", Verdict.PASS),
        ("climate", {f"{BODY}.ambient_low": "8 °C"}, "coldest", Verdict.PASS),
        ("climate", {f"{BODY}.ambient_low": "8.1 °C"}, "coldest", Verdict.FAIL),
        ("climate", {f"{BODY}.ambient_high": "30 °C"}, "hottest", Verdict.PASS),
        ("climate", {f"{BODY}.ambient_high": "29.9 °C"}, "hottest", Verdict.FAIL),
        # the sun adds 15 K: 45 °C
        ("climate", {f"{AT}.sun": "direct", f"{BODY}.ambient_high": "44 °C"}, "hottest", Verdict.FAIL),
        ("climate", {f"{ROOM}.hottest": "44 °C"}, "power_left", Verdict.PASS),
        ("climate", {f"{ROOM}.hottest": "45 °C"}, "power_left", Verdict.CAUTION),
        ("climate", {f"{BODY}.derating": REMOVED}, "power_left", Verdict.UNKNOWN),
        # 35 dB(A) at 1 m and none from the battery
        ("noise", {f"{AT}.neighbour_window": "1 m"}, "at_window", Verdict.PASS),
        ("noise", {**WINDOW, f"{BODY}.noise": "41 dB(A)"}, "at_window", Verdict.PASS),
        # above 35 dB(A) it depends on the area: 35, 40 or 45 (TA Lärm 6.1)
        ("noise", {**WINDOW, f"{BODY}.noise": "41.1 dB(A)"}, "at_window", Verdict.UNKNOWN),
        ("noise", {**WINDOW, **QUIET, f"{BODY}.noise": "41.1 dB(A)"}, "at_window", Verdict.CAUTION),
        ("noise", {**WINDOW, **SHOPS, f"{BODY}.noise": "46 dB(A)"}, "at_window", Verdict.PASS),
        ("noise", {**WINDOW, **SHOPS, f"{BODY}.noise": "46.1 dB(A)"}, "at_window", Verdict.CAUTION),
        ("noise", {**WINDOW, **MIXED, f"{BODY}.noise": "51 dB(A)"}, "at_window", Verdict.PASS),
        ("noise", {**WINDOW, **MIXED, f"{BODY}.noise": "51.1 dB(A)"}, "at_window", Verdict.CAUTION),
        # the household's own window is held against the same, and asked for by itself
        ("noise", {**OWN, **QUIET, f"{BODY}.noise": "41 dB(A)"}, "at_own_window", Verdict.PASS),
        ("noise", {**OWN, **QUIET, f"{BODY}.noise": "41.1 dB(A)"}, "at_own_window", Verdict.CAUTION),
        ("noise", {**OWN, **QUIET, f"{BODY}.noise": "41.1 dB(A)"}, "at_window", Verdict.PASS),
        ("noise", {f"{AT}.bedroom_window": REMOVED}, "at_own_window", Verdict.UNKNOWN),
        ("noise", {f"{AT}.neighbour_window": REMOVED}, "at_window", Verdict.UNKNOWN),
        # 25 dB(A) in a bedroom behind the wall (TA Lärm 6.2)
        ("noise", {**ASLEEP, f"{BODY}.noise": "25 dB(A)"}, "shared_wall", Verdict.PASS),
        ("noise", {**ASLEEP, f"{BODY}.noise": "25.1 dB(A)"}, "shared_wall", Verdict.CAUTION),
    ],
)  # fmt: skip
def test_a_place(question: str, edits: dict[str, Any], name: str, expected: Verdict) -> None:
    found = finding(answered(edits), f"device.{question}", "inverter/INV1")
    assert constraint(found, name).verdict is expected


def test_two_inverters_hum_together() -> None:
    """Two of 42 dB(A) at 10 m: 42 - 20 + 3 dB(A)."""
    window = {f"devices.INV{n}.at.neighbour_window": "10 m" for n in (1, 2)}
    found = finding(answered(window, "controller-led"), "device.noise", "inverter/INV1")
    assert constraint(found, "at_window").value == pytest.approx(25.01, abs=0.005)


@pytest.mark.parametrize(
    ("altitude", "name", "expected"),
    [
        ("1000 m", None, Verdict.PASS),
        ("1500 m", "thin_air", 95.0),
        ("2000 m", "insulation", None),
        ("2500 m", "insulation", 88.0),
    ],
)
def test_height(altitude: str, name: str | None, expected: Any) -> None:
    edits = {"site.altitude": altitude, "parts.example-hybrid-6k-single.altitude_max": "4000 m",
             "parts.example-hybrid-6k-single.full_power_altitude": REMOVED}  # fmt: skip
    edits = {k: v for k, v in edits.items() if v is not REMOVED}
    found = finding(answered(edits), "inverter.altitude", "inverter/INV1")
    values = {c.name: c.value for c in found.constraints}
    if name is None:
        assert found.verdict is expected
    elif expected is None:
        assert name not in values
    else:
        assert values[name] == pytest.approx(expected)


def test_no_place_outdoors_is_dry() -> None:
    edits = {"places.utility.use": "outdoors", "places.utility.water": "dry"}
    assert _water(edits) is Verdict.UNKNOWN
    assert _water({**edits, "places.utility.water": "drips"}) is Verdict.PASS
