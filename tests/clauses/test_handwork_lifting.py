"""Lifting by hand, against hand numbers."""

from collections.abc import Iterable

import pytest

from ferrule import rules
from ferrule.clauses.handwork.lifting import FilterAndEquation
from ferrule.clauses.values import Hands, Lift, LiftingAid
from ferrule.constraint import Constraint, Verdict
from ferrule.working import NotPrinted, Trace

BOOK = rules.load("iec-2024")
CLAUSE = FilterAndEquation()


def lifted(
    from_mm: float,
    to_mm: float,
    *,
    reach_mm: float = 250,
    twist_deg: float = 0,
    grip: str = "good",
    per_min: float = 0,
    duration: str = "short",
) -> Lift:
    start, end = (Hands(height_mm, reach_mm, twist_deg) for height_mm in (from_mm, to_mm))
    return Lift(start, end, grip, per_min, duration)


def filter_kg(*people: str, lift: Lift) -> float:
    return CLAUSE.filter_kg(Trace(BOOK), lift=lift, people=people)


def equation_kg(lift: Lift, hands: Hands | None = None) -> float:
    return CLAUSE.recommended_kg(Trace(BOOK), lift=lift, hands=hands or lift.end)


def judged(
    mass_kg: float,
    lift: Lift,
    *people: str,
    footing: str = "floor",
    cramped: bool = False,
) -> dict[str, Constraint]:
    return by_name(
        CLAUSE.by_hand(
            BOOK, load="It", mass_kg=mass_kg, lift=lift, people=people, footing=footing, cramped=cramped
        )
    )


def by_name(found: Iterable[Constraint]) -> dict[str, Constraint]:
    return {constraint.name: constraint for constraint in found}


# The boxes of the filter


@pytest.mark.parametrize(
    ("height_mm", "man_kg", "woman_kg"),
    [(1_600, 10, 7), (1_200, 20, 13), (900, 25, 16), (500, 20, 13), (100, 10, 7)],
)
def test_the_boxes_close_to_the_body(height_mm: float, man_kg: float, woman_kg: float) -> None:
    lift = lifted(height_mm, height_mm)
    assert (filter_kg("man", lift=lift), filter_kg("woman", lift=lift)) == (man_kg, woman_kg)


@pytest.mark.parametrize(
    ("height_mm", "man_kg", "woman_kg"),
    [(1_600, 5, 3), (1_200, 10, 7), (900, 15, 10), (500, 10, 7), (100, 5, 3)],
)
def test_the_boxes_at_arms_length(height_mm: float, man_kg: float, woman_kg: float) -> None:
    lift = lifted(height_mm, height_mm, reach_mm=600)
    assert (filter_kg("man", lift=lift), filter_kg("woman", lift=lift)) == (man_kg, woman_kg)


def test_the_smallest_of_all_boxes_passed_counts() -> None:
    """From the floor, 10, through 20, 25 and 20 kg; from a bench to the shoulder 20; lowering is the same."""
    assert filter_kg("man", lift=lifted(100, 1_200)) == 10
    assert filter_kg("man", lift=lifted(900, 1_200)) == 20
    assert filter_kg("man", lift=lifted(500, 1_200)) == 20
    assert filter_kg("man", lift=lifted(1_200, 500)) == 20


def test_between_two_boxes_the_weight_runs_straight() -> None:
    """Shoulders lie between 1230 and 1553 mm; half-way a man lifts 15 kg, and ends are the boxes' own."""
    assert filter_kg("man", lift=lifted(1_000, (1_230 + 1_553) / 2)) == pytest.approx(15)
    assert filter_kg("man", lift=lifted(1_000, 1_230)) == 20
    assert filter_kg("man", lift=lifted(1_000, 1_553)) == 10


def test_the_reach_is_the_greater_of_both_ends() -> None:
    far = Lift(Hands(900, 250), Hands(900, 600), "good")
    assert filter_kg("man", lift=far) == 15


def test_a_team_lifts_a_share_of_the_sum() -> None:
    """25 and 16 kg: two thirds of 50, of 41 and of 32; half of 75."""
    lift = lifted(900, 900)
    assert filter_kg("man", "man", lift=lift) == pytest.approx(33.33, abs=0.005)
    assert filter_kg("man", "woman", lift=lift) == pytest.approx(27.33, abs=0.005)
    assert filter_kg("woman", "woman", lift=lift) == pytest.approx(21.33, abs=0.005)
    assert filter_kg("man", "man", "man", lift=lift) == 37.5
    with pytest.raises(NotPrinted):
        filter_kg(*["man"] * 4, lift=lift)


@pytest.mark.parametrize(
    ("per_min", "left"), [(0, 1), (0.5, 1), (1, 0.7), (2, 0.7), (5, 0.5), (8, 0.5), (12.1, 0.2)]
)
def test_lifting_often_takes_some_off(per_min: float, left: float) -> None:
    assert filter_kg("man", lift=lifted(900, 900, per_min=per_min)) == pytest.approx(25 * left)


@pytest.mark.parametrize(("twist_deg", "left"), [(0, 1), (45, 1), (46, 0.9), (-90, 0.9), (91, 0.8)])
def test_twisting_takes_some_off(twist_deg: float, left: float) -> None:
    assert filter_kg("man", lift=lifted(900, 900, twist_deg=twist_deg)) == pytest.approx(25 * left)


# The equation


def test_all_at_its_best() -> None:
    assert equation_kg(lifted(750, 750)) == 23


def test_the_grip_goes_by_the_end_looked_at_and_the_frequency_by_the_origin() -> None:
    """Fair: 0.95 below 750 mm, else 1; nine a minute for long: nothing from low down, 0.15 from higher up."""
    up = lifted(500, 1_000, grip="fair")
    ratio = equation_kg(up, up.start) / equation_kg(up, up.end)
    assert ratio == pytest.approx(0.95)  # both heights are 250 mm off the best one
    often = lifted(500, 1_000, per_min=9, duration="long")
    assert equation_kg(often, often.end) == 0
    down = lifted(1_000, 500, per_min=9, duration="long")
    assert equation_kg(down, down.end) > 0


@pytest.mark.parametrize("per_min", [0, 0.01, 0.1, 0.2])
def test_rarer_than_once_in_five_minutes_allows_no_more(per_min: float) -> None:
    assert equation_kg(lifted(750, 750, per_min=per_min)) == 23
    assert equation_kg(lifted(750, 750, per_min=per_min, duration="long")) == pytest.approx(23 * 0.85)


def test_between_printed_frequencies_the_multiplier_runs_straight() -> None:
    """2.4 a minute is two fifths of the way from 0.91 to 0.88."""
    assert equation_kg(lifted(750, 750, per_min=2.4)) == pytest.approx(23 * 0.898)


def test_more_than_the_table_prints_is_refused() -> None:
    with pytest.raises(NotPrinted):
        equation_kg(lifted(750, 750, per_min=15.1))


def test_reach_by_the_depth_of_a_load() -> None:
    t = Trace(BOOK)
    assert CLAUSE.reach_mm(t, depth_mm=300, height_mm=249) == 400
    assert CLAUSE.reach_mm(t, depth_mm=300, height_mm=250) == 350


# Judging


def test_one_person_at_both_limits() -> None:
    """At 900 mm a man's box says 25 kg; the equation 23 × 0.955 = 21.965 kg."""
    lift = lifted(900, 900)
    assert {c.name: c.verdict for c in judged(21.96, lift, "man").values()} == {
        "lift_filter": Verdict.PASS,
        "lift_equation": Verdict.PASS,
    }
    assert judged(21.97, lift, "man")["lift_equation"].verdict is Verdict.FAIL
    assert judged(25, lift, "man")["lift_filter"].verdict is Verdict.PASS
    assert judged(25.01, lift, "man")["lift_filter"].verdict is Verdict.FAIL


def test_the_equation_is_a_caution_at_worst_for_a_team() -> None:
    """Two thirds of twice 21.965 kg are 29.3 kg."""
    lift = lifted(900, 900)
    assert judged(29.2, lift, "man", "man")["lift_equation"].verdict is Verdict.PASS
    over = judged(33, lift, "man", "man")
    assert over["lift_filter"].verdict is Verdict.PASS
    assert over["lift_equation"].verdict is Verdict.CAUTION


def test_the_weaker_end_decides() -> None:
    """From 750 to 1500 mm: 23 × 0.88 at the origin, 23 × 0.775 × 0.88 at the destination."""
    limit = judged(10, lifted(750, 1_500), "man")["lift_equation"].limit
    assert limit == pytest.approx(23 * 0.775 * 0.88)


@pytest.mark.parametrize(
    ("lift", "name"),
    [
        (lifted(-1, 900), "lift_low"),
        (lifted(900, 1_750.1), "lift_high"),
        (lifted(900, 900, reach_mm=630.1), "lift_far"),
    ],
)
def test_beyond_the_methods_only_that_is_told(lift: Lift, name: str) -> None:
    found = judged(1, lift, "man")
    assert {c.name: c.verdict for c in found.values()} == {name: Verdict.FAIL}
    assert found[name].mend


def test_at_the_ends_of_the_methods_both_still_judge() -> None:
    assert set(judged(1, lifted(0, 1_750, reach_mm=630), "man")) == {"lift_filter", "lift_equation"}


def test_no_room_is_no_judgement() -> None:
    found = judged(1, lifted(900, 900), "man", cramped=True)
    assert {c.name: c.verdict for c in found.values()} == {"lift_space": Verdict.FAIL}


@pytest.mark.parametrize(("mass_kg", "verdict"), [(10, Verdict.PASS), (10.1, Verdict.FAIL)])
def test_from_a_ladder_only_what_is_light(mass_kg: float, verdict: Verdict) -> None:
    """However many lift, and also with an aid: somebody still stands on the ladder."""
    for people in (("man",), ("man", "man")):
        found = judged(mass_kg, lifted(900, 900), *people, footing="ladder")
        assert {c.name: c.verdict for c in found.values()} == {"ladder_load": verdict}
    aided = with_aid(mass_kg, LiftingAid("hoist", 500, 5_000), footing="ladder")
    assert aided["ladder_load"].verdict is verdict


def with_aid(mass_kg: float, *aids: LiftingAid, footing: str = "floor") -> dict[str, Constraint]:
    return by_name(
        CLAUSE.with_aid(BOOK, load="It", mass_kg=mass_kg, seat_mm=1_500, aids=aids, footing=footing)
    )


def test_an_aid_lifts_what_people_should_not() -> None:
    found = with_aid(80, LiftingAid("hoist", 80, 1_500))
    assert {c.name: c.verdict for c in found.values()} == {
        "lift_aid": Verdict.PASS,
        "lift_aid_reach": Verdict.PASS,
    }
    assert with_aid(80.1, LiftingAid("hoist", 80, 1_500))["lift_aid"].verdict is Verdict.FAIL
    assert with_aid(80, LiftingAid("hoist", 80, 1_499))["lift_aid_reach"].verdict is Verdict.FAIL


def test_of_aids_that_all_lack_something_the_one_that_lacks_least_is_told() -> None:
    found = with_aid(80, LiftingAid("climber", 50, 0), LiftingAid("hoist", 70, 3_000))
    assert dict(found["lift_aid"].words)["aid"] == "hoist"
    assert found["lift_aid_reach"].verdict is Verdict.PASS


def test_who_lifts_is_named_as_a_sentence_does() -> None:
    found = judged(1, lifted(900, 900), "man", "woman")
    assert dict(found["lift_filter"].words) == {"load": "It", "people": "two people"}
    assert dict(judged(1, lifted(900, 900), "man")["lift_filter"].words)["people"] == "one person"
