"""What is tightened on each device, counted beside the program's own count."""

from collections import Counter

import pytest

import houses
from ferrule.checks.wired import wired
from ferrule.fact import Unknown
from ferrule.sheets import torque
from ferrule.sheets.paper import Grouped

HOUSES = ("meter-led", "controller-led", "changeover-led")


@pytest.mark.parametrize("name", HOUSES)
def test_every_screw_and_stud_that_holds_a_conductor_is_there_with_all_it_holds(name: str) -> None:
    result = houses.answered({}, name, firm=True)
    found = wired(result.design)
    expected: Counter[str] = Counter()
    for lead in found.leads.values():
        for core in lead.cores:
            for at in core.ends:
                block = found.block(at.device, at.port)
                if block and block.kind in {"screw", "stud", "ac-plug", "multi-pin"}:
                    expected[f"{at.device} {core}"] += 1
    held = Counter(
        f"{device.device} {core}"
        for device in torque.torques(result)
        for each in device.tightened
        if each.conductors
        for core in each.holds
    )
    assert held == expected
    assert sum(held.values()) > 50


def test_a_bar_has_a_screw_for_each_conductor_and_a_stud_one_for_all() -> None:
    devices = {each.device: each for each in torque.torques(houses.answered({}, "meter-led", firm=True))}
    bars = [each for each in devices["MB"].tightened if each.what.startswith("bars")]
    assert all(each.conductors == 1 for each in bars)
    assert [each.what for each in bars] == sorted(each.what for each in bars)
    studs = [each for each in devices["EM"].tightened if each.what == "earth PE"]
    assert [each.conductors for each in studs] == [2]


def test_caps_are_tightened_too() -> None:
    devices = {each.device: each for each in torque.torques(houses.answered())}
    caps = [(each.what, each.torque_n_m) for each in devices["INV1"].tightened if each.conductors is None]
    assert ("plug cap at grid", 4.0) in caps
    assert ("M32 cap at battery", 10.0) in caps


def test_every_row_on_paper_has_two_boxes_and_an_unknown_torque_a_question_mark() -> None:
    result = houses.answered()
    rows = [
        row
        for _, block in torque.torques_by_place(result)
        if isinstance(block, Grouped)
        for group in block.groups
        for row in group.rows
    ]
    assert all(row[-2:] == (None, None) for row in rows)
    unknown = [each for device in torque.torques(result) for each in device.tightened
               if isinstance(each.torque_n_m, Unknown)]  # fmt: skip
    assert unknown
    assert sum(row[4] == "?" for row in rows) == len(unknown)


def test_the_source_of_its_figures_stands_on_the_sheet() -> None:
    sources = {each.source for each in torque.torques(houses.answered())}
    assert "invented datasheet EX-H6S, issue 4" in sources
