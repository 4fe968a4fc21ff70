"""Lifting by hand against printed examples, printed tables, the other system of units, and what always holds.

The manual multiplies multipliers rounded to two places and says so (94-110, chapter 3); so do these tests,
half upwards as its tables do. Its worked examples are in inches and pounds, whose constants the formulas take
as well as ours.
"""

import math
from collections.abc import Callable, Mapping
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule import rules
from ferrule.clauses.handwork.lifting import FilterAndEquation
from ferrule.clauses.values import Hands, Lift
from ferrule.physics import lifting as physics
from ferrule.working import Trace

BOOK = rules.load("iec-2024")
CLAUSE = FilterAndEquation()
POUND_KG = 0.45359237


def two_places(value: float) -> float:
    return math.floor(value * 100 + 0.5 + 1e-9) / 100


def in_pounds(
    rounding: Callable[[float], float], *, h: float, v: float, d: float, a: float, fm: float, cm: float
) -> dict[str, float]:
    """The multipliers and the limit in pounds, by our formulas with the manual's constants in inches."""
    plain = {
        "HM": physics.horizontal_multiplier(hands_mm=h, nearest_mm=10, farthest_mm=25),
        "VM": physics.vertical_multiplier(hands_mm=v, best_mm=30, slope=7.5, highest_mm=70),
        "DM": physics.distance_multiplier(travel_mm=d, base=0.82, gain_mm=1.8, least_mm=10, most_mm=70),
        "AM": physics.asymmetry_multiplier(twist_deg=a, slope=0.0032, most_deg=135),
    }
    used = {name: rounding(value) for name, value in plain.items()}
    limit = physics.recommended_weight(
        constant_kg=51, horizontal=used["HM"], vertical=used["VM"], distance=used["DM"], asymmetry=used["AM"],
        frequency=fm, coupling=cm,
    )  # fmt: skip
    return used | {"RWL": limit}


def limit_kg(lift: Lift, hands: Hands | None = None) -> float:
    return CLAUSE.recommended_kg(Trace(BOOK), lift=lift, hands=hands or lift.start)


def frequency(per_min: float, column: str) -> float:
    return float(BOOK.cell("niosh_frequency", per_min, column).value)


def coupling(grip: str, level: str) -> float:
    return float(BOOK.cell("niosh_coupling", grip, level).value)


# Printed examples


def test_package_inspection() -> None:
    """DHHS (NIOSH) 94-110 (2021), example 4, figure 14, p. 46: 26 lb, three a minute for 45 minutes, fair,
    from 22 in at 10 in out to 59 in at 20 in out: 34.9 lb and 15.2 lb; unrounded 34.8 lb and 15.3 lb.
    """
    fm = frequency(3, "short_low")
    assert fm == 0.88
    origin = {"h": 10.0, "v": 22.0, "d": 37.0, "a": 0.0, "fm": fm, "cm": coupling("fair", "low")}
    destination = {"h": 20.0, "v": 59.0, "d": 37.0, "a": 0.0, "fm": fm, "cm": coupling("fair", "high")}
    printed = in_pounds(two_places, **origin)
    assert [printed[m] for m in ("HM", "VM", "DM", "AM")] == [1.0, 0.94, 0.87, 1.0]
    assert round(printed["RWL"], 1) == 34.9
    assert round(in_pounds(two_places, **destination)["RWL"], 1) == 15.2
    assert round(in_pounds(float, **origin)["RWL"], 1) == 34.8
    assert round(in_pounds(float, **destination)["RWL"], 1) == 15.3


def test_dish_washing_machine_unloading() -> None:
    """Fundamentals and Assessment Tools for Occupational Ergonomics (2006), section 46.7.2, example 2 of the
    chapter on the equation: trays of 20 lb, five a minute for up to an hour, good grip, 20 in out, 30° aside,
    from 44 in down to 7 in: 14.4 lb at the origin, 13.3 lb at the destination.
    """
    fm = frequency(5, "short_high")
    assert fm == 0.80
    turned = {"h": 20.0, "d": 37.0, "a": 30.0, "fm": fm}
    assert round(in_pounds(two_places, v=44, cm=coupling("good", "high"), **turned)["RWL"], 1) == 14.4
    assert round(in_pounds(two_places, v=7, cm=coupling("good", "low"), **turned)["RWL"], 1) == 13.3


def test_boxes_from_one_conveyor_to_another() -> None:
    """Solved problem (wizedu.com, question 203981): fair grip, from 6 in at 20 in out, 16 in up, multipliers
    0.50, 0.82, 0.93 and 0.95 without a frequency: 18.4 lb, its last digit cut off.
    """
    printed = in_pounds(two_places, h=20, v=6, d=16, a=0, fm=1, cm=coupling("fair", "low"))
    assert [printed[m] for m in ("HM", "VM", "DM", "AM")] == [0.5, 0.82, 0.93, 1.0]
    assert math.floor(printed["RWL"] * 10) / 10 == 18.4


def test_compact_loads_from_a_shelf() -> None:
    """Solved problem of a course (homeworksource.com, problem 1089113), metric: 12 kg at 25 cm, from 55 cm to
    150 cm, three a minute for 45 minutes, fair grip: 15.7 kg and an index of 0.76.
    """
    lift = Lift(Hands(550, 250), Hands(1_500, 250), "fair", 3, "short")
    assert round(limit_kg(lift), 1) == 15.7
    index = physics.lifting_index(mass_kg=12, limit_kg=limit_kg(lift))
    assert index == pytest.approx(0.765, abs=0.0051)


def test_two_who_lift_twenty_each() -> None:
    """Network Rail safety central, lifting and handling in teams: two who lift 20 kg each should not exceed
    about 26.6 kg together; three lift half of their sum.
    """
    shares = {people: float(BOOK.cell("lift_team", people, None).value) for people in (2, 3)}
    together = physics.team_weight(share=shares[2], men=2, man_kg=20, women=0, woman_kg=0)
    assert math.floor(together * 10) / 10 == 26.6
    assert physics.team_weight(share=shares[3], men=3, man_kg=20, women=0, woman_kg=0) == 30


def test_the_average_of_two_boxes_at_their_border() -> None:
    """cscsmastery.co.uk, rules from HSE L23: near the border of two boxes the average of both; a man's at
    elbow height close to the body is 25 kg.
    """
    shoulder_mm = (1_230 + 1_553) / 2
    lift = Lift(Hands(shoulder_mm, 250), Hands(shoulder_mm, 250), "good")
    assert CLAUSE.filter_kg(Trace(BOOK), lift=lift, people=["man"]) == pytest.approx((20 + 10) / 2)
    elbow = Lift(Hands(900, 250), Hands(900, 250), "good")
    assert CLAUSE.filter_kg(Trace(BOOK), lift=elbow, people=["man"]) == 25


def test_a_ladder_stands_at_75_degrees() -> None:
    """HSE INDG402 as quoted by londongradfair.co.uk: 75°, that is one metre out for every four up."""
    t = Trace(BOOK)
    foot_mm = CLAUSE.ladder_foot_mm(t, height_mm=4_000)
    assert foot_mm == 1_000
    assert physics.ladder_angle(height_mm=4_000, foot_mm=foot_mm) == pytest.approx(75, abs=1)


# Traps that are in print


def test_trap_hands_nearer_than_ten_inches() -> None:
    """educationexpert.net, question 2125243: 7 in are not raised to 10 in, 28.37 lb come out and 20 lb pass
    with an index of 0.71. With the rule of 94-110 section 1.3.1.2 it is 19.9 lb: the load is too heavy.
    """
    lift = {"v": 34.0, "d": 25.0, "a": 0.0, "fm": frequency(10, "short_high"), "cm": 1.0}
    right = in_pounds(float, h=7, **lift)["RWL"]
    assert right * 10 / 7 == pytest.approx(28.37, abs=0.01)
    assert right == pytest.approx(19.86, abs=0.01)
    assert physics.lifting_index(mass_kg=20, limit_kg=right) > 1
    near = Lift(Hands(850, 180), Hands(1_480, 180), "good", 10)
    assert limit_kg(near) == limit_kg(Lift(Hands(850, 250), Hands(1_480, 250), "good", 10))


def test_trap_hands_above_the_highest_reach() -> None:
    """scribd.com, document 538622779: hands at 185 cm get a vertical multiplier of 0.67 and 3.59 kg come out.
    94-110 section 1.3.2.3: above 175 cm it is nought.
    """
    unbounded = physics.vertical_multiplier(hands_mm=1_850, best_mm=750, slope=0.3, highest_mm=2_000)
    assert unbounded == pytest.approx(0.67)
    lift = Lift(Hands(1_350, 400, 80), Hands(1_850, 400, 80), "good", 3, "long")
    assert limit_kg(lift, lift.end) == 0


def test_trap_a_way_shorter_than_ten_inches() -> None:
    """94-110 section 1.3.3.2; computed as it stands, a way of 10 cm would add a quarter to the limit."""
    short, least = (Lift(Hands(700, 300), Hands(700 + way, 300), "good") for way in (100, 250))
    assert 0.82 + 45 / 100 > 1.25
    assert limit_kg(short) == limit_kg(least)


def test_trap_once_an_hour_is_not_rarer_than_once_in_five_minutes() -> None:
    """94-110 section 1.3.5.3; a line through 0.2 and 0.5 a minute prolonged to nought would give 1.02."""
    seldom, least = (Lift(Hands(750, 250), Hands(750, 250), "good", per_min) for per_min in (1 / 60, 0.2))
    assert 1 + 0.2 * (1 - 0.97) / 0.3 > 1.01
    assert limit_kg(seldom) == limit_kg(least) == 23


# The printed tables as a second way

#: DHHS (NIOSH) 94-110, tables 1 to 4, metric; at 130 cm the manual prints 0.86 where its formula gives 0.85
HORIZONTAL = {
    250: 1.00, 280: 0.89, 300: 0.83, 320: 0.78, 340: 0.74, 360: 0.69, 380: 0.66, 400: 0.63, 420: 0.60,
    440: 0.57, 460: 0.54, 480: 0.52, 500: 0.50, 520: 0.48, 540: 0.46, 560: 0.45, 580: 0.43, 600: 0.42,
    630: 0.40,
}  # fmt: skip
VERTICAL = {
    0: 0.78, 100: 0.81, 200: 0.84, 300: 0.87, 400: 0.90, 500: 0.93, 600: 0.96, 700: 0.99, 800: 0.99,
    900: 0.96, 1000: 0.93, 1100: 0.90, 1200: 0.87, 1300: 0.84, 1400: 0.81, 1500: 0.78, 1600: 0.75,
    1700: 0.72, 1750: 0.70,
}  # fmt: skip
DISTANCE = {
    250: 1.00, 400: 0.93, 550: 0.90, 700: 0.88, 850: 0.87, 1000: 0.87, 1150: 0.86, 1450: 0.85, 1600: 0.85,
    1750: 0.85,
}  # fmt: skip
ASYMMETRY = {
    0: 1.00, 15: 0.95, 30: 0.90, 45: 0.86, 60: 0.81, 75: 0.76, 90: 0.71, 105: 0.66, 120: 0.62, 135: 0.57,
}  # fmt: skip


def horizontal(at: float) -> float:
    return physics.horizontal_multiplier(hands_mm=at, nearest_mm=250, farthest_mm=630)


def vertical(at: float) -> float:
    return physics.vertical_multiplier(hands_mm=at, best_mm=750, slope=0.3, highest_mm=1_750)


def distance(at: float) -> float:
    return physics.distance_multiplier(travel_mm=at, base=0.82, gain_mm=45, least_mm=250, most_mm=1_750)


def asymmetry(at: float) -> float:
    return physics.asymmetry_multiplier(twist_deg=at, slope=0.0032, most_deg=135)


@pytest.mark.parametrize(
    ("printed", "multiplier"),
    [(HORIZONTAL, horizontal), (VERTICAL, vertical), (DISTANCE, distance), (ASYMMETRY, asymmetry)],
    ids=["table 1", "table 2", "table 3", "table 4"],
)
def test_every_printed_multiplier(printed: Mapping[int, float], multiplier: Callable[[float], float]) -> None:
    """DHHS (NIOSH) 94-110, tables 1 to 4; the fourth also in Environmentally Conscious Materials Handling
    (2009), table 2.10.
    """
    assert {at: two_places(multiplier(at)) for at in printed} == printed


def between(printed: Mapping[int, float], at: float) -> float:
    """A printed table, in a straight line between its rows, as the manual's page 7 has it."""
    for low, high in pairwise(printed):
        if low <= at <= high:
            return printed[low] + (printed[high] - printed[low]) * (at - low) / (high - low)
    raise AssertionError(at)


@given(
    reach_mm=st.floats(250, 630),
    low_mm=st.floats(0, 1_500),
    share=st.floats(0, 1),
    twist_deg=st.floats(0, 135),
)
def test_the_limit_from_the_printed_tables(
    reach_mm: float, low_mm: float, share: float, twist_deg: float
) -> None:
    """The second way: tables 1 to 4 instead of the formulas. A printed multiplier is off by half a hundredth
    at most, a straight line between two rows of a curve by as much again.
    """
    way_mm = 250 + share * (1_750 - 250 - low_mm)
    high_mm = low_mm + way_mm
    lift = Lift(Hands(low_mm, reach_mm, twist_deg), Hands(high_mm, reach_mm, twist_deg), "good")
    tabled = (
        23
        * between(HORIZONTAL, reach_mm)
        * between(VERTICAL, low_mm)
        * between(DISTANCE, way_mm)
        * between(ASYMMETRY, twist_deg)
    )
    least = horizontal(reach_mm), vertical(low_mm), distance(way_mm), asymmetry(twist_deg)
    slack = sum(0.01 / multiplier for multiplier in least)
    assert limit_kg(lift) == pytest.approx(tabled, rel=slack)


@given(
    reach_in=st.floats(10, 24.8),
    low_in=st.floats(0, 29) | st.floats(31, 58.8),
    share=st.floats(0, 1),
    twist_deg=st.floats(0, 135),
    per_min=st.floats(0.2, 8),
)
def test_the_limit_in_inches_and_pounds(
    reach_in: float, low_in: float, share: float, twist_deg: float, per_min: float
) -> None:
    """The second way: the manual's other set of constants. 51 lb are 0.6 % more than 23 kg, 10 in 1.6 % more
    than 25 cm, 30 in 1.2 cm more than 75 cm, which is up to 1 % of what is left; 0.2 % lies in the way.
    """
    way_in = 10 + share * (68.8 - 10 - low_in)
    column = "short_low" if low_in < 30 else "short_high"
    pounds = in_pounds(
        float, h=reach_in, v=low_in, d=way_in, a=twist_deg, fm=frequency(per_min, column), cm=1.0
    )["RWL"]
    start, end = (Hands(25.4 * inches, 25.4 * reach_in, twist_deg) for inches in (low_in, low_in + way_in))
    metric = limit_kg(Lift(start, end, "good", per_min))
    assert metric == pytest.approx(pounds * POUND_KG, rel=0.034)


# What must always hold

heights = st.floats(0, 1_750)
above = st.floats(750, 1_750)
reaches = st.floats(0, 630)
people = st.lists(st.sampled_from(["man", "woman"]), min_size=1, max_size=3)


def filter_kg(lift: Lift, people: list[str]) -> float:
    return CLAUSE.filter_kg(Trace(BOOK), lift=lift, people=people)


@given(start=heights, end=heights, near=reaches, far=reaches, people=people)
def test_further_out_never_allows_more(
    start: float, end: float, near: float, far: float, people: list[str]
) -> None:
    near, far = sorted((near, far))
    close, away = (Lift(Hands(start, reach), Hands(end, reach), "fair") for reach in (near, far))
    assert limit_kg(away) <= limit_kg(close)
    assert filter_kg(away, people) <= filter_kg(close, people) + 1e-9


@given(start=st.floats(0, 750), end=above, higher=above, reach=reaches, people=people)
def test_higher_never_allows_more(
    start: float, end: float, higher: float, reach: float, people: list[str]
) -> None:
    end, higher = sorted((end, higher))
    less, more = (Lift(Hands(start, reach), Hands(to, reach), "good") for to in (end, higher))
    assert limit_kg(more, more.end) <= limit_kg(less, less.end) + 1e-9
    assert filter_kg(more, people) <= filter_kg(less, people) + 1e-9


@given(
    start=heights, end=heights, reach=reaches, rarely=st.floats(0, 15), often=st.floats(0, 15), people=people,
    duration=st.sampled_from(["short", "moderate", "long"]),
)  # fmt: skip
def test_more_often_never_allows_more(
    start: float, end: float, reach: float, rarely: float, often: float, people: list[str], duration: str
) -> None:
    rarely, often = sorted((rarely, often))
    less, more = (
        Lift(Hands(start, reach), Hands(end, reach), "poor", per_min, duration) for per_min in (rarely, often)
    )
    assert limit_kg(more) <= limit_kg(less) + 1e-9
    assert filter_kg(more, people) <= filter_kg(less, people) + 1e-9


@given(start=heights, end=heights, little=st.floats(0, 180), much=st.floats(0, 180), people=people)
def test_more_aside_never_allows_more(
    start: float, end: float, little: float, much: float, people: list[str]
) -> None:
    little, much = sorted((little, much))
    less, more = (Lift(Hands(start, 300, twist), Hands(end, 300, twist), "good") for twist in (little, much))
    assert limit_kg(more) <= limit_kg(less) + 1e-9
    assert filter_kg(more, people) <= filter_kg(less, people) + 1e-9


@given(narrow=st.floats(0, 1_000), wide=st.floats(0, 1_000), height=heights)
def test_a_deeper_load_is_never_nearer(narrow: float, wide: float, height: float) -> None:
    narrow, wide = sorted((narrow, wide))
    t = Trace(BOOK)
    assert CLAUSE.reach_mm(t, depth_mm=narrow, height_mm=height) <= CLAUSE.reach_mm(
        t, depth_mm=wide, height_mm=height
    )


@given(start=heights, end=heights, reach=reaches, who=st.sampled_from(["man", "woman"]))
def test_one_more_of_the_same_never_allows_less(start: float, end: float, reach: float, who: str) -> None:
    lift = Lift(Hands(start, reach), Hands(end, reach), "good")
    one, two, three = (filter_kg(lift, [who] * count) for count in (1, 2, 3))
    assert one < two < three < 3 * one


@given(low=heights, inside=st.floats(0, 1), high=heights, reach=reaches, people=people)
def test_a_longer_way_through_the_boxes_never_allows_more(
    low: float, inside: float, high: float, reach: float, people: list[str]
) -> None:
    low, high = sorted((low, high))
    part = low + inside * (high - low)
    whole = filter_kg(Lift(Hands(low, reach), Hands(high, reach), "good"), people)
    assert whole <= filter_kg(Lift(Hands(low, reach), Hands(part, reach), "good"), people) + 1e-9
