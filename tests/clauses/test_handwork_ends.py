"""Cable ends, by the clause alone."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule import rules
from ferrule.clauses import bind
from ferrule.clauses.handwork.ends import PreparedEnds
from ferrule.clauses.procedures.ends import Gland, Lug
from ferrule.grade import Grade
from ferrule.working import NotPrinted

CODE = bind(rules.load("iec-2024"))
ENDS = PreparedEnds()


def ask(name: str, **given: Any) -> Any:
    return getattr(ENDS, name)(CODE.trace(), **given)


def test_every_family_has_it() -> None:
    for edition in rules.editions():
        assert isinstance(bind(rules.load(edition)).procedures.cable_ends, PreparedEnds)


def test_a_colour_comes_with_its_size_and_system() -> None:
    sleeve = ask("sleeve", area_mm2=4, length_mm=10, insulated=True)
    assert (sleeve.area_mm2, sleeve.length_mm, sleeve.strip_mm) == (4, 10, 12)
    assert sleeve.colours == (("din", "grey"), ("older_german", "grey"), ("french", "orange"))


def test_a_bare_sleeve_has_no_colour_and_no_collar() -> None:
    sleeve = ask("sleeve", area_mm2=4, length_mm=10, insulated=False)
    assert (sleeve.strip_mm, sleeve.colours) == (10, ())


def test_two_lists_of_one_name_are_both_told() -> None:
    colours = dict(ask("sleeve", area_mm2=16, length_mm=12, insulated=True).colours)
    assert (colours["din"], colours["din_other"]) == ("blue", "green")


@pytest.mark.parametrize(("area_mm2", "lengths_mm"), [(1.5, (8, 10, 12, 18)), (10, (12, 18)), (50, (20, 25))])
def test_lengths_of_sleeves(area_mm2: float, lengths_mm: tuple[float, ...]) -> None:
    assert ask("sleeve_lengths", area_mm2=area_mm2) == lengths_mm


@pytest.mark.parametrize(
    ("name", "given"),
    [
        ("sleeve", {"area_mm2": 3, "length_mm": 10, "insulated": True}),
        ("sleeve", {"area_mm2": 70, "length_mm": 10, "insulated": False}),
        ("sleeve_lengths", {"area_mm2": 5.26}),
        ("lug", {"area_mm2": 4, "bolt_mm": 6}),
        ("lug", {"area_mm2": 16, "bolt_mm": 12}),
        ("lug", {"area_mm2": 16, "bolt_mm": 7}),
        ("gland", {"outer_least_mm": 3, "outer_most_mm": 3}),
        ("gland", {"outer_least_mm": 6, "outer_most_mm": 20}),
        ("gland", {"outer_least_mm": 48, "outer_most_mm": 48}),
    ],
)
def test_what_no_table_prints_is_to_be_found_out(name: str, given: dict[str, Any]) -> None:
    with pytest.raises(NotPrinted):
        ask(name, **given)


def test_a_lug_with_its_die_and_hole() -> None:
    assert ask("lug", area_mm2=16, bolt_mm=8) == Lug(16, 8, 8, 8.4, 14, 20)
    with pytest.raises(NotPrinted, match="no lug of 16 mm² for M12; there are those for M5 to M10"):
        ask("lug", area_mm2=16, bolt_mm=12)


@pytest.mark.parametrize(
    ("area_mm2", "bolt_mm", "colours"),
    [(1.5, 5, ("red", "blue")), (2.5, 5, ("blue",)), (6, 5, ("yellow",)), (6, 3, ()), (10, 6, ()),
     (3, 5, ())],
)  # fmt: skip
def test_rings(area_mm2: float, bolt_mm: float, colours: tuple[str, ...]) -> None:
    assert ask("ring_colours", area_mm2=area_mm2, bolt_mm=bolt_mm) == colours


@pytest.mark.parametrize(("area_mm2", "there"), [(0.14, False), (0.25, True), (16, True), (25, False)])
def test_twin_sleeves(area_mm2: float, there: bool) -> None:
    assert ask("twin_sleeve", area_mm2=area_mm2) is there


def test_what_no_usual_gland_holds_says_what_to_find_out() -> None:
    with pytest.raises(NotPrinted, match="no usual gland from M12 to M63 holds a cable of 6 to 20 mm"):
        ask("gland", outer_least_mm=6, outer_most_mm=20)


def test_a_usual_seal_before_a_wide_one() -> None:
    assert ask("gland", outer_least_mm=17, outer_most_mm=17) == Gland(32, 32.5, 15, 21, wide=False)
    assert ask("gland", outer_least_mm=10.5, outer_most_mm=15) == Gland(25, 25.5, 9, 17, wide=True)


@given(st.floats(3, 50), st.floats(0, 5))
def test_a_gland_holds_what_it_is_picked_for(least_mm: float, more_mm: float) -> None:
    most_mm = least_mm + more_mm
    try:
        gland = ask("gland", outer_least_mm=least_mm, outer_most_mm=most_mm)
    except NotPrinted:
        return
    assert gland.from_mm < least_mm <= most_mm < gland.to_mm
    assert ask("gland_holds", outer_least_mm=least_mm, outer_most_mm=most_mm,
               from_mm=gland.from_mm, to_mm=gland.to_mm)  # fmt: skip


@pytest.mark.parametrize(("outer_mm", "held"), [(6.4, False), (6.5, True), (11.5, True), (11.6, False)])
def test_a_stated_range_keeps_half_a_millimetre(outer_mm: float, held: bool) -> None:
    given = {"outer_least_mm": outer_mm, "outer_most_mm": outer_mm, "from_mm": 6, "to_mm": 12}
    assert ask("gland_holds", **given) is held


@pytest.mark.parametrize(
    ("cable", "outer_mm", "laying_mm", "fixed_mm"),
    [("plain", 20, 120, 120), ("plain", 25, 150, 150), ("plain", 30, 270, 180), ("screened", 10, 180, 120),
     ("solar", 6, 30, 24), ("data", 6, 48, 24)],
)  # fmt: skip
def test_bends(cable: str, outer_mm: float, laying_mm: float, fixed_mm: float) -> None:
    assert ask("bend_radius_mm", cable=cable, outer_mm=outer_mm, laying=True) == pytest.approx(laying_mm)
    assert ask("bend_radius_mm", cable=cable, outer_mm=outer_mm, laying=False) == pytest.approx(fixed_mm)


@given(
    st.floats(1, 60), st.floats(1, 60), st.sampled_from(["plain", "screened", "solar", "data"]), st.booleans()
)
def test_a_thicker_cable_bends_no_tighter(one_mm: float, other_mm: float, cable: str, laying: bool) -> None:
    thin, thick = (
        ask("bend_radius_mm", cable=cable, outer_mm=each, laying=laying)
        for each in sorted((one_mm, other_mm))
    )
    assert thin <= thick


def test_the_working_tells_what_it_rests_on() -> None:
    t = CODE.trace()
    ENDS.sleeve(t, area_mm2=1.5, length_mm=8, insulated=True)
    assert {read.table for read in t.reads()} == {"sleeve_colour", "sleeve_strip_collar"}
    assert [read.grade for read in t.reads() if read.keys == ("1.5", "din")] == [Grade.VERIFIED]
