"""Tables whose rows fit, and texts that nothing obeys."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.sheets.table import Cell, Column, table, writable
from sheets.lists import COLUMNS, SCHEDULE


def test_numbers_are_the_same_everywhere() -> None:
    assert [row[2] for row in SCHEDULE.rows] == [12.35, 0.0, 100.0]
    assert str(SCHEDULE.rows[1][2]) == "0.0"


def test_a_heading_names_its_unit() -> None:
    assert [column.titled for column in COLUMNS] == ["run", "cores", "length (m)", "torque (N·m)"]


@pytest.mark.parametrize(
    ("row", "told"),
    [
        (("W1", 5, 1.0), "table t, row 1: 3 cells for 4 columns"),
        ((1, 5, 1.0, 1.0), "table t, row 1: 1 is no text for run"),
        (("W1", 5.0, 1.0, 1.0), "table t, row 1: 5.0 is no count for cores"),
        (("W1", True, 1.0, 1.0), "table t, row 1: True is no count for cores"),
        (("W1", 5, float("nan"), 1.0), "table t, row 1: nan is no number for length"),
    ],
)
def test_what_does_not_fit_is_refused(row: tuple[Cell, ...], told: str) -> None:
    with pytest.raises(ValueError, match=told):
        table("t", "T", COLUMNS, [row])


def test_a_key_stands_once() -> None:
    with pytest.raises(ValueError, match="a column's key stands twice"):
        table("t", "T", [Column("a", "a", 1), Column("a", "b", 1)], [])


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("\x00 \x07 \x1b[31m \r\n", "␀ ␇ ␛[31m ␍\n"),
        ("a\tb", "a\tb"),
        ("a\u202eb\u2066c\x9bd\ud800\uffff", "a\ufffdb\ufffdc\ufffdd\ufffd\ufffd"),
        ("שלום", "שלום"),
    ],
)
def test_what_would_be_obeyed_is_shown(text: str, shown: str) -> None:
    assert writable(text) == shown


@given(st.text())
def test_nothing_is_left_out(text: str) -> None:
    shown = writable(text)
    assert len(shown) == len(text)
    assert not any(unicodedata.category(each) in {"Cc", "Cs"} for each in shown if each not in "\t\n")
    assert all(a == b for a, b in zip(text, shown, strict=True) if a.isprintable())
    assert writable(shown) == shown
