"""Rooms as an inspector would sort them, under four rulebooks."""

from typing import Any

import pytest

from ferrule.clauses.handwork.battery_place import PlaceTables
from ferrule.constraint import Verdict
from houses import REMOVED, answered, constraint, finding

ROOM = "places.utility"
WALL = f"{ROOM}.walls.U-north"
AT = "devices.BAT.at"
ENERGY = "parts.example-lfp-10k.energy"
WINDOW = {"kind": "window", "to": "habitable", "width": "1 m", "height": "800 mm"}
UK, US, AU, IEC = ({"rulebook": edition} for edition in ("uk-2022", "us-2023", "aunz-2024", "iec-2024"))
TWO_PACKS = {"devices.BAT.packs": 2, f"{AT}.left": "1 m"}
OUTDOORS = {f"{ROOM}.use": "outdoors", f"{WALL}.things": [], f"{WALL}.openings": []}


def _window(left: str, bottom: str) -> dict[str, Any]:
    return {f"{WALL}.openings": [{**WINDOW, "left": left, "bottom": bottom}]}


def _things(kind: str, left: str) -> dict[str, Any]:
    """Something thin on the floor; the battery stands from 2250 mm on."""
    thing = {"name": "it", "kind": kind, "left": left, "bottom": "0 mm", "width": "0 mm", "height": "1 m"}
    return {f"{WALL}.things": [thing]}


@pytest.mark.parametrize(
    ("rulebook", "edits", "name", "expected"),
    [
        # PAS 63100:2024
        (UK, {}, "place", Verdict.PASS),
        (UK, {f"{ROOM}.use": "sleeping"}, "place", Verdict.FAIL),
        (UK, {f"{ROOM}.use": "bathroom"}, "place", Verdict.FAIL),
        (UK, {f"{ROOM}.use": "loft"}, "place", Verdict.FAIL),
        (UK, {f"{ROOM}.use": "under-stairs"}, "place", Verdict.FAIL),
        (UK, {f"{ROOM}.use": "escape-route"}, "place", Verdict.FAIL),
        (UK, {f"{ROOM}.use": "cupboard"}, "place", Verdict.FAIL),
        (UK, {f"{ROOM}.opens_to": ["sleeping"]}, "opens_to", Verdict.FAIL),
        (UK, {f"{ROOM}.fire_separated": False}, "separation", Verdict.FAIL),
        (UK, {f"{ROOM}.alarm": "single"}, "alarm", Verdict.FAIL),
        (UK, {f"{AT}.flammables": "2 m"}, "flammables", Verdict.PASS),
        (UK, {f"{AT}.flammables": "1.99 m"}, "flammables", Verdict.FAIL),
        (UK, {**OUTDOORS, f"{AT}.escape": "999 mm"}, "escape", Verdict.FAIL),
        (UK, {**OUTDOORS, **_window("3850 mm", "1 m")}, "opening", Verdict.PASS),
        (UK, {**OUTDOORS, **_window("3840 mm", "0 m")}, "opening", Verdict.FAIL),
        (UK, {**OUTDOORS, **_window("2250 mm", "1.5 m")}, "opening_above", Verdict.FAIL),
        # International Residential Code R328, NFPA 855
        (US, {f"{ROOM}.use": "habitable"}, "place", Verdict.FAIL),
        (US, {f"{ROOM}.use": "garage", f"{ROOM}.cars": "unguarded"}, "cars", Verdict.FAIL),
        (US, {f"{ROOM}.use": "garage", f"{ROOM}.cars": "guarded"}, "cars", Verdict.PASS),
        (US, {**OUTDOORS, f"{AT}.opening": "915 mm"}, "opening", Verdict.PASS),
        (US, {**OUTDOORS, f"{AT}.opening": "914 mm"}, "opening", Verdict.FAIL),
        (US, {**TWO_PACKS, f"{AT}.pack_gap": "915 mm"}, "battery", Verdict.PASS),
        (US, {**TWO_PACKS, f"{AT}.pack_gap": "914 mm"}, "battery", Verdict.FAIL),
        (US, {f"{ROOM}.alarm": "linked"}, "alarm", Verdict.PASS),
        (US, {f"{ROOM}.alarm": "single"}, "alarm", Verdict.FAIL),
        (US, {f"{ROOM}.use": "garage", f"{ROOM}.alarm": "none"}, "alarm", Verdict.FAIL),
        (US, {f"{ROOM}.use": "garage", f"{ROOM}.fire_separated": False}, "separation", Verdict.FAIL),
        (US, {f"{ROOM}.finished": True}, "finish", Verdict.PASS),
        (US, {f"{ROOM}.finished": False}, "finish", Verdict.FAIL),
        (US, {f"{ROOM}.finished": REMOVED}, "finish", Verdict.UNKNOWN),
        (IEC, {f"{ROOM}.finished": False}, "finish", Verdict.CAUTION),
        (UK, {f"{ROOM}.use": "garage", f"{ROOM}.cars": "unguarded"}, "cars", Verdict.FAIL),
        # AS/NZS 5139:2019
        (AU, {f"{ROOM}.use": "habitable"}, "place", Verdict.FAIL),
        (AU, {f"{ROOM}.use": "loft"}, "place", Verdict.FAIL),
        (AU, _window("3450 mm", "0 m"), "opening", Verdict.PASS),
        (AU, _window("3449 mm", "0 m"), "opening", Verdict.FAIL),
        (AU, _window("2 m", "1.6 m"), "opening_above", Verdict.FAIL),
        (AU, {f"{WALL}.behind": "sleeping", f"{WALL}.combustible": True}, "wall", Verdict.FAIL),
        (AU, {f"{WALL}.behind": "sleeping", f"{WALL}.combustible": False}, "wall", Verdict.PASS),
        (AU, {f"{AT}.escape": "599 mm"}, "escape", Verdict.FAIL),
        (AU, _things("heater", "1650 mm"), "appliance", Verdict.PASS),
        (AU, _things("heater", "1651 mm"), "appliance", Verdict.FAIL),
        (UK, _things("store", "251 mm"), "flammables", Verdict.FAIL),
        # no international rule: the strictest of the three as a convention
        (IEC, {f"{ROOM}.use": "bathroom"}, "place", Verdict.CAUTION),
        (IEC, {f"{ROOM}.use": "sleeping"}, "place", Verdict.FAIL),  # all three refuse it
        (IEC, {f"{ROOM}.use": "loft"}, "place", Verdict.FAIL),
        (IEC, {f"{AT}.escape": "599 mm"}, "escape", Verdict.CAUTION),
    ],
)  # fmt: skip
def test_a_room(rulebook: dict[str, str], edits: dict[str, Any], name: str, expected: Verdict) -> None:
    found = finding(answered({**rulebook, **edits}), "battery.place", "battery/BAT")
    assert constraint(found, name).verdict is expected


@pytest.mark.parametrize(
    ("rulebook", "path", "name"),
    [
        (UK, f"{ROOM}.fire_separated", "separation"),
        (UK, f"{ROOM}.alarm", "alarm"),
        (UK, f"{ROOM}.opens_to", "opens_to"),
        (UK, f"{AT}.flammables", "flammables"),
        (US, f"{ROOM}.cars", "cars"),
        (AU, f"{AT}.escape", "escape"),
        (AU, f"{AT}.opening", "opening"),
        (AU, f"{WALL}.behind", "wall"),
        (AU, f"{WALL}.things", "above"),
    ],
)
def test_a_missing_measure_is_asked_for(rulebook: dict[str, str], path: str, name: str) -> None:
    found = finding(answered({**rulebook, path: REMOVED}), "battery.place", "battery/BAT")
    assert constraint(found, name).verdict is Verdict.UNKNOWN


@pytest.mark.parametrize(
    ("rulebook", "path"),
    [(US, f"{AT}.flammables"), (US, f"{AT}.escape"), (UK, f"{WALL}.combustible")],
)
def test_what_a_rulebook_does_not_ask_for_need_not_be_measured(rulebook: dict[str, str], path: str) -> None:
    found = finding(answered({**rulebook, path: REMOVED}), "battery.place", "battery/BAT")
    asks = [ask for c in found.constraints for ask in c.find_out]
    assert all("which this rulebook has not got yet" in ask for ask in asks)


@pytest.mark.parametrize(
    ("rulebook", "name"),
    [(UK, "wall"), (UK, "finish"), (US, "wall"), (US, "separation"), (AU, "opens_to"), (AU, "alarm")],
)
def test_a_rule_nobody_read_is_not_known_instead_of_not_asked(rulebook: dict[str, str], name: str) -> None:
    found = finding(answered(rulebook), "battery.place", "battery/BAT")
    assert constraint(found, name).verdict is Verdict.UNKNOWN


@pytest.mark.parametrize(
    ("use", "energy", "packs", "name", "expected"),
    [
        ("garage", "20 kWh", 4, "unit_energy", Verdict.PASS),
        ("garage", "20.1 kWh", 1, "unit_energy", Verdict.FAIL),
        ("garage", "20 kWh", 4, "place_energy", Verdict.PASS),
        ("garage", "20 kWh", 5, "place_energy", Verdict.FAIL),
        ("utility", "20 kWh", 2, "place_energy", Verdict.PASS),
        ("utility", "14 kWh", 3, "place_energy", Verdict.FAIL),
    ],
)
def test_energy_in_one_unit_and_in_one_place(
    use: str, energy: str, packs: int, name: str, expected: Verdict
) -> None:
    edits = {f"{ROOM}.use": use, ENERGY: energy, "devices.BAT.packs": packs}
    found = finding(answered({**US, **edits}), "battery.energy", "battery/BAT")
    assert constraint(found, name).verdict is expected


def test_without_a_limit_for_energy_there_is_no_finding() -> None:
    assert "battery.energy" not in {found.id for found in answered().findings}


def test_where_no_limit_was_read_it_is_not_said_that_there_is_none() -> None:
    found = finding(answered(UK), "battery.energy", "battery/BAT")
    assert found.verdict is Verdict.UNKNOWN


BOILER = {"name": "boiler", "kind": "heater", "left": "100 mm", "bottom": "1 m", "width": "500 mm",
          "height": "1 m", "depth": "400 mm"}  # fmt: skip


@pytest.mark.parametrize(
    ("left", "corner", "expected"),
    [
        ("3434 mm", {"left_end": {"wall": "U-north", "angle": "90°"}}, Verdict.PASS),
        ("3435 mm", {"left_end": {"wall": "U-north", "angle": "90°"}}, Verdict.FAIL),
        ("3434 mm", {}, None),
        ("3435 mm", {}, Verdict.UNKNOWN),
    ],
)
def test_a_boiler_round_the_corner(left: str, corner: dict[str, Any], expected: Verdict | None) -> None:
    """The boiler reaches 4600 mm and begins 200 mm above the battery, 600 mm wide: 600² = 200² + 565.7²."""
    east = {"id": "U-east", "width": "3 m", "height": "2.4 m", "openings": [], "things": [BOILER], **corner}
    edits = {f"{ROOM}.walls.+": east, f"{WALL}.openings": [], f"{AT}.left": left, **AU}
    found = finding(answered(edits), "battery.place", "battery/BAT")
    assert {c.name: c.verdict for c in found.constraints if c.name.startswith("appliance")} == (
        {} if expected is None else {"appliances" if expected is Verdict.UNKNOWN else "appliance": expected}
    )


def test_a_rulebook_without_a_word_on_openings_above_still_keeps_from_those_beside(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    asked = PlaceTables.keeps_from

    def not_above(self: PlaceTables, tables: Any, neighbour: Any, *, use: str) -> bool:
        return neighbour != "opening_above" and asked(self, tables, neighbour, use=use)

    monkeypatch.setattr(PlaceTables, "keeps_from", not_above)
    found = finding(answered({**US, **OUTDOORS, f"{AT}.opening": "914 mm"}), "battery.place", "battery/BAT")
    assert constraint(found, "opening").verdict is Verdict.FAIL
