"""The wiring diagram shows every conductor where it lands."""

from collections import Counter
from typing import Any

import pytest

from ferrule.checks.wired import wired
from ferrule.sheets.legible import crossings
from ferrule.sheets.scene import Line, Scene, Text
from ferrule.sheets.wiring_diagram import wiring_diagram
from houses import REMOVED, answered

HOUSES = ("meter-led", "controller-led", "changeover-led")


def words(scenes: tuple[Scene, ...]) -> Counter[str]:
    return Counter(item.shown for scene in scenes for item in scene.items if isinstance(item, Text))


@pytest.mark.parametrize("house", HOUSES)
def test_each_lead_stands_once_at_each_end_that_has_terminals(house: str) -> None:
    result = answered(house=house)
    shown = words(wiring_diagram(result))
    plan = wired(result.design).plan
    named = {thing.id for thing in (*plan.job.boards, *plan.job.devices)}
    for lead in plan.leads:
        drawn = [thing for thing in lead.places if thing in named or thing.removesuffix("-box") != thing]
        assert shown[lead.id] == len(drawn), lead.id


@pytest.mark.parametrize("house", HOUSES)
def test_each_conductor_that_lands_has_a_line_of_its_own(house: str) -> None:
    """Counted by their lines: a conductor's is short and straight, next to the device it lands on."""
    result = answered(house=house)
    plan = wired(result.design).plan
    named = {thing.id for thing in (*plan.job.boards, *plan.job.devices)}
    ends = [end for lead in plan.leads for core in lead.cores for end in core.ends]
    landing = [end for end in ends if end.device in named or end.device.endswith("-box")]
    lines = [
        item
        for scene in wiring_diagram(result)
        for item in scene.items
        if isinstance(item, Line) and item.layer in ("conductor", "protective", "signal")
    ]
    reaching = [item for item in lines if len(item.points) == 2 and 28.0 < item.box.width_mm < 29.0]
    assert len(reaching) == len(landing)


def test_lines_of_one_sheet_lie_within_each_other_where_they_can() -> None:
    """Two packs side by side, each with its pair to one enclosure."""
    assert sum(crossings(scene).total for scene in wiring_diagram(answered(house="controller-led"))) == 0


def test_a_lead_says_on_which_sheet_its_other_end_is() -> None:
    scenes = wiring_diagram(answered(house="meter-led"))
    at = next(number for number, scene in enumerate(scenes, start=1) if "BAT-box," in scene.description)
    assert words(scenes)[f"from BAT-box, sheet {at}"] == 1


def test_what_is_not_known_is_asked_for_on_the_sheet() -> None:
    result = answered({"earth.electrode": REMOVED, "buses.RS.reference": REMOVED}, "meter-led")
    asks = {ask for lead in wired(result.design).plan.leads for ask in lead.asks}
    assert asks
    told = " ".join(words(wiring_diagram(result)))
    assert all(ask in told for ask in asks)


def test_a_board_with_many_circuits_goes_on_over_further_sheets() -> None:
    edits: dict[str, Any] = {}
    for at in range(24):
        edits[f"runs.+{at}"] = {
            "id": f"R-{at}", "from": "MB", "to": f"load {at}", "cable": "pvc-multicore", "size": "2.5 mm²",
            "neutral": "2.5 mm²", "protective": "2.5 mm²",
            "stretches": [{"length": "9 m", "method": "C", "ambient": "25 °C", "circuits": 1}],
        }  # fmt: skip
        edits[f"boards.MB.circuits.+{at}"] = {
            "id": f"C-{at}", "run": f"R-{at}", "phases": ["L1"],
            "device": {"curve": "B", "rating": "16 A", "direction": "one"},
            "loads": [{"name": f"load {at}", "kind": "sockets", "power": "2 kW"}],
        }  # fmt: skip
    shown = words(wiring_diagram(answered(edits, "meter-led")))
    assert shown["MB"] == 1
    assert shown["MB, continued"] >= 1
    assert all(shown[f"to load {at}"] == 1 for at in range(24))
