"""The isolator of an array by the international rules."""

import pytest

from ferrule import rules
from ferrule.clauses.iec60364.dc_isolator import LoadBreakSwitch
from ferrule.constraint import Constraint, Verdict

BOOK = rules.load("iec-2024")
CLAUSE = LoadBreakSwitch()


def switch(
    *, count: int = 1, rating_a: float = 25.0, category: str = "DC-PV2", all_poles: bool = True
) -> dict[str, Constraint]:
    found = CLAUSE.switch(
        BOOK, count=count, together_a=20.0, rating_a=rating_a, category=category, all_poles=all_poles
    )
    return {constraint.name: constraint for constraint in found}


@pytest.mark.parametrize(("rating_a", "verdict"), [(25.0, Verdict.PASS), (24.9, Verdict.FAIL)])
def test_it_bears_a_quarter_more_than_the_short_circuit_current(rating_a: float, verdict: Verdict) -> None:
    assert switch(rating_a=rating_a)["isolator_current"].limit == 25
    assert switch(rating_a=rating_a)["isolator_current"].verdict is verdict


@pytest.mark.parametrize(
    ("count", "category", "least", "made_for"),
    [
        (1, "DC-20", Verdict.FAIL, Verdict.CAUTION),
        (1, "DC-PV0", Verdict.FAIL, Verdict.CAUTION),
        (1, "DC-21B", Verdict.PASS, Verdict.CAUTION),
        (1, "DC-22B", Verdict.PASS, Verdict.CAUTION),
        (1, "DC-PV1", Verdict.PASS, Verdict.PASS),
        (2, "DC-PV1", Verdict.PASS, Verdict.CAUTION),
        (2, "DC-PV2", Verdict.PASS, Verdict.PASS),
    ],
)
def test_category(count: int, category: str, least: Verdict, made_for: Verdict) -> None:
    found = switch(count=count, category=category)
    assert found["isolator_category"].verdict is least
    assert found["isolator_category_made_for"].verdict is made_for


def test_it_opens_all_poles_together() -> None:
    assert switch()["isolator_poles"].verdict is Verdict.PASS
    assert switch(all_poles=False)["isolator_poles"].verdict is Verdict.FAIL


@pytest.mark.parametrize(("count", "category"), [(1, "DC-PV1"), (2, "DC-PV2"), (4, "DC-PV2")])
def test_what_is_offered_is_made_for_the_array(count: int, category: str) -> None:
    assert CLAUSE.category(BOOK, count=count) == category
