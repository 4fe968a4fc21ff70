"""Every plan is legible, in the demo houses and in houses made up by chance, and comes out the same again."""

import io
from collections.abc import Callable
from typing import TypeAlias

import pytest
from ezdxf import recover

from ferrule.answering import Answer, answer
from ferrule.job.load import load
from ferrule.sheets.drilling import drilling
from ferrule.sheets.dxf import dxf
from ferrule.sheets.frame import MARGIN_MM
from ferrule.sheets.legible import crossings, faults
from ferrule.sheets.scene import Scene
from ferrule.sheets.string_plan import string_plan
from ferrule.sheets.svg import svg
from ferrule.sheets.wall_view import wall_view
from ferrule.sheets.wiring_diagram import wiring_diagram
from houses import EXAMPLES, answered
from sheets.generated import HOUSES, generated

Plan: TypeAlias = Callable[[Answer], tuple[Scene, ...]]
PLANS: tuple[Plan, ...] = (wiring_diagram, string_plan, drilling, wall_view)
SEEDS, BATCH = 200, 10


def check(result: Answer) -> None:
    for plan in PLANS:
        for number, scene in enumerate(plan(result), start=1):
            within = scene.page.grown(-MARGIN_MM)
            assert faults(scene, within=within) == (), (plan.__name__, number)
            assert crossings(scene).needless == 0, (plan.__name__, number)
            assert scene.title
            assert scene.description


@pytest.mark.parametrize("file", ["job", "faulty"])
@pytest.mark.parametrize("house", HOUSES)
def test_the_demo_houses_are_legible(house: str, file: str) -> None:
    check(answer(load(EXAMPLES / house / f"{file}.yaml")))


@pytest.mark.parametrize("first", range(0, SEEDS, BATCH))
def test_houses_made_up_by_chance_are_legible(first: int) -> None:
    for seed in range(first, first + BATCH):
        check(generated(seed))


@pytest.mark.parametrize("plan", PLANS)
def test_they_are_sound_as_dxf(plan: Plan) -> None:
    for scene in plan(answered(house="changeover-led"))[:3]:
        document, auditor = recover.read(io.BytesIO(dxf(scene)))
        assert not auditor.errors
        assert not document.audit().errors


@pytest.mark.parametrize("plan", PLANS)
def test_the_same_job_gives_the_same_drawing(plan: Plan) -> None:
    drawn = [[svg(scene) for scene in plan(answered(house="controller-led"))] for _ in range(2)]
    assert drawn[0] == drawn[1]
