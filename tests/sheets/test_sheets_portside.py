"""The port side of devices: to scale, everything named once, nothing hard to read."""

from collections import Counter
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import houses
from ferrule.answering import Answer
from ferrule.checks.wired import wired
from ferrule.fact import Unknown
from ferrule.parts.terminals import TerminalBlock
from ferrule.sheets.legible import faults
from ferrule.sheets.paper import Drawing
from ferrule.sheets.portside import PortRow, Side, drawings, drawn, sides
from ferrule.sheets.scene import Box, Circle, Line, Scene, Text
from sheets import hostile

HOUSES = ("meter-led", "controller-led", "changeover-led")


@pytest.fixture(scope="module", params=HOUSES)
def house(request: pytest.FixtureRequest) -> Answer:
    return houses.answered({}, request.param, firm=True)


def within(scene: Scene) -> Box:
    return scene.page.grown(-10.0)


def test_every_device_with_terminals_has_a_drawing_without_a_fault(house: Answer) -> None:
    scenes = {block.id: block.scene for _, block in drawings(house) if isinstance(block, Drawing)}
    joined = {at.device for lead in wired(house.design).leads.values() if lead.role not in {"plug", "patch"}
              for core in lead.cores for at in core.ends}  # fmt: skip
    owners = {owner.id for owner in (*house.loaded.job.devices, *house.loaded.job.boards)} & joined
    assert scenes.keys() == {f"ports-{owner}" for owner in owners}
    for scene in scenes.values():
        assert faults(scene, within=within(scene)) == ()


def test_every_conductor_is_named_at_its_port_once(house: Answer) -> None:
    shown = Counter(
        (side.device, lead, core) for side in sides(house) for row in side.ports for _, lead, core in row.held
    )
    drawn_devices = {side.device for side in sides(house)}
    expected = Counter(
        (at.device, lead.id, core.name)
        for lead in wired(house.design).leads.values()
        for core in lead.cores
        for at in core.ends
        if at.device in drawn_devices and not at.port.endswith("joint")
    )
    assert shown == expected


def side_of(result: Answer, device: str) -> Side:
    return next(side for side in sides(result) if side.device == device)


def words(scene: Scene) -> str:
    return " ".join(item.words for item in scene.items if isinstance(item, Text))


def test_a_port_that_nothing_uses_is_to_be_closed_with_its_cap() -> None:
    result = houses.answered()
    said = words(drawn(result, side_of(result, "INV1")))
    assert said.count("Not used: close with its cap.") == 2  # STOP and ISLAND; nothing is plugged into a stud
    assert "11 earth, stud Not used. (From left PE.)" in said


def test_the_outline_and_the_distance_from_pole_to_pole_are_to_scale() -> None:
    result = houses.answered()
    scene = drawn(result, side_of(result, "INV1"))
    scale = float(words(scene).partition("1 : ")[2].partition(".")[0])
    edges = [item for item in scene.items if isinstance(item, Line) and item.layer == "device"]
    assert max(edge.box.width_mm for edge in edges) * scale == pytest.approx(460)
    poles = [item.middle.x_mm for item in scene.items if isinstance(item, Circle)]
    assert {round((b - a) * scale, 3) for a, b in pairwise(poles)} >= {12.0, 20.0, 30.0}


def test_what_its_maker_has_not_placed_is_told_and_not_drawn() -> None:
    result = houses.answered()
    part = result.design.house.devices["BAT"].part
    unplaced = houses.answered({f"parts.{part}.terminals.0.x": houses.REMOVED})
    side = side_of(unplaced, "BAT")
    assert isinstance(side.ports[-1].block.x_mm, Unknown)
    assert "Where it sits is unknown" in words(drawn(unplaced, side))


_DEVICE = houses.answered()


def block(values: dict[str, Any]) -> TerminalBlock:
    return TerminalBlock.model_validate(values)


_poles = st.lists(st.from_regex(r"[A-Z][a-z0-9]{0,7}", fullmatch=True), min_size=1, max_size=6, unique=True)
_blocks = st.fixed_dictionaries(
    {
        "port": hostile.words.filter(lambda each: each.strip() != "" and "\ud800" not in each),
        "kind": st.sampled_from(["screw", "stud", "dc-plug", "ac-plug", "multi-pin", "rj45"]),
        "serves": st.just("mains"),
        "poles": _poles,
        "sets": st.integers(1, 3),
        "x": st.integers(0, 500).map("{} mm".format),
        "y": st.integers(0, 400).map("{} mm".format),
        "pitch": st.integers(1, 20).map("{} mm".format),
    }
)


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(
    given=st.lists(_blocks, min_size=1, max_size=10),
    outline=st.none() | st.tuples(st.floats(50, 900), st.floats(50, 1200)),
    name=hostile.words,
    held=st.booleans(),
)
def test_any_device_is_legible(
    given: list[dict[str, Any]], outline: tuple[float, float] | None, name: str, held: bool
) -> None:
    rows = [block(each) for each in given]
    ports = tuple(
        PortRow(each.port, each, tuple((pole, name, pole) for pole in each.poles) if held else ())
        for each in rows
    )
    scene = drawn(_DEVICE, Side("D1", name, "wall", outline, ports))
    assert faults(scene, within=within(scene)) == ()
