"""Tables on a terminal."""

from hypothesis import given
from hypothesis import strategies as st

from ferrule.sheets.table import Column, table
from ferrule.sheets.text import lines
from sheets.lists import SCHEDULE, of_texts


def test_a_table_where_there_is_room() -> None:
    assert list(lines(SCHEDULE, 80)) == [
        "Cable schedule",
        "run  cores  length (m)                    torque (N·m)",
        "──────────────────────────────────────────────────────",
        "W1       5       12.35                             2.5",
        "W2       3        0.00  unknown: see the maker's sheet",
        "W3       4      100.00",
        "Lengths with allowances at both ends.",
    ]


def test_the_widest_gives_way() -> None:
    shown = list(lines(SCHEDULE, 44))
    assert max(map(len, shown)) <= 44
    assert shown[4:6] == [
        "W2       3        0.00      unknown: see the",
        "                               maker's sheet",
    ]


@given(st.text(alphabet=st.characters(categories=["L", "N"]), min_size=1), st.integers(10, 100))
def test_nothing_is_cut(text: str, width: int) -> None:
    only = table("t", "T", [Column("a", "a", 20)], [[text]])
    shown = list(lines(only, width))
    assert max(map(len, shown)) <= width
    assert "".join(shown[3:]) == text


def test_a_hostile_text_takes_only_its_cell() -> None:
    shown = list(lines(of_texts("\x1b[2J a\r\n=b"), 40))
    assert shown[3:] == ["␛[2J a␍   0", "=b"]
