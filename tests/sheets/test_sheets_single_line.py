"""The single-line diagram: everything of the house is on it, and what nobody knows is said to be so."""

import math
from functools import cache

import pytest

from ferrule.answering import Answer
from ferrule.sheets.scene import Scene, Text
from ferrule.sheets.single_line import single_line
from houses import answered, constraint, finding

HOUSES = ("meter-led", "controller-led", "changeover-led")


@cache
def demo(house: str) -> Answer:
    return answered(house=house, firm=True)


def words(*scenes: Scene) -> list[str]:
    return [item.shown for scene in scenes for item in scene.items if isinstance(item, Text)]


@pytest.mark.parametrize("house", HOUSES)
def test_a_demo_house_stands_on_one_page(house: str) -> None:
    (scene,) = single_line(demo(house))
    assert (scene.width_mm, scene.height_mm) == (297, 210)


@pytest.mark.parametrize("house", HOUSES)
def test_each_thing_of_the_house_is_on_it(house: str) -> None:
    design = demo(house).design.house
    text = " ".join(words(*single_line(demo(house))))
    of_its_own = {device.id for device in design.job.devices if device.kind not in {"adapter", "controller"}}
    for name in (*of_its_own, *design.boards, *design.circuits, *design.strings, *design.runs):
        assert name in text, name


def test_devices_have_their_ratings() -> None:
    shown = words(*single_line(demo("changeover-led")))
    assert "C-sockets B16 A 1P L3, RCD A 30 mA 16 A*" in shown
    assert "RCD A 300 mA 63 A S" in shown  # of the whole board, delayed
    assert {"gG 35 A", "fuse gBat", "50 A*", "all poles"} <= set(shown)


def test_strings_have_their_modules_and_cold_voltage() -> None:
    result = demo("controller-led")
    shown = words(*single_line(result))
    assert shown.count("gPV 25 A*") == 3
    assert "S4: 14 × example-mono-410" in shown
    found = finding(result, "string.cold_voltage", "string/S4")
    cold_v = constraint(found, "inverter_input").value or 0.0
    assert f"garage-west, Voc cold {math.ceil(cold_v)} V" in shown


def test_cables_have_type_conductors_size_and_length() -> None:
    shown = words(*single_line(demo("meter-led")))
    assert "pvc-multicore 3 × 2.5 mm², 17 m" in shown
    assert {"5 × 16 mm², 3 m", "SC: CT 3 × 100 A/1 A"} <= set(words(*single_line(demo("controller-led"))))


def test_the_positions_of_each_contact_are_said() -> None:
    shown = words(*single_line(demo("changeover-led")))
    assert {"grid–house closed: grid, bypass", "inverter–house closed: island"} <= set(shown)
    assert "N–PE link closed: island" in shown
    assert "INV1: N–PE link closed: never" in shown


def test_only_what_was_chosen_bears_an_asterisk() -> None:
    shown = words(*single_line(demo("meter-led")))
    assert any(each.startswith("3 × 10 mm²*") for each in shown)  # left open in the job
    assert any(each.startswith("3 × 10 mm²,") for each in shown)  # given


def test_what_nobody_knows_is_a_question_mark_with_a_note() -> None:
    shown = words(*single_line(answered({"supply.main_fuse": "unknown", "site.coldest": "unknown"})))
    assert "?" in shown
    assert "south, Voc cold ?" in shown
    assert any(each.startswith("? kind and rating of the main fuse") for each in shown)


def test_circuits_that_do_not_fit_go_onto_further_sheets() -> None:
    edits: dict[str, object] = {}
    for at in range(12):
        edits[f"runs.+{at}"] = {
            "id": f"R-x{at}", "from": "MB", "to": f"room {at}", "cable": "pvc-multicore",
            "stretches": [{"length": "9 m"}],
        }  # fmt: skip
        edits[f"boards.MB.circuits.+{at}"] = {
            "id": f"C-x{at}", "run": f"R-x{at}", "phases": ["L1"],
            "loads": [{"name": f"room {at}", "kind": "sockets"}],
        }  # fmt: skip
    first, second = single_line(answered(edits))
    assert any("circuits" in each for each in words(first))
    assert {f"room {at}" for at in range(12)} <= set(words(second))
