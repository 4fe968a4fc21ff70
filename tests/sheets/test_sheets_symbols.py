"""Every symbol, every way up: on the grid, within its box, legible, unlike the others."""

from collections.abc import Callable
from itertools import combinations
from typing import Any

import pytest

from ferrule.sheets import symbols
from ferrule.sheets.device import device
from ferrule.sheets.legible import faults
from ferrule.sheets.scene import GRID_MM, Item, Placing, Scene, Text, line
from ferrule.sheets.svg import svg
from ferrule.sheets.symbol import Symbol

SYMBOLS: dict[str, Callable[..., Symbol]] = {
    name: made
    for name, made in vars(symbols).items()
    if callable(made) and getattr(made, "__annotations__", {}).get("return") is Symbol and name[0] != "_"
}
SYMBOLS.pop("symbol")
SYMBOLS |= {
    "busbar": lambda: symbols.busbar(3),
    "changeover_b": lambda: symbols.changeover("b"),
    "contactor_pair": lambda: symbols.changeover(powered=True),
    "generator_set": lambda: symbols.generator("rotating"),
    "named": lambda: symbols.circuit_breaker().named("F1", "C 16 A", "30 mA"),
    "device": lambda: device(
        "INV1",
        {
            "up": ("PV1+", "PV1−", "PV2+", "PV2−"),
            "down": ("L1", "L2", "L3", "N", "PE"),
            "right": ("A", "B", "REF"),
            "left": ("BAT+", "BAT−"),
        },
        note="Example hybrid 8 kW",
    ),
    "narrow": lambda: device(
        "EM", {"up": ("L1", "N"), "down": ("L1'", "N'"), "left": ("A", "B", "REF", "GND")}
    ),
}
NEEDED = {
    "earth", "protective_earth", "frame_bond", "circuit_breaker", "switch_disconnector", "fuse",
    "residual_current_device", "surge_protective_device", "isolator", "contactor", "changeover", "module",
    "generator", "battery", "inverter", "transformer", "current_transformer", "energy_meter", "socket",
    "load", "busbar", "terminal", "lamp", "aerial", "plug_connector",
}  # fmt: skip


def page(*items: Item) -> Scene:
    return Scene(200.0, 200.0, items, "a symbol")


def test_the_trade_finds_what_it_needs() -> None:
    assert set(SYMBOLS) >= NEEDED


NAMED = ("named", "device", "narrow")
"""What has names is drawn upright."""


@pytest.mark.parametrize(
    ("name", "quarters"),
    [(name, quarters) for name in SYMBOLS for quarters in (range(1) if name in NAMED else range(4))],
)
def test_a_symbol_is_legible_and_on_the_grid(name: str, quarters: int) -> None:
    placed = SYMBOLS[name]().placed(100.0, 100.0, quarters)
    assert faults(page(*placed.items)) == ()
    for port in placed.ports.values():
        assert (port.at.x_mm % GRID_MM, port.at.y_mm % GRID_MM) == (0, 0)
    strokes = [item for item in placed.items if not isinstance(item, Text)]
    assert all(placed.box.holds(item.box) for item in strokes)


@pytest.mark.parametrize("name", SYMBOLS)
def test_a_conductor_that_leaves_a_port_leaves_the_symbol(name: str) -> None:
    """One step out of a port, the way it faces, nothing of the symbol is in the way."""
    made = SYMBOLS[name]().placed(100.0, 100.0)
    for port in made.ports.values():
        x, y = port.at
        dx, dy = {"up": (0, -1), "right": (1, 0), "down": (0, 1), "left": (-1, 0)}[port.facing]
        beyond = line((x + 0.9 * dx, y + 0.9 * dy), (x + GRID_MM * dx, y + GRID_MM * dy))
        assert not made.box.meets(beyond.box.grown(0.05))


def test_no_two_look_alike() -> None:
    drawn = {name: svg(page(*made().items)) for name, made in SYMBOLS.items()}
    assert [(one, other) for one, other in combinations(drawn, 2) if drawn[one] == drawn[other]] == []


def test_names_stand_beside_the_symbol_and_belong_to_its_box() -> None:
    bare = symbols.fuse().placed(50, 50)
    named = bare.named("F1", "gG 35 A")
    added = [item for item in named.items if item not in bare.items]
    assert [item.words for item in added if isinstance(item, Text)] == ["F1", "gG 35 A"]
    assert all(item.box.left_mm > bare.box.right_mm and named.box.holds(item.box) for item in added)
    assert named.ports == bare.ports


@pytest.mark.parametrize("count", [1, 2, 3, 5])
@pytest.mark.parametrize("quarters", [0, 1])
def test_the_marks_on_a_conductor_say_how_many_there_are(count: int, quarters: int) -> None:
    marks = [item.placed(Placing(50, 50, quarters)) for item in symbols.conductors(count)]
    wire: Any = line((50, 40), (50, 60)) if quarters == 0 else line((40, 50), (60, 50))
    assert faults(page(wire, *marks)) == ()
    numbers = [item.words for item in marks if isinstance(item, Text)]
    assert numbers == ([str(count)] if count > 3 else [])
    assert len(marks) - len(numbers) == (count if count <= 3 else 1)


@pytest.mark.parametrize("across_mm", [0.0, 2.5, 5.0])
def test_a_screen_goes_round_its_conductors(across_mm: float) -> None:
    boxes = [item.box for item in symbols.screen(across_mm)]
    assert min(box.left_mm for box in boxes) < 0
    assert max(box.right_mm for box in boxes) > across_mm
