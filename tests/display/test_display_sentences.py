"""How a constraint reads: its numbers, its margin, and what a remedy says."""

from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from ferrule import display
from ferrule.checks.question import Remedy
from ferrule.constraint import Constraint, at_least, at_most, is_so, not_known, within
from ferrule.fact import Missing
from ferrule.quantity import Unit
from ferrule.rules import load
from ferrule.working import Trace

TEXT = "{value} of {limit}"


@pytest.fixture(scope="module")
def t() -> Trace:
    return Trace(load("iec-2024"))


@pytest.mark.parametrize(
    ("value", "limit", "text"),
    [
        (516.6, 600.0, "517 V of 600 V"),
        (600.04, 600.0, "600.04 V of 600 V"),
        (599.96, 600.0, "599.96 V of 600 V"),
        (599.6, 599.9, "599.6 V of 599.9 V"),
        (600.0, 600.0, "600 V of 600 V"),
        (600.0 + 1e-10, 600.0, "600 V of 600 V"),
        (541.26, 1000 / 3, "541 V of 333 V"),
        (333.32, 1000 / 3, "333.32 V of 333.33 V"),
    ],
)
def test_a_value_stays_on_its_side_of_the_limit(t: Trace, value: float, limit: float, text: str) -> None:
    assert display.filled(at_most("x", TEXT, t, value=value, limit=limit, unit="V")) == text


def test_a_limit_is_rounded_to_its_safe_side(t: Trace) -> None:
    most = at_most("x", TEXT, t, value=5.0, limit=12.349, unit="A")
    least = at_least("x", TEXT, t, value=50.0, limit=12.341, unit="A")
    window = within("x", "{value} between {low} and {high}", t, value=50.0, low=12.341, high=78.49, unit="A")
    assert display.filled(most) == "5 A of 12.3 A"
    assert display.filled(least) == "50 A of 12.4 A"
    assert display.filled(window) == "50 A between 12.4 A and 78.4 A"


@pytest.mark.parametrize(
    ("value", "limit", "text"),
    [
        (4200.0, 6000.0, "4.2 kA of 6 kA"),
        (950.0, 6000.0, "0.95 kA of 6 kA"),
        (3.0, 6000.0, "3 A of 6 kA"),
        (0.008, 0.5, "0.008 A of 0.5 A"),
        (0.0, 25.0, "0 A of 25 A"),
        (1050.0, 990.0, "1050 A of 990 A"),
    ],
)
def test_value_and_limit_share_a_scale_where_they_are_near(
    t: Trace, value: float, limit: float, text: str
) -> None:
    assert display.filled(at_most("x", TEXT, t, value=value, limit=limit, unit="A")) == text


SIZES = st.floats(1e-3, 1e6)


def number_in(text: str, unit: str) -> float:
    return Unit(unit).parse(text.replace("−", "-"))


@given(
    value=SIZES,
    limit=SIZES,
    near=st.sampled_from([None, 1e-8, 1e-5, 1e-3]),
    unit=st.sampled_from(["A", "V", "Ω"]),
)
def test_what_is_printed_is_ordered_as_what_is_meant(
    value: float, limit: float, near: float | None, unit: str
) -> None:
    if near is not None:
        value = limit * (1 + near)
    assume(abs(value - limit) > 1e-8 * limit / 2)
    for constraint in _both(value, limit, unit):
        shown = display.measured(constraint)
        assert (number_in(shown["value"], unit) > number_in(shown["limit"], unit)) == (value > limit)
        assert number_in(shown["value"], unit) != number_in(shown["limit"], unit)
        assert number_in(shown["value"], unit) == pytest.approx(value, rel=6e-3)
        assert number_in(shown["limit"], unit) == pytest.approx(limit, rel=1.1e-2)


def _both(value: float, limit: float, unit: str) -> tuple[Constraint, Constraint]:
    t = Trace(load("iec-2024"))
    return (
        at_most("x", TEXT, t, value=value, limit=limit, unit=unit),
        at_least("x", TEXT, t, value=value, limit=limit, unit=unit),
    )


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (517.0, "13 % margin"),
        (597.0, "<1 % margin"),
        (600.0, ""),
        (600.5, "1 % over"),
        (900.0, "50 % over"),
    ],
)
def test_the_margin_below_a_maximum(t: Trace, value: float, text: str) -> None:
    assert display.margin(at_most("x", TEXT, t, value=value, limit=600.0, unit="V")) == text


@pytest.mark.parametrize(
    ("value", "text"), [(213.1, "12 % short"), (240.0, ""), (300.0, "25 % margin"), (600.0, "ample margin")]
)
def test_the_margin_above_a_minimum(t: Trace, value: float, text: str) -> None:
    assert display.margin(at_least("x", TEXT, t, value=value, limit=240.0, unit="V")) == text


@pytest.mark.parametrize(
    ("value", "text"), [(90.0, "10 % short"), (220.0, "10 % over"), (150.0, "25 % margin")]
)
def test_the_margin_within_a_window(t: Trace, value: float, text: str) -> None:
    constraint = within("x", TEXT, t, value=value, low=100.0, high=200.0, unit="V")
    assert display.margin(constraint) == text


@pytest.mark.parametrize("unit", ["°C", "count"])
def test_a_temperature_and_a_count_have_no_margin(t: Trace, unit: str) -> None:
    assert display.margin(at_most("x", TEXT, t, value=30.0, limit=40.0, unit=unit)) == ""


def test_a_standard_size_has_no_margin(t: Trace) -> None:
    """What counts is the next size there is."""
    for value in (4.0, 6.0, 10.0):
        assert display.margin(at_least("x", TEXT, t, value=value, limit=6.0, unit="mm²")) == ""


def test_a_miss_by_nothing_says_that_nothing_is_left(t: Trace) -> None:
    missed = at_most("x", TEXT, t, value=600.0, limit=600.0, unit="V", strict=True)
    assert (display.filled(missed), display.margin(missed)) == ("600 V of 600 V", "no margin")


@pytest.mark.parametrize(
    ("limit", "room"), [(100.0, ""), (100.9, "<1 %"), (101.1, "1 %"), (200.0, "50 %"), (50.0, "ample")]
)
def test_room_in_brief(t: Trace, limit: float, room: str) -> None:
    build = at_most if limit >= 100 else at_least
    assert (
        display.room(build("x", TEXT, t, value=101.0 if limit < 100 else 100.0, limit=limit, unit="A"))
        == room
    )


def test_a_limit_is_called_by_its_words(t: Trace) -> None:
    assert (
        display.name(at_most("inverter_input", TEXT, t, value=1.0, limit=2.0, unit="A")) == "inverter input"
    )


def test_a_condition_shows_its_words_only(t: Trace) -> None:
    constraint = is_so("x", "{closed} bonds of {rating_a}", t, True, closed=1, rating_a=16.0)
    assert display.filled(constraint) == "1 bonds of 16 A"
    assert display.margin(constraint) == ""
    assert display.comparison(constraint) == ("", "", "")


def test_an_unknown_names_all_there_is_to_find_out() -> None:
    constraint = not_known("x", Missing("the length", "the method"))
    assert display.filled(constraint) == "Find out: the length; the method"
    assert display.margin(constraint) == ""


def test_in_brief_a_limit_has_the_sign_of_its_sense(t: Trace) -> None:
    most = at_most("x", TEXT, t, value=517.0, limit=600.0, unit="V")
    least = at_least("x", TEXT, t, value=320.0, limit=240.0, unit="V")
    low = within("x", TEXT, t, value=110.0, low=100.0, high=200.0, unit="V")
    high = within("x", TEXT, t, value=190.0, low=100.0, high=200.0, unit="V")
    assert display.comparison(most) == ("517 V", "≤", "600 V")
    assert display.comparison(least) == ("320 V", "≥", "240 V")
    assert display.comparison(low) == ("110 V", "≥", "100 V")
    assert display.comparison(high) == ("190 V", "≤", "200 V")


@pytest.mark.parametrize(
    ("words", "text"),
    [
        ({"value": "6 mm²", "margin": 0.127}, "6 mm² passes with 12 % margin"),
        ({"value": "6 mm²", "margin": 0.29}, "6 mm² passes with 29 % margin"),
    ],
)
def test_a_remedy_tells_its_margin_as_a_share(words: dict[str, Any], text: str) -> None:
    assert display.remedy(Remedy("{value} passes with {margin} margin", words)) == text
