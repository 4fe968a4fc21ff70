"""The earthing diagram: a conductor to every exposed part, the neutral–earth links of each position."""

from functools import cache

import pytest

from ferrule.answering import Answer
from ferrule.sheets.earthing_diagram import earthing_diagram
from ferrule.sheets.scene import Line, Scene, Text
from houses import answered

HOUSES = ("meter-led", "controller-led", "changeover-led")


@cache
def demo(house: str) -> Answer:
    return answered(house=house, firm=True)


def words(*scenes: Scene) -> list[str]:
    return [item.shown for scene in scenes for item in scene.items if isinstance(item, Text)]


def panels(*scenes: Scene) -> list[str]:
    """What each small picture says of its position, source and links, from the left."""
    texts = [item for scene in scenes for item in scene.items if isinstance(item, Text)]
    heads = [t for t in texts if t.shown in {"grid", "island", "transit", "bypass", "generator"} and t.bold]
    found = []
    for head in heads:
        below = [
            t.shown
            for t in texts
            if t.at.x_mm == head.at.x_mm and 0 < t.at.y_mm - head.at.y_mm < 40 and t.shown not in {"N", "PE"}
        ]
        found.append(" / ".join([head.shown, *below]))
    return found


@pytest.mark.parametrize("house", HOUSES)
def test_every_protective_conductor_is_drawn_once(house: str) -> None:
    """Counted from the job: the cables of circuits and feeds, the leads of earth, bonds, the electrode."""
    job = demo(house).design.house.job
    strings = {string.id for string in job.strings}
    batteries = {device.id for device in job.devices if device.kind == "battery"}
    cables = [run.id for run in job.runs if not {run.start, run.end} & (strings | batteries)]
    if job.supply.earthing == "TT":
        cables.remove("R-tails")  # the network brings no earth
    packs = {device.id: device.packs for device in job.devices if device.kind == "battery"}
    wanted = dict.fromkeys((*cables, *(bond.id for bond in job.earth.bonding), "earthing"), 1)
    wanted |= {lead.id: packs.get(lead.to, 1) for lead in job.earth.leads}  # one for each pack
    shown = words(*earthing_diagram(demo(house)))
    for name, count in wanted.items():
        assert sum(each.startswith((f"{name} ", f"{name}:", f"{name}.")) for each in shown) == count, name


def test_one_link_is_closed_in_each_steady_state() -> None:
    assert panels(*earthing_diagram(demo("changeover-led"))) == [
        "grid / fed by supply / links closed: 1",
        "island / fed by INV1.backup / links closed: 1",
        "transit / fed by CO.house / links closed: 0",
        "bypass / fed by supply / links closed: 1",
    ]


def test_two_links_are_shown_as_two() -> None:
    shown = panels(*earthing_diagram(answered({"devices.INV1.link": "enabled"}, "changeover-led")))
    assert "island / fed by INV1.backup / links closed: 2" in shown


def test_a_link_of_which_nobody_knows_is_neither_open_nor_closed() -> None:
    scenes = earthing_diagram(answered({"devices.INV1.link": "unknown"}))
    assert "island / fed by INV1.backup / links closed: ?" in panels(*scenes)
    assert "not known" in words(*scenes)


def test_each_position_of_a_generator_is_there() -> None:
    edits = {
        "devices.+": {
            "id": "GEN",
            "kind": "generator",
            "part": "example-generator-8k",
            "transfer": "all-live",
        },
        "runs.+": {"id": "R-gen", "from": "GEN", "to": "MB", "cable": "pvc-multicore", "stretches": [{}]},
    }
    assert any(
        each.startswith("generator / fed by GEN") for each in panels(*earthing_diagram(answered(edits)))
    )


def test_the_electrode_has_its_resistance_and_a_missing_one_a_question_mark() -> None:
    assert "electrode: foundation, 8 Ω" in words(*earthing_diagram(demo("controller-led")))
    assert "electrode: ?" in words(*earthing_diagram(answered({"earth.electrode": "unknown"})))


def test_conductors_of_earth_lie_on_their_own_layer() -> None:
    (scene,) = earthing_diagram(demo("meter-led"))
    levels = [item for item in scene.items if isinstance(item, Line) and item.layer == "protective"]
    assert len(levels) >= 10
