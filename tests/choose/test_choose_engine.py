"""Choosing: the chosen passes, one step less fails a named constraint, and the firm's van comes first."""

from functools import cache
from typing import Any

import pytest

from ferrule.answering import Answer
from ferrule.checks import QUESTIONS
from ferrule.checks.question import Question, Subject, each
from ferrule.choose.engine import choose, shortfall, tried, turning_on
from ferrule.clauses import Code
from ferrule.constraint import Constraint, Verdict, is_so
from ferrule.design import Decided, Design
from ferrule.fact import Missing
from houses import answered

HOUSES = ("meter-led", "controller-led", "changeover-led")


@cache
def demo(house: str) -> Answer:
    return answered(house=house, firm=True)


@pytest.mark.parametrize("house", HOUSES)
def test_every_choice_passes_all_questions_that_turn_on_it(house: str) -> None:
    result = demo(house)
    turning = turning_on(result.design, QUESTIONS)
    assert result.choices
    for choice in result.choices:
        assert choice.passes, choice
        assert shortfall(result.design, result.code, choice.value, turning[choice.decided]) is None, choice


@pytest.mark.parametrize("house", HOUSES)
def test_one_step_less_fails_the_constraint_that_governed(house: str) -> None:
    result = demo(house)
    by_id = {question.id: question for question in QUESTIONS}
    governed = [choice for choice in result.choices if choice.governed_by is not None]
    assert governed
    for choice in governed:
        lacked = choice.governed_by
        assert lacked is not None
        smaller = tried(result.design, choice.decided, lacked.value)
        constraints = by_id[lacked.question].ask(smaller, result.code, lacked.subject)
        again = [c for c in constraints if c.name == lacked.constraint.name]
        too_close = any(c.margin is not None and c.margin < lacked.wanted for c in again)
        assert too_close or any(c.verdict > Verdict.PASS for c in again), (choice, again)


@pytest.mark.parametrize("house", HOUSES)
def test_the_same_job_gives_the_same_choices(house: str) -> None:
    first, second = answered(house=house), answered(house=house)
    assert [(c.decided, c.value) for c in first.choices] == [(c.decided, c.value) for c in second.choices]


def test_an_unknown_leaves_the_choice_open_and_the_finding_says_what_to_find_out() -> None:
    result = answered({"runs.R-inverter.stretches.0.method": "unknown"})
    assert Decided("conductor", "R-inverter") not in result.design.choices
    overload = next(f for f in result.findings if (f.id, f.subject.id) == ("circuit.overload", "C-inverter"))
    assert overload.verdict is Verdict.UNKNOWN
    asks = [ask for constraint in overload.constraints for ask in constraint.find_out]
    assert any("installation method" in ask for ask in asks)


def test_a_given_size_is_never_chosen_over() -> None:
    result = answered({"runs.R-inverter.size": "16 mm²"})
    assert str(result.design.size("R-inverter")) == "16 mm²"
    assert Decided("conductor", "R-inverter") not in {choice.decided for choice in result.choices}


def test_a_given_size_that_fails_is_answered_with_one_that_passes() -> None:
    """The remedy names the change and where the job says it."""
    result = answered({"runs.R-inverter.size": "2.5 mm²"})
    overload = next(f for f in result.findings if (f.id, f.subject.id) == ("circuit.overload", "C-inverter"))
    assert overload.verdict is Verdict.FAIL
    remedy = next(r for r in overload.remedies if r.path == "runs.R-inverter.size")
    mended: dict[str, Any] = {"runs.R-inverter.size": remedy.value}
    again = next(
        f for f in answered(mended).findings if (f.id, f.subject.id) == ("circuit.overload", "C-inverter")
    )
    assert again.verdict is Verdict.PASS


def test_what_a_size_cannot_mend_does_not_thicken_it() -> None:
    """A given breaker too small for the inverter's current is too small with any conductor."""
    result = answered(
        {"boards.MB.circuits.C-inverter.device.rating": "16 A", "runs.R-inverter.stretches.0.length": "1 m"}
    )
    overload = next(f for f in result.findings if (f.id, f.subject.id) == ("circuit.overload", "C-inverter"))
    assert [c.name for c in overload.constraints if c.verdict is Verdict.FAIL] == ["device_rating"]
    assert result.design.size("R-inverter").area_mm2 <= 6


def test_where_even_the_thickest_will_not_do_the_thickest_is_taken() -> None:
    """120 mm² carry 278 A by method C, less beside another circuit; the breaker is rated 250 A."""
    result = answered({"boards.MB.circuits.C-inverter.device.rating": "250 A"})
    choice = next(c for c in result.choices if c.decided == Decided("conductor", "R-inverter"))
    assert str(choice.value) == "120 mm²"
    assert not choice.passes


def _toy(*judges: Any) -> Question:
    """A question that turns on the size of one cable and is answered by these judges."""
    decided = Decided("conductor", "R-inverter")
    subject = Subject("run", "R-inverter")
    return Question("toy", "", lambda _design: [subject], each(*judges), lambda *_: [decided])


def misses(_design: Design, code: Code, _subject: Subject) -> Constraint:
    return is_so("misses", "", code.trace(), False)


def waits_for_a_fact(_design: Design, _code: Code, _subject: Subject) -> Constraint:
    raise Missing("how thick the wall is")


def test_an_unknown_leaves_the_choice_open_even_where_every_size_fails() -> None:
    """A miss must not hide an unknown: with the fact known, another size might have been the one to take."""
    result = answered()
    bare = result.design._replace(choices={})
    for judges, made in (((misses,), True), ((misses, waits_for_a_fact), False)):
        questions = [_toy(*judges)]
        design, choices = choose(
            bare, result.code, result.loaded.firm, questions, turning_on(bare, questions)
        )
        assert bool(choices) is made
        waiting = design.waiting.get(Decided("conductor", "R-inverter"), ())
        assert waiting == (() if made else ("how thick the wall is",))


def thin_is_unknown(design: Design, code: Code, _subject: Subject) -> Constraint:
    if design.size("R-inverter").area_mm2 < 10:
        raise Missing("how thick the wall is")
    return is_so("thin", "", code.trace(), True)


def thin_fails(design: Design, code: Code, _subject: Subject) -> Constraint:
    return is_so("thin_too", "", code.trace(), design.size("R-inverter").area_mm2 >= 10)


def test_an_unknown_of_a_smaller_size_counts_unless_that_size_fails_anyway() -> None:
    """All fail by `misses`. Of those below 10 mm² something is unknown, and only in the second case do they
    fail by themselves.
    """
    result = answered()
    bare = result.design._replace(choices={})
    for judges, made in (
        ((misses, thin_is_unknown), []),
        ((misses, thin_is_unknown, thin_fails), ["10 mm²"]),
    ):
        questions = [_toy(*judges)]
        _, choices = choose(bare, result.code, result.loaded.firm, questions, turning_on(bare, questions))
        assert [str(choice.value) for choice in choices] == made
