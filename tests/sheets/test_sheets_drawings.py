"""Every drawing is legible, whatever the house, and the same each time it is drawn."""

from functools import cache

import pytest

from ferrule.answering import Answer
from ferrule.sheets.drawings import DRAWINGS, drawings
from ferrule.sheets.dxf import dxf
from ferrule.sheets.frame import MARGIN_MM
from ferrule.sheets.legible import Fault, crossings, faults
from ferrule.sheets.paper import Drawing
from ferrule.sheets.scene import Text
from ferrule.sheets.svg import svg
from ferrule.sheets.words import ELLIPSIS
from houses import answered
from sheets.electric import house

HOUSES = ("meter-led", "controller-led", "changeover-led")
GENERATED = 200
ELECTRIC = ("single-line", "earthing", "bus")
"""The drawings of what these houses differ in."""


@cache
def demo(name: str) -> Answer:
    return answered(house=name, firm=True)


def hard_to_read(result: Answer, name: str) -> list[Fault]:
    return [
        fault
        for scene in DRAWINGS[name](result)
        for fault in faults(scene, within=scene.page.grown(-MARGIN_MM))
    ]


@pytest.mark.parametrize("name", DRAWINGS)
@pytest.mark.parametrize("demo_house", HOUSES)
def test_a_demo_house_is_legible(demo_house: str, name: str) -> None:
    assert hard_to_read(demo(demo_house), name) == []
    assert all(crossings(scene).needless == 0 for scene in DRAWINGS[name](demo(demo_house)))


@pytest.mark.parametrize("name", ELECTRIC)
@pytest.mark.parametrize("demo_house", HOUSES)
def test_no_words_of_a_demo_house_are_cut(demo_house: str, name: str) -> None:
    shown = [
        item.shown
        for scene in DRAWINGS[name](demo(demo_house))
        for item in scene.items
        if isinstance(item, Text)
    ]
    assert [words for words in shown if ELLIPSIS in words] == []


@pytest.mark.parametrize("first", range(0, GENERATED, 25))
def test_houses_that_nobody_drew_before_are_legible(first: int) -> None:
    for seed in range(first, first + 25):
        result = house(seed)
        for name in ELECTRIC:
            assert hard_to_read(result, name) == [], (seed, name)


@pytest.mark.parametrize("name", DRAWINGS)
def test_the_same_house_gives_the_same_bytes(name: str) -> None:
    one, other = answered(), answered()
    drawn = [DRAWINGS[name](each) for each in (one, other)]
    assert [svg(scene) for scene in drawn[0]] == [svg(scene) for scene in drawn[1]]
    assert [dxf(scene) for scene in drawn[0]] == [dxf(scene) for scene in drawn[1]]


def test_each_is_in_the_pack() -> None:
    ids = [block.id for chapter, block in drawings(demo("meter-led")) if isinstance(block, Drawing)]
    assert {each.partition("-2")[0] for each in ids} >= set(DRAWINGS)
    assert len(ids) == len(set(ids))
