"""What circuits leave open: one step less of any device or conductor makes a named constraint worse."""

from collections.abc import Iterator
from functools import cache

import pytest

from ferrule.answering import Answer
from ferrule.checks import QUESTIONS
from ferrule.checks.ask import findings
from ferrule.choose.engine import tried
from ferrule.choose.offers import BY_KIND
from ferrule.constraint import Verdict
from ferrule.design import Decided, Design
from ferrule.job.firm import Firm
from ferrule.quantity import Size
from houses import REMOVED, answered

HOUSES = ("meter-led", "controller-led", "changeover-led")
KINDS = ("rating", "curve", "conductor", "neutral", "protective", "breaking_capacity")


@cache
def demo(house: str) -> Answer:
    """The house with all that its circuits leave to choose left open."""
    given = answered(house=house).loaded.job
    edits = {
        f"runs.{run.id}.{core}": REMOVED
        for run in given.runs
        for core in ("size", "neutral", "protective")
        if core.replace("size", "size") in run.model_fields_set
    }
    edits |= {
        f"boards.{board.id}.circuits.{circuit.id}.device.{fact}": REMOVED
        for board in given.boards
        for circuit in board.circuits
        for fact, field in (("rating", "rating_a"), ("curve", "curve"))
        if field in circuit.device.model_fields_set
    }
    return answered(edits, house)


def verdicts(result: Answer, design: Design) -> dict[tuple[str, str, str], Verdict]:
    found: dict[tuple[str, str, str], Verdict] = {}
    for finding in findings(design, result.code, QUESTIONS):
        for constraint in finding.constraints:
            key = (finding.id, str(finding.subject), constraint.name)
            found[key] = max(constraint.verdict, found.get(key, Verdict.PASS))
    return found


def smaller(result: Answer, decided: Decided, value: object) -> object | None:
    """The next smaller on offer; None for the smallest."""
    offered = list(BY_KIND[decided.kind].candidates(result.design, result.code, Firm(name=""), decided.owner))
    at = offered.index(value)
    return offered[at - 1] if at else None


def steps(house: str) -> Iterator[tuple[Decided, object]]:
    result = demo(house)
    for choice in result.choices:
        if choice.decided.kind in KINDS and choice.decided.owner not in result.design.house.string_runs:
            less = smaller(result, choice.decided, choice.value)
            if less is not None:
                yield choice.decided, less


@pytest.mark.parametrize("house", HOUSES)
def test_everything_a_circuit_leaves_open_is_chosen(house: str) -> None:
    result = demo(house)
    made = {choice.decided for choice in result.choices}
    for circuit in result.design.house.circuits.values():
        kinds = {"rating", "breaking_capacity"} | ({"curve"} if circuit.device.kind == "mcb" else set())
        assert {Decided(kind, circuit.id) for kind in kinds} <= made
    for run in result.design.house.ac_runs:
        assert {Decided(kind, run) for kind in ("conductor", "neutral", "protective")} <= made


@pytest.mark.parametrize("house", HOUSES)
def test_what_is_chosen_passes(house: str) -> None:
    result = demo(house)
    for choice in result.choices:
        if choice.decided.kind in KINDS:
            assert choice.passes, choice.decided


@pytest.mark.parametrize("house", HOUSES)
def test_one_step_less_makes_a_named_constraint_worse(house: str) -> None:
    result = demo(house)
    before = verdicts(result, result.design)
    taken = list(steps(house))
    assert taken
    for decided, less in taken:
        after = verdicts(result, tried(result.design, decided, less))
        worse = [key for key, verdict in after.items() if verdict > before.get(key, Verdict.PASS)]
        assert worse, (decided, less)


@pytest.mark.parametrize("house", HOUSES)
def test_a_thicker_conductor_makes_no_capacity_loop_or_withstand_worse(house: str) -> None:
    """It lets a larger fault current through, which is for the devices behind it to break."""
    result = demo(house)
    design = result.design
    before = verdicts(result, design)
    sizes = [Size("mm²", name) for name in ("1.5", "2.5", "4", "6", "10", "16", "25", "35", "50", "70")]
    for run in design.house.ac_runs:
        thicker = sizes[sizes.index(design.size(run)) + 1]
        trial = tried(design, Decided("conductor", run), thicker)
        for (question, subject, name), verdict in verdicts(result, trial).items():
            if question in {"circuit.overload", "run.overload", "circuit.disconnection"} or name == "far_end":
                assert verdict <= before[question, subject, name], (run, question, subject, name)
