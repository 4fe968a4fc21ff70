"""The calculators on lifting and ladders."""

from typing import Any

import pytest

from ferrule.calculators import CALCULATORS, NoAnswer


def results(name: str, **given: str) -> dict[str, Any]:
    given = {"from" if key == "start" else key: text for key, text in given.items()}
    return {each.field.key: each.value for each in CALCULATORS[name].work(given).results}


def test_the_weaker_end_of_a_lift() -> None:
    """At 750 mm all but the way is at its best; 750 mm higher up 0.775 of it are left."""
    plain = {"mass": "15 kg", "start": "750 mm", "to": "1500 mm", "reach": "250 mm", "grip": "good"}
    found = results("lift-limit", **plain)
    assert found["limit"] == pytest.approx(23 * 0.775 * 0.88)
    assert found["lifting_index"] == pytest.approx(15 / (23 * 0.775 * 0.88))


def test_without_a_word_on_the_grip_it_is_the_poorest() -> None:
    plain = {"mass": "15 kg", "start": "750 mm", "to": "1000 mm", "reach": "250 mm"}
    assert results("lift-limit", **plain)["limit"] == pytest.approx(
        0.9 * results("lift-limit", **plain, grip="good")["limit"]
    )


def test_depth_stands_in_for_a_reach_that_was_not_measured() -> None:
    """200 mm of body and half of 300 mm of depth are 350 mm."""
    plain = {"mass": "15 kg", "start": "750 mm", "to": "1000 mm"}
    assert results("lift-limit", **plain, depth="300 mm") == results("lift-limit", **plain, reach="350 mm")
    with pytest.raises(NoAnswer, match="depth of the load"):
        results("lift-limit", **plain)


def test_where_nothing_may_be_lifted_there_is_no_index() -> None:
    plain = {"mass": "15 kg", "start": "750 mm", "to": "1760 mm", "reach": "250 mm"}
    assert results("lift-limit", **plain) == {"limit": 0, "lifting_index": None}


def test_two_men_and_the_filter() -> None:
    found = results("lift-filter", start="1000 mm", to="1200 mm", reach="250 mm", men="2")
    assert found["limit"] == pytest.approx(26.66, abs=0.005)


@pytest.mark.parametrize("people", [{}, {"men": "3", "women": "1"}])
def test_nobody_and_more_than_three_get_no_answer(people: dict[str, str]) -> None:
    with pytest.raises(NoAnswer, match="people"):
        results("lift-filter", start="1000 mm", to="1200 mm", reach="250 mm", **people)


def test_a_ladder_to_a_gutter() -> None:
    """4.2 m up: 1.05 m out, and 4.329 m × 5.2 / 4.2 long to lead onto a roof."""
    found = results("ladder", height="4.2 m")
    assert found["foot"] == pytest.approx(1_050)
    assert found["length"] == pytest.approx(5_360, abs=0.5)
    assert found["angle"] == pytest.approx(75.96, abs=0.005)
