"""A device grows with its names, and each port is labelled where it is."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.sheets.device import device
from ferrule.sheets.legible import faults
from ferrule.sheets.scene import GRID_MM, Facing, Scene, Text
from ferrule.sheets.symbol import Symbol
from sheets.hostile import words

sides = st.lists(words, max_size=5)


def seen(made: Symbol) -> list[str]:
    return [item.shown for item in made.items if isinstance(item, Text)]


@given(words, words, sides, sides, sides, sides)
def test_it_is_legible_whatever_it_and_its_ports_are_called(
    name: str, note: str, up: list[str], down: list[str], left: list[str], right: list[str]
) -> None:
    named: dict[Facing, list[str]] = {"up": up, "down": down, "left": left, "right": right}
    keys = {facing: [f"{facing}{at}" for at in range(len(side))] for facing, side in named.items()}
    labels = {
        key: label for facing, side in named.items() for key, label in zip(keys[facing], side, strict=True)
    }
    made = device(name, keys, note=note, labels=labels)
    placed = made.placed(10, 10)
    assert faults(Scene(200.0, 200.0, placed.items, "a device"), within=placed.box) == ()
    assert set(made.ports) == set(labels)
    for port in made.ports.values():
        assert (port.at.x_mm % GRID_MM, port.at.y_mm % GRID_MM) == (0, 0)


def test_ports_lie_on_their_sides_in_their_order() -> None:
    made = device("INV1", {"up": ("PV+", "PV−"), "left": ("BAT+", "BAT−"), "down": ("L1", "N", "PE")})
    box = made.box
    assert {made.ports[port].at.y_mm for port in ("PV+", "PV−")} == {box.top_mm}
    assert {made.ports[port].at.x_mm for port in ("BAT+", "BAT−")} == {box.left_mm}
    across = [made.ports[port].at.x_mm for port in ("L1", "N", "PE")]
    assert across == sorted(across)
    assert {made.ports[port].facing for port in ("L1", "N", "PE")} == {"down"}
    assert set(seen(made)) == {"INV1", "PV+", "PV−", "BAT+", "BAT−", "L1", "N", "PE"}


def test_a_label_may_differ_from_the_name() -> None:
    made = device("EM", {"up": ("in.L1",), "down": ("out.L1",)}, labels={"in.L1": "L1", "out.L1": "L1"})
    assert seen(made) == ["EM", "L1", "L1"]
    assert set(made.ports) == {"in.L1", "out.L1"}


def test_two_ports_of_one_name_are_refused() -> None:
    with pytest.raises(ValueError, match="one name"):
        device("EM", {"up": ("L1",), "down": ("L1",)})
