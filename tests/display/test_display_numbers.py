"""How numbers read."""

import math
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule import display
from ferrule.display.numbers import rounded

FINITE = st.floats(allow_nan=False, allow_infinity=False, min_value=-1e12, max_value=1e12).filter(
    lambda value: value == 0 or abs(value) > 1e-9
)


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        (0.0, "A", "0 A"),
        (13.2, "A", "13.2 A"),
        (0.03, "A", "30 mA"),
        (0.006, "A", "6 mA"),
        (6000.0, "A", "6 kA"),
        (4230.0, "A", "4.23 kA"),
        (0.28, "Ω", "0.28 Ω"),
        (0.012, "Ω", "12 mΩ"),
        (1667.0, "Ω", "1667 Ω"),
        (23_000.0, "Ω", "23 kΩ"),
        (1e6, "Ω", "1 MΩ"),
        (1500.0, "V", "1500 V"),
        (516.64, "V", "517 V"),
        (-16.0, "°C", "−16 °C"),
        (-16.25, "°C", "−16.2 °C"),
        (38.0, "°", "38°"),
        (0.4, "s", "0.4 s"),
        (0.04, "s", "40 ms"),
        (7200.0, "s", "120 min"),
        (8600.0, "W", "8.6 kW"),
        (12.0, "count", "12"),
        (1.31, "", "1.31"),
        (211_600.0, "A²s", "211600 A²s"),
        (0.426, "%", "0.426 %"),
        (1.8, "1/km²/year", "1.8 1/km²/year"),
        (math.inf, "A", "inf kA"),
    ],
)
def test_a_quantity_has_three_figures_and_the_scale_that_reads_best(
    value: float, unit: str, text: str
) -> None:
    assert display.quantity(value, unit) == text


@pytest.mark.parametrize(
    ("value", "text"), [(True, "yes"), (False, "no"), ("Dyn11", "Dyn11"), (None, "None")]
)
def test_what_is_no_number_reads_as_it_is(value: object, text: str) -> None:
    assert display.quantity(value, "V") == text


@pytest.mark.parametrize(
    ("value", "down", "nearest", "up"),
    [
        (12.37, "12.3", "12.4", "12.4"),
        (-12.37, "−12.4", "−12.4", "−12.3"),
        (1234.5, "1234", "1234", "1235"),  # halves go to the even neighbour
        (0.09996, "0.0999", "0.1", "0.1"),
        (999.7, "999", "1000", "1000"),
    ],
)
def test_rounding_goes_to_the_side_asked_for(value: float, down: str, nearest: str, up: str) -> None:
    texts = (
        display.number(value, toward="down"),
        display.number(value),
        display.number(value, toward="up"),
    )
    assert texts == (down, nearest, up)


def test_what_binary_arithmetic_leaves_over_does_not_reach_the_next_step() -> None:
    assert 0.1 + 0.2 > 0.3
    assert display.number(0.1 + 0.2, 1, "up") == "0.3"
    assert 1.1 * 3 * 1000 > 3300
    assert display.number(1.1 * 3 * 1000, toward="up") == "3300"


@given(FINITE, st.integers(1, 9))
def test_rounding_down_and_up_enclose_the_value(value: float, digits: int) -> None:
    slack = 1e-9 * abs(value)
    assert rounded(value, digits, "down") <= value + slack
    assert rounded(value, digits, "up") >= value - slack


@given(FINITE, st.integers(1, 9), st.sampled_from(["nearest", "down", "up"]))
def test_a_number_reads_back_as_what_it_was_rounded_to(
    value: float, digits: int, toward: Literal["nearest", "down", "up"]
) -> None:
    text = display.number(value, digits, toward)
    assert math.isclose(float(text.replace("−", "-")), rounded(value, digits, toward), rel_tol=1e-12)
    assert math.isclose(float(text.replace("−", "-")), value, rel_tol=10.0 ** (1 - digits) * (1 + 1e-9))


@pytest.mark.parametrize(
    ("share", "down", "up"),
    [
        (0.138, "13 %", "14 %"),
        (0.0, "0 %", "0 %"),
        (0.004, "0 %", "1 %"),
        (0.29, "29 %", "29 %"),
        (1.5, "150 %", "150 %"),
    ],
)
def test_a_share_is_never_told_larger_unless_asked(share: float, down: str, up: str) -> None:
    assert display.percent(share) == down
    assert display.percent(share, "up") == up


@pytest.mark.parametrize(
    ("name", "value", "text"),
    [
        ("current_a", 16.0, "16 A"),
        ("coefficient_v_per_k", -0.101, "−0.101 V/K"),
        ("modules", 12, "12"),
        ("method", "B2", "B2"),
    ],
)
def test_a_word_has_the_unit_its_name_ends_in(name: str, value: object, text: str) -> None:
    assert display.word(name, value) == text
