"""Conductors reach their ports, keep off what is in the way and off each other, and cross little."""

from collections.abc import Sequence
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ferrule.sheets.device import device
from ferrule.sheets.legible import crossings, faults
from ferrule.sheets.route import CLEAR_MM, Routed, Wire, route
from ferrule.sheets.scene import Box, Circle, Facing, Line, Point, Scene
from ferrule.sheets.symbol import Port, Symbol

AREA = Box(0.0, 0.0, 200.0, 150.0)
STEPS: dict[Facing, tuple[int, int]] = {"up": (0, -1), "right": (1, 0), "down": (0, 1), "left": (-1, 0)}


def port(x_mm: float, y_mm: float, facing: Facing) -> Port:
    return Port(Point(x_mm, y_mm), facing)


def page(routed: Routed) -> Scene:
    return Scene(200.0, 150.0, routed.items, "wires")


def test_the_shortest_way_is_straight() -> None:
    routed = route(AREA, [], [Wire("a", port(50, 50, "right"), port(100, 50, "left"))])
    assert routed.paths == {"a": ((50, 50), (100, 50))}


def test_a_wire_leaves_and_arrives_as_its_ports_face() -> None:
    (path,) = route(AREA, [], [Wire("a", port(50, 50, "up"), port(100, 100, "down"))]).paths.values()
    assert path[1].x_mm == 50
    assert path[1].y_mm < 50
    assert path[-2].x_mm == 100
    assert path[-2].y_mm > 100


def test_it_goes_around_what_is_in_the_way() -> None:
    box = Box(70, 40, 80, 60)
    routed = route(AREA, [box], [Wire("a", port(50, 50, "right"), port(100, 50, "left"))])
    assert all(not box.grown(CLEAR_MM).meets(line.box.grown(1e-6)) for line in stretches(routed))
    assert len(routed.paths["a"]) == 6


def test_where_there_is_no_way_it_says_so_and_draws_nothing() -> None:
    walls = [Box(90, 0, 92, 150)]
    routed = route(AREA, walls, [Wire("a", port(50, 50, "right"), port(120, 50, "left"))])
    assert (routed.unrouted, routed.items, routed.paths) == (("a",), (), {})


def test_nested_wires_do_not_cross() -> None:
    wires = [Wire(str(at), port(20, 20 + 5 * at, "right"), port(100 - 5 * at, 140, "up")) for at in range(8)]
    routed = route(AREA, [], wires)
    assert crossings(page(routed)) == (0, 0)
    assert all(len(path) == 3 for path in routed.paths.values())


def test_wires_that_must_cross_cross_once() -> None:
    wires = [
        Wire("a", port(20, 20, "right"), port(120, 100, "left")),
        Wire("b", port(20, 100, "right"), port(120, 20, "left")),
    ]
    assert crossings(page(route(Box(18, 18, 122, 102), [], wires))) == (1, 0)


def test_a_net_is_drawn_once_with_a_dot_where_it_parts() -> None:
    wires = [
        Wire("a", port(20, 50, "right"), port(120, 50, "left"), net="PE", layer="protective"),
        Wire("b", port(20, 50, "right"), port(70, 100, "up"), net="PE", layer="protective"),
    ]
    routed = route(AREA, [], wires)
    assert [item.middle for item in routed.items if isinstance(item, Circle)] == [(70, 50)]
    assert faults(page(routed)) == ()
    drawn = sum(
        abs(x2 - x1) + abs(y2 - y1)
        for item in routed.items
        if isinstance(item, Line)
        for (x1, y1), (x2, y2) in pairwise(item.points)
    )
    assert drawn == 150


def test_wires_keep_off_the_edge_of_the_area() -> None:
    area = Box(10, 10, 110, 60)
    wires = [
        Wire("a", port(20, 15, "up"), port(100, 15, "up")),
        Wire("b", port(20, 55, "down"), port(100, 55, "down")),
    ]
    routed = route(area, [Box(50, 12, 60, 58)], wires)
    assert routed.unrouted == ("a", "b")
    assert all(area.grown(-CLEAR_MM).holds(item.box) for item in route(area, [], wires).items)


@pytest.mark.parametrize("at", [(51.0, 50.0), (250.0, 50.0), (50.0, -5.0)])
def test_a_port_off_the_grid_or_the_page_is_refused(at: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="off the grid or outside"):
        route(AREA, [], [Wire("a", port(*at, "right"), port(100, 50, "left"))])


def test_two_wires_of_one_name_are_refused() -> None:
    wire = Wire("a", port(50, 50, "right"), port(100, 50, "left"))
    with pytest.raises(ValueError, match="one name"):
        route(AREA, [], [wire, wire])


LABELS = ("1", "2", "3", "4")


@st.composite
def boards(draw: st.DrawFn) -> tuple[list[Symbol], list[Wire]]:
    """Devices side by side in rows, and wires between any of their ports, each port used once."""
    devices = []
    for row in range(2):
        for column in range(3):
            facings = draw(st.permutations(tuple(STEPS)))
            labels = dict(zip(facings, [LABELS[:2], LABELS[2:], (), ()], strict=True))
            shift = draw(st.sampled_from((0.0, 2.5, 5.0)))
            devices.append(device("D", labels).placed(15.0 + 65 * column + shift, 20.0 + 75 * row + shift))
    ports = [(f"{at}{name}", port) for at, made in enumerate(devices) for name, port in made.ports.items()]
    order = draw(st.permutations(ports))
    pairs = zip(order[::2], order[1::2], strict=False)
    wires = [Wire(f"{one}-{other}", start, end) for (one, start), (other, end) in pairs]
    return devices, wires[: draw(st.integers(1, 12))]


def stretches(routed: Routed) -> Sequence[Line]:
    return [
        Line((one, other))
        for item in routed.items
        if isinstance(item, Line)
        for one, other in pairwise(item.points)
    ]


@given(boards())
@settings(max_examples=25)
def test_whatever_is_laid_is_legible(board: tuple[list[Symbol], list[Wire]]) -> None:
    devices, wires = board
    routed = route(AREA, [made.box for made in devices], wires)
    assert routed == route(AREA, [made.box for made in devices], wires)
    words = tuple(item for made in devices for item in made.items)
    assert faults(Scene(200.0, 150.0, (*routed.items, *words), "wires")) == ()
    assert set(routed.paths) | set(routed.unrouted) == {wire.name for wire in wires}
    for wire in wires:
        if wire.name in routed.paths:
            path = routed.paths[wire.name]
            assert (path[0], path[-1]) == (wire.start.at, wire.end.at)
            assert leaves(path, wire.start)
            assert leaves(path[::-1], wire.end)
    for made in devices:
        inner = made.box.grown(-0.1)
        assert not any(inner.meets(line.box.grown(1e-6)) for line in stretches(routed))


@given(boards())
@settings(max_examples=10)
def test_with_this_much_room_every_wire_finds_its_way(board: tuple[list[Symbol], list[Wire]]) -> None:
    devices, wires = board
    assert route(AREA, [made.box for made in devices], wires).unrouted == ()


def leaves(path: Sequence[Point], end: Port) -> bool:
    """The first step goes the way the port faces."""
    (x, y), (x2, y2) = path[0], path[1]
    dx, dy = STEPS[end.facing]
    return (x2 - x) * dx > 0 or (y2 - y) * dy > 0
