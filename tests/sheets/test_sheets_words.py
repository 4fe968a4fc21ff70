"""Words are harmless, fit their room, and are never clipped."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.sheets.words import ELLIPSIS, plain, shortened, width_mm, wrapped
from sheets.hostile import words

rooms = st.floats(min_value=5.0, max_value=200.0)


@given(words)
def test_plain_words_have_nothing_that_no_paper_shows(text: str) -> None:
    shown = plain(text)
    assert all(unicodedata.category(each)[0] != "C" for each in shown)
    assert shown == shown.strip()
    assert not set(shown) & set("\n\r\t\u2028\u2029\u00a0")
    assert plain(shown) == shown


def test_a_mark_that_turns_the_direction_is_spelled_and_the_script_stays() -> None:
    assert plain("\u202eעברית") == "[U+202E]עברית"


def test_words_with_a_sign_of_another_font_get_room_for_that_font() -> None:
    # DejaVu Sans Mono, which has these signs, is 1233 of 2048 units wide throughout.
    assert width_mm("lift ☑", 2.5) >= 6 * 1233 / 2048 * 2.5 / 0.689


@given(words, rooms, st.booleans())
def test_shortened_words_fit_and_say_that_they_are_short(text: str, room_mm: float, bold: bool) -> None:
    shown = shortened(text, 2.5, room_mm, bold=bold)
    assert width_mm(shown, 2.5, bold=bold) <= room_mm
    if shown != plain(text):
        assert shown.endswith(ELLIPSIS)
        assert plain(text).startswith(shown[:-1])


@given(words, rooms, st.integers(min_value=1, max_value=6))
def test_wrapped_lines_fit_and_leave_out_nothing_unsaid(text: str, room_mm: float, lines: int) -> None:
    broken = wrapped(text, 2.5, room_mm, lines=lines)
    assert len(broken) <= lines
    assert all(0 < width_mm(each, 2.5) <= room_mm for each in broken if each)
    joined, whole = "".join(broken).replace(" ", ""), plain(text).replace(" ", "")
    assert joined == whole or (joined.endswith(ELLIPSIS) and whole.startswith(joined[:-1]))


def test_a_line_breaks_between_words() -> None:
    assert wrapped("main board in the cellar", 2.5, 21.0, lines=3) == ("main board", "in the cellar")


@pytest.mark.parametrize("height_mm", [1.8, 2.5, 7.0])
def test_width_grows_with_height(height_mm: float) -> None:
    # Capital height is 689 of 1000 units, "H" is 684 wide (the font's own tables).
    assert width_mm("H", height_mm) == pytest.approx(height_mm * 684 / 689, rel=0.01)
