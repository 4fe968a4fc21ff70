"""The font's own tables, read by us and by a font library."""

import pytest
from fontTools.ttLib import TTFont

from ferrule.sheets import font


@pytest.mark.parametrize("bold", [False, True])
def test_widths_are_those_the_font_library_reads(bold: bool) -> None:
    with TTFont(font.file(bold=bold)) as read:
        em = read["head"].unitsPerEm
        widths = {chr(code): read["hmtx"][glyph][0] / em for code, glyph in read.getBestCmap().items()}
    assert font.advances(bold) == widths


def test_capitals_are_as_high_as_the_font_says() -> None:
    with TTFont(font.file()) as read:
        assert read["OS/2"].sCapHeight / read["head"].unitsPerEm == font.CAPITAL_HEIGHT
        assert read["name"].getBestFamilyName() == font.FAMILY


@pytest.mark.parametrize("bold", [False, True])
def test_it_has_the_signs_of_the_trade(bold: bool) -> None:
    signs = "ΩµμΔφ°²³₁₂±×÷√≤≥≈≠−–…→←↑↓½½€£ÄÖÜäöüßéñçøåšżłğЖяΦ∞∑"
    assert [sign for sign in signs if sign not in font.advances(bold)] == []
