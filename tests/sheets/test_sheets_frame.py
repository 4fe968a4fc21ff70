"""The frame says what a sheet is, on every page and whatever the job is called."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.sheets.frame import A4, LETTER, Frame, Page, Sheet, frame
from ferrule.sheets.legible import faults
from ferrule.sheets.scene import Scene, Text
from sheets.hostile import words

PAGES = (A4, A4.across(), LETTER, LETTER.across())
SHEET = Sheet(
    "Single-line diagram", "Example house", "iec-2024", "4f2a91c", True, "board", "2026-11-25", 3, 12
)


def shown(drawn: Frame) -> list[str]:
    return [item.shown for item in drawn.items if isinstance(item, Text)]


@pytest.mark.parametrize("page", PAGES)
@given(words, words, words, st.booleans())
def test_it_is_legible_whatever_the_job_is_called(
    page: Page, drawing: str, job: str, place: str, cleared: bool
) -> None:
    sheet = Sheet(drawing, job, "iec-2024", "4f2a91c", cleared, place)
    drawn = frame(page, sheet)
    scene = Scene(page.width_mm, page.height_mm, drawn.items, drawing)
    assert faults(scene, within=drawn.outline) == ()
    in_block = [item.box for item in drawn.items if isinstance(item, Text) and item.shown]
    assert all(drawn.block.holds(box) or box.bottom_mm <= drawn.inside.top_mm for box in in_block)


def test_it_says_what_the_sheet_is() -> None:
    told = shown(frame(A4, SHEET))
    assert [
        each
        for each in (
            "Single-line diagram",
            "Example house",
            "board",
            "4f2a91c",
            "iec-2024",
            "2026-11-25",
            "3 of 12",
        )
        if each not in told
    ] == []


@pytest.mark.parametrize("page", PAGES)
def test_what_is_not_cleared_says_so_across_the_head(page: Page) -> None:
    assert "NOT CLEARED TO BUILD" in shown(frame(page, SHEET._replace(cleared=False)))
    assert "NOT CLEARED TO BUILD" not in shown(frame(page, SHEET))


@pytest.mark.parametrize("page", PAGES)
@pytest.mark.parametrize("cleared", [True, False])
def test_the_drawing_has_room_of_its_own(page: Page, cleared: bool) -> None:
    drawn = frame(page, SHEET._replace(cleared=cleared))
    assert drawn.outline.holds(drawn.inside)
    assert drawn.inside.holds(drawn.area)
    assert not drawn.area.meets(drawn.block)
    for item in drawn.items:
        if isinstance(item, Text):
            assert not drawn.area.meets(item.box)


def test_a_page_turns() -> None:
    assert A4.across() == (297, 210)
