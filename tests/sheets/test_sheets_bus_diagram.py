"""The bus diagram: who follows whom, where each core lands, what is on at which end."""

from functools import cache

from ferrule.answering import Answer
from ferrule.sheets.bus_diagram import bus_diagram, chains
from ferrule.sheets.scene import Rectangle, Scene, Text
from ferrule.wiring.bus import Line
from houses import answered


@cache
def demo(house: str) -> Answer:
    return answered(house=house, firm=True)


def words(*scenes: Scene) -> list[str]:
    return [item.shown for scene in scenes for item in scene.items if isinstance(item, Text)]


def at(scene: Scene, shown: str) -> list[Text]:
    return [item for item in scene.items if isinstance(item, Text) and item.shown == shown]


def test_devices_stand_in_the_order_of_the_line() -> None:
    (scene,) = bus_diagram(demo("controller-led"))
    (first,), (second,), (third,) = (at(scene, name) for name in ("SC.BUS", "INV1.BUS", "INV2.BUS"))
    assert first.at.x_mm < second.at.x_mm < third.at.x_mm
    assert first.at.y_mm == second.at.y_mm == third.at.y_mm
    assert {"asks the others", "address 1", "address 2", "46 m", "3 m"} <= set(words(scene))


def test_one_core_lands_in_one_row_whatever_the_maker_calls_it() -> None:
    """The meter's plus is called B, the inverter's A."""
    (scene,) = bus_diagram(demo("changeover-led"))
    (inverter,), (meter,) = at(scene, "A (+)"), at(scene, "B (+)")
    assert inverter.at.y_mm == meter.at.y_mm


def test_a_core_on_the_wrong_terminal_is_drawn_there() -> None:
    (scene,) = bus_diagram(answered({"buses.RS.nodes.1.first_core": "A"}))
    inverter = min(at(scene, "B (+)"), key=lambda text: text.at.x_mm)
    meter = max(at(scene, "A (−)"), key=lambda text: text.at.x_mm)
    assert inverter.at.x_mm < meter.at.x_mm
    assert inverter.at.y_mm == meter.at.y_mm


def test_terminators_are_at_the_ends_and_say_whether_they_are_on() -> None:
    (scene,) = bus_diagram(demo("controller-led"))
    shown = words(scene)
    assert shown.count("terminator: on*") == 2
    assert shown.count("terminator: off") == 1
    assert shown.count("terminator: built in") == 2
    resistors = [i for i in scene.items if isinstance(i, Rectangle) and i.box.width_mm == 2]
    assert len(resistors) == 4


def test_plugs_have_their_pins_and_screens_one_earth() -> None:
    shown = words(*bus_diagram(demo("changeover-led")))
    assert shown.count("high, pin 4") == 2
    assert shown.count("screen, earthed here") == shown.count("screen, cut back") == 2


def test_contacts_say_their_sense() -> None:
    shown = words(*bus_diagram(demo("changeover-led")))
    assert {"acts by opening", "stop: acts on opening", "acts by closing", "K-stop, dry"} <= set(shown)


def test_what_is_not_known_is_a_question_mark() -> None:
    shown = words(
        *bus_diagram(answered({"buses.RS.nodes.1.address": "unknown", "buses.RS.speed": "unknown"}))
    )
    assert "address ?" in shown
    assert any("; ?; parity" in each for each in shown)


def test_a_long_line_goes_on_below_and_a_branch_begins_where_it_leaves() -> None:
    line = Line(
        {"a": ("b",), "b": ("a", "c", "x"), "c": ("b", "d"), "d": ("c", "e"), "e": ("d",), "x": ("b",)}
    )
    assert [(each.ports, each.goes_on) for each in chains(line)] == [
        (("a", "b", "c", "d"), False),
        (("d", "e"), True),
        (("b", "x"), True),
    ]


def test_a_house_without_signals_has_none() -> None:
    assert bus_diagram(answered({"buses": []})) == ()
