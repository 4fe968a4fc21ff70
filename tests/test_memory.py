"""A memory answers as if everything were found out anew."""

from collections.abc import Callable, Hashable
from typing import Any

import pytest

import ferrule
import houses
from ferrule import export
from ferrule.memory import Memory


class Desk:
    """Decisions in some state, and a count of what had to be found out."""

    def __init__(self) -> None:
        self.memory: Memory[str] = Memory()
        self.states = {"size": 4, "rating": 16}
        self.found_out = 0

    def look(self, decision: str) -> int | None:
        state = self.states.get(decision)
        self.memory.look(decision, state)
        return state

    def recall(self, key: str, work: Callable[[], Any]) -> Any:
        def counted() -> Any:
            self.found_out += 1
            return work()

        return self.memory.recall(key, self.states.get, counted)


def test_what_looked_at_nothing_that_changed_is_found_out_once() -> None:
    desk = Desk()
    for rating in (16, 20, 25):
        desk.states["rating"] = rating
        assert desk.recall("drop", lambda: desk.look("size")) == 4
    assert desk.found_out == 1


def test_what_looked_at_a_changed_decision_is_found_out_again() -> None:
    desk = Desk()
    for size in (4, 6, 4):
        desk.states["size"] = size
        assert desk.recall("drop", lambda: desk.look("size")) == size
    assert desk.found_out == 3


def test_the_outer_looks_at_whatever_the_inner_looked_at_remembered_or_not() -> None:
    desk = Desk()

    def outer() -> Any:
        return desk.look("rating"), desk.recall("inner", lambda: desk.look("size"))

    desk.recall("inner", lambda: desk.look("size"))
    assert desk.recall("outer", outer) == (16, 4)
    desk.states["size"] = 6
    assert desk.recall("outer", outer) == (16, 6)


def test_what_is_raised_is_not_remembered_but_was_looked_at() -> None:
    desk = Desk()

    def failing() -> None:
        desk.look("size")
        raise LookupError

    def outer() -> str:
        try:
            desk.recall("inner", failing)
        except LookupError:
            return f"none for {desk.states['size']}"
        return ""

    assert desk.recall("outer", outer) == "none for 4"
    desk.states["size"] = 6
    assert desk.recall("outer", outer) == "none for 6"


@pytest.mark.parametrize("file", ["job.yaml", "faulty.yaml"])
@pytest.mark.parametrize("house", ["meter-led", "controller-led", "changeover-led"])
def test_a_whole_answer_is_the_same_without_memory(
    house: str, file: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    job = ferrule.load(houses.EXAMPLES / house / file)
    with_memory = export.answer(ferrule.answer(job))

    def anew(_: Memory[Any], _key: Hashable, _state: Any, work: Callable[[], Any]) -> Any:
        return work()

    monkeypatch.setattr(Memory, "recall", anew)
    assert export.answer(ferrule.answer(job)) == with_memory
