"""What a text becomes before it is printed."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.sheets.harmless import BREAK, harmless, spelled

_SPELLED = re.compile(r"\[U\+([0-9A-F]{4,6})\]")


def _read_back(printed: str) -> str:
    """The text that was printed, as a reader gets it back: breaks gone, spelled characters read."""
    joined = printed.replace(BREAK, "").replace("\N{NO-BREAK SPACE}", " ")
    return _SPELLED.sub(lambda match: chr(int(match[1], 16)), joined)


@given(st.text().filter(lambda text: "[U+" not in text))
def test_nothing_is_lost(text: str) -> None:
    assert _read_back(harmless(text)) == " ".join(text.replace("\N{NO-BREAK SPACE}", " ").split())


@given(st.text(alphabet=st.characters(exclude_categories=["Zs", "Cc"]), min_size=17))
def test_no_piece_is_longer_than_a_narrow_column(text: str) -> None:
    pieces = re.split(rf"[{BREAK}\s]", harmless(text))
    assert max(map(len, pieces)) <= 16


@pytest.mark.parametrize(
    ("given_", "printed"),
    [
        ("Plum Cottage", "Plum Cottage"),
        ("10 mm² at 30 °C", "10\N{NO-BREAK SPACE}mm² at 30\N{NO-BREAK SPACE}°C"),
        ("a\x07b", "a[U+0007]b"),
        ("\u202egnol", "[U+202E]gnol"),
        ("中 and 😀", "[U+4E2D] and [U+1F600]"),
        ("two\nlines\t here ", "two lines here"),
        ("שלום Łódź Δ", "שלום Łódź Δ"),
        ("string.cold_operating_voltage", f"string.{BREAK}cold_{BREAK}operating_{BREAK}voltage"),
    ],
)
def test_texts(given_: str, printed: str) -> None:
    assert harmless(given_) == printed


def test_a_drawing_keeps_its_lines() -> None:
    assert spelled("<svg>\n中</svg>\n") == "<svg>\n[U+4E2D]</svg>\n"
