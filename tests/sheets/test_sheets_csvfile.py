"""CSV that a spreadsheet shows and does not work out, and that a program has back whole."""

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.sheets.csvfile import csv_bytes, guarded
from ferrule.sheets.table import Table, writable
from sheets.lists import HOSTILE, SCHEDULE, of_texts


def read(table: Table) -> list[list[str]]:
    return list(csv.reader(io.StringIO(csv_bytes(table).decode("utf-8-sig"), newline=""), strict=True))


def test_the_bytes_of_a_plain_table() -> None:
    """RFC 4180: CRLF after each record, quotes around fields; a byte order mark first."""
    assert csv_bytes(SCHEDULE).decode("utf-8") == (
        '\ufeff"run","cores","length (m)","torque (N·m)"\r\n'
        '"W1","5","12.35","2.5"\r\n'
        '"W2","3","0.00","unknown: see the maker\'s sheet"\r\n'
        '"W3","4","100.00",""\r\n'
    )


@pytest.mark.parametrize("text", HOSTILE)
def test_no_text_is_obeyed_or_lost(text: str) -> None:
    _, (field, at) = read(of_texts(text))
    assert not field.startswith(("=", "+", "-", "@", "\t", "\r", "\n"))
    assert (field.removeprefix("'"), at) == (writable(text), "0")


@given(st.lists(st.text()))
def test_every_text_comes_back(texts: list[str]) -> None:
    rows = read(of_texts(*texts))[1:]
    assert [row[0].removeprefix("'") for row in rows] == [writable(text) for text in texts]


def test_numbers_stay_numbers() -> None:
    assert guarded("-5") == "'-5"
    table = SCHEDULE._replace(rows=(("W1", 5, -5.0, None),))
    assert read(table)[1] == ["W1", "5", "-5.00", ""]
