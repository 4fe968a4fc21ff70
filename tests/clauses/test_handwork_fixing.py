"""Anchors by the style of their sheet: each is judged with its own factors, and none with another's."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule import rules
from ferrule.clauses.anchors import (
    Acting,
    Anchor,
    Characteristic,
    DesignLoad,
    DesignResistance,
    Hole,
    MeanFailure,
    Near,
    Permissible,
    Resistance,
    Sides,
)
from ferrule.clauses.handwork.fixing import StatedStyle, compared
from ferrule.constraint import Constraint, Verdict
from ferrule.fact import Missing
from ferrule.working import Trace

BOOK = rules.load("iec-2024")
FIXING = StatedStyle()
HANGING = Acting(100, 200)
FREE = Near()


def anchor(resistance: Resistance, **given: Any) -> Anchor:
    """An anchor in brick with these resistances."""
    plain = Anchor(
        name="A10", family="metal", holds_by="resin", base="solid-brick", resistance=resistance,
        partial_factor=None, interaction="sum", diameter_mm=8, depth_mm=80, edge_full_mm=120,
        spacing_full_mm=160, edge_least_mm=None, spacing_least_mm=None,
    )  # fmt: skip
    return plain._replace(**given)


def held(
    resistance: Resistance, acting: Acting = HANGING, share: float = 1.0, **given: Any
) -> dict[str, Constraint]:
    found = FIXING.holds(
        BOOK, acting=acting, anchor=anchor(resistance, **given), share=share, steps=Trace(BOOK)
    )
    return {each.name: each for each in found}


@pytest.mark.parametrize(
    ("resistance", "load_n", "limit_n"),
    [
        (Characteristic(1000, 2000), 135, 1000 / 2.5),
        (DesignResistance(1000, 2000), 135, 1000),
        (Permissible(1000, 2000), 100, 1000),
        (MeanFailure(1000, 2000), 100, 250),
    ],
)
def test_each_style_is_held_against_loads_of_its_own_kind(
    resistance: Resistance, load_n: float, limit_n: float
) -> None:
    """100 N: with 1.35 against what has a partial factor or gets one, plain against what has all in it."""
    pull = held(resistance)["pull"]
    assert pull.value == pytest.approx(load_n)
    assert pull.limit == pytest.approx(limit_n)


def test_styles_do_not_mix() -> None:
    t = Trace(BOOK)
    with pytest.raises(TypeError, match="Acting is not to be held against DesignResistance"):
        compared(t, Acting(1, 1), DesignResistance(2, 2))  # type: ignore[call-overload]
    with pytest.raises(TypeError, match="DesignLoad is not to be held against Permissible"):
        compared(t, DesignLoad(1, 1), Permissible(2, 2))  # type: ignore[call-overload]
    assert Acting(1, 1) != DesignLoad(1, 1)
    assert len({Characteristic(1, 1), Permissible(1, 1), MeanFailure(1, 1), DesignResistance(1, 1)}) == 4


def test_the_sheets_own_factor_comes_first() -> None:
    assert held(Characteristic(1000, 2000), partial_factor=1.8)["pull"].limit == pytest.approx(1000 / 1.8)


def test_the_safe_one_of_two_shares_of_a_mean_failure() -> None:
    """A quarter, not the half that another source has."""
    reads = [step for step in held(MeanFailure(1000, 2000))["pull"].reads if "mean" in step.table]
    assert [step.keys for step in reads] == [("low",)]


@pytest.mark.parametrize(
    ("rule", "together", "limit"),
    [("sum", 1.1, 1.0), ("linear", 1.1, 1.2), ("concrete", 0.5**1.5 + 0.6**1.5, 1.0), ("steel", 0.61, 1.0)],
)
def test_pull_and_shear_together_by_the_anchors_own_rule(rule: str, together: float, limit: float) -> None:
    """Half and six tenths: too much only where the shares are added to 1."""
    found = held(Permissible(200, 200), Acting(100, 120), interaction=rule)["together"]
    assert found.value == pytest.approx(together)
    assert found.limit == limit
    assert found.verdict is (Verdict.FAIL if rule == "sum" else Verdict.PASS)


def test_linear_lets_neither_go_beyond_its_own() -> None:
    found = held(Permissible(100, 100), Acting(110, 5), interaction="linear")
    assert found["together"].verdict is Verdict.PASS
    assert found["pull"].verdict is Verdict.FAIL


@pytest.mark.parametrize(("load_n", "verdict"), [(100, Verdict.PASS), (100.01, Verdict.FAIL)])
def test_at_the_limit_and_just_beyond(load_n: float, verdict: Verdict) -> None:
    found = held(Permissible(100, 1e5), Acting(load_n, 1), interaction="steel")
    assert found["pull"].verdict is verdict


def test_leaning_on_it_while_it_is_hung_is_a_convention() -> None:
    """Enough for the weight and not for one and a half times as much: a caution, and no more."""
    found = held(Permissible(300, 300), Acting(130, 130))
    assert found["together"].verdict is Verdict.PASS
    assert found["hung"].verdict is Verdict.CAUTION
    assert found["hung"].value == pytest.approx(1.5 * 260 / 300)


def test_with_partial_factors_only_the_leaning_is_variable() -> None:
    found = held(DesignResistance(1000, 1000), Acting(100, 100))["hung"]
    assert found.value == pytest.approx(2 * 100 * (1.35 + 0.5 * 1.5) / 1000)


@given(st.floats(0.05, 1))
def test_near_an_edge_less_is_held(share: float) -> None:
    assert held(Permissible(1000, 2000), share=share)["pull"].limit == pytest.approx(1000 * share)


# Distances


def distances(edge_mm: float, spacing_mm: float, **given: Any) -> dict[str, Constraint]:
    what = anchor(Permissible(1, 1), **given)
    found = FIXING.distances(BOOK, anchor=what, edge_mm=edge_mm, spacing_mm=spacing_mm)
    return {each.name: each for each in found}


def share(*fixings: Sides, **given: Any) -> float:
    return FIXING.share(Trace(BOOK), anchor=anchor(Permissible(1, 1), **given), fixings=fixings)


def sides(left: Near = FREE, right: Near = FREE, above: Near = FREE, below: Near = FREE) -> Sides:
    return left, right, above, below


def test_without_a_least_distance_the_full_one_is_least() -> None:
    found = distances(119, 160)
    assert (found["edge"].verdict, found["edge"].limit) == (Verdict.FAIL, 120)
    assert found["spacing"].verdict is Verdict.PASS


def test_between_least_and_full_part_is_held() -> None:
    assert distances(60, 160, edge_least_mm=50)["edge"].verdict is Verdict.PASS
    assert share(sides(left=Near(60)), edge_least_mm=50) == pytest.approx(0.5)
    assert share(sides(left=Near(120), right=Near(spacing_mm=160))) == 1
    assert share(sides()) == 1


def test_every_side_takes_its_own() -> None:
    """Half at one edge and half at the other are a quarter; a neighbour at half its distance halves again."""
    corner = sides(left=Near(60), above=Near(60))
    assert share(corner) == pytest.approx(0.25)
    assert share(sides(left=Near(60), above=Near(60), right=Near(spacing_mm=80))) == pytest.approx(0.125)
    assert share(sides(left=Near(60, 80))) == pytest.approx(0.25)


def test_the_fixing_hemmed_in_most_counts() -> None:
    middle = Near(spacing_mm=120)
    assert share(sides(right=middle), sides(middle, middle, middle, middle)) == pytest.approx(0.75**4)


@pytest.mark.parametrize(
    ("family", "base", "edge_mm", "spacing_mm"),
    [
        ("metal", "concrete", 120, 240),
        ("plastic", "concrete", 80, 160),
        ("plastic", "perforated-brick", 160, 320),
        ("metal", "timber", 32, 40),
    ],
)
def test_where_the_sheet_is_silent(family: str, base: str, edge_mm: float, spacing_mm: float) -> None:
    """80 mm deep, 8 mm thick: by the depth in concrete and masonry, by the diameter in timber."""
    found = distances(1e4, 1e4, family=family, base=base, edge_full_mm=None, spacing_full_mm=None)
    assert (found["edge"].limit, found["spacing"].limit) == (edge_mm, spacing_mm)


def test_metal_in_masonry_has_no_rule_of_thumb() -> None:
    with pytest.raises(Missing, match="A10 to an edge in solid-brick, from its sheet"):
        distances(1e4, 1e4, edge_full_mm=None)


# Bases, framed walls, setting


@pytest.mark.parametrize(
    ("holds_by", "base", "wrong"),
    [
        ("expansion", "perforated-brick", True),
        ("expansion", "hollow-block", True),
        ("expansion", "aerated-concrete", True),
        ("expansion", "concrete", False),
        ("resin", "perforated-brick", False),
        ("plug", "aerated-concrete", False),
    ],
)
def test_what_spreads_splits_what_is_hollow(holds_by: str, base: str, wrong: bool) -> None:
    found = list(FIXING.base(BOOK, anchor=anchor(Permissible(1, 1), holds_by=holds_by, base=base)))
    assert [each.verdict for each in found] == ([Verdict.FAIL] if wrong else [])


def test_few_studs_and_a_short_thread_are_cautions() -> None:
    good = FIXING.studs(BOOK, count=2, thread_mm=50)
    short = FIXING.studs(BOOK, count=1, thread_mm=49)
    assert {each.verdict for each in good} == {Verdict.PASS}
    assert {each.verdict for each in short} == {Verdict.CAUTION}
    thin = FIXING.backing(BOOK, thickness_mm=15, studs=2)
    assert {each.verdict for each in thin} == {Verdict.CAUTION}


@pytest.mark.parametrize(
    ("base", "own_n_m", "concrete_n_m", "torque_n_m"),
    [
        ("solid-brick", None, 25.0, 12.5),
        ("solid-brick", 8.0, 25.0, 8.0),
        ("concrete", 25.0, 25.0, 25.0),
        ("timber", None, 25.0, None),
        ("solid-brick", None, None, None),
    ],
)
def test_masonry_gets_half_the_torque_of_concrete(
    base: str, own_n_m: float | None, concrete_n_m: float | None, torque_n_m: float | None
) -> None:
    setting = FIXING.setting(
        Trace(BOOK), base=base, torque_n_m=own_n_m, torque_in_concrete_n_m=concrete_n_m, cure_s=3600
    )
    assert setting.torque_n_m == torque_n_m
    assert setting.cleaning == "brush and blow"
    assert setting.wet_cure_s == 7200


@pytest.mark.parametrize(
    ("thickness_mm", "verdicts"),
    [
        (110, {"hole_depth": Verdict.PASS, "hole_behind": Verdict.PASS}),
        (109, {"hole_depth": Verdict.PASS, "hole_behind": Verdict.CAUTION}),
        (80, {"hole_depth": Verdict.FAIL}),
    ],
)
def test_a_hole_ends_in_the_wall(thickness_mm: float, verdicts: dict[str, Verdict]) -> None:
    """80 mm deep; 30 mm are left behind it by custom."""
    found = FIXING.hole(BOOK, anchor=anchor(Permissible(1, 1)), thickness_mm=thickness_mm)
    assert {each.name: each.verdict for each in found} == verdicts


def test_what_a_plate_weighs() -> None:
    """21 mm by 1 m by 1 m at 700 kg/m³."""
    plate_kg = FIXING.plate_kg(Trace(BOOK), thickness_mm=21, width_mm=1_000, height_mm=1_000)
    assert plate_kg == pytest.approx(14.7)


# Patterns


def test_the_worst_fixing_is_on_the_loads_side() -> None:
    """Load right of the middle: what is turned down adds, what is turned up takes away."""
    holes = [Hole(0, 100), Hole(200, 100)]
    right = FIXING.acting(Trace(BOOK), mass_kg=10, out_mm=50, across_mm=150, holes=holes)
    middle = FIXING.acting(Trace(BOOK), mass_kg=10, out_mm=50, across_mm=100, holes=holes)
    left = FIXING.acting(Trace(BOOK), mass_kg=10, out_mm=50, across_mm=50, holes=holes)
    assert right.shear_n == pytest.approx(1.5 * middle.shear_n)
    assert left.shear_n == pytest.approx(right.shear_n)


@pytest.mark.parametrize(
    ("holes", "across_mm", "ask"),
    [
        ([], 0, "where its fixing holes are"),
        ([Hole(0, 100)], 20, "a second fixing"),
        ([Hole(0, 0), Hole(100, 0)], 50, "no pull by prying follows"),
    ],
)
def test_patterns_that_hold_nothing_are_asked_about(holes: list[Hole], across_mm: float, ask: str) -> None:
    with pytest.raises(Missing, match=ask):
        FIXING.acting(Trace(BOOK), mass_kg=20, out_mm=100, across_mm=across_mm, holes=holes)


# Standing


@pytest.mark.parametrize(
    ("inward_mm", "tied", "name", "verdict"),
    [
        (177, False, "tilt", Verdict.PASS),
        (176, False, "tilt", Verdict.FAIL),
        (100, True, "tied", Verdict.PASS),
        (400, True, "tilt", Verdict.PASS),
    ],
)
def test_ten_degrees_of_tilt_or_a_tie(inward_mm: float, tied: bool, name: str, verdict: Verdict) -> None:
    """1000 mm × tan 10° = 176.3 mm."""
    (found,) = FIXING.stands(BOOK, height_mm=1000, inward_mm=inward_mm, tied=tied)
    assert (found.name, found.verdict) == (name, verdict)
