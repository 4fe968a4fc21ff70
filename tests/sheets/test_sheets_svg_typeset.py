"""A drawing as the typesetter sets it: taken whatever its words are, and as wide as we measured."""

import io
from typing import Any

import pytest
from pdfminer.high_level import extract_pages
from pdfminer.layout import LTChar

from ferrule.sheets.scene import NAME_MM, TEXT_MM, Point, Scene, Text
from ferrule.sheets.svg import svg
from ferrule.sheets.typeset import compiled
from ferrule.sheets.words import shortened
from sheets.hostile import HOSTILE

PAGE = """#set document(title: "drawings", date: datetime(year: 2026, month: 1, day: 1))
#set page(width: 200mm, height: 200mm, margin: 0mm)
#image("drawing.svg", alt: "words")
"""
POINTS = 72 / 25.4


def printed(*items: Text) -> bytes:
    drawing = svg(Scene(200.0, 200.0, items, "words"))
    return compiled({"main": PAGE.encode(), "drawing.svg": drawing.encode()})


def letters(found: Any) -> list[LTChar]:
    if isinstance(found, LTChar):
        return [found]
    return [each for inner in found for each in letters(inner)] if hasattr(found, "__iter__") else []


def test_whatever_the_words_are_the_typesetter_takes_them() -> None:
    items = [
        Text(Point(5.0, 5.0 + 8 * at), shortened(each, TEXT_MM, 180.0)) for at, each in enumerate(HOSTILE)
    ]
    assert printed(*items).startswith(b"%PDF")


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("words", ["Main board", "10 mm² at 30 °C", "L1 L2 L3 N PE", "INV1: 612 V ≤ 600 V"])
def test_words_are_as_wide_as_measured(words: str, bold: bool) -> None:
    """Kerning draws some letters nearer to each other, which we leave out: never more than 4 %."""
    text = Text(Point(20.0, 50.0), words, NAME_MM, bold=bold)
    (page,) = extract_pages(io.BytesIO(printed(text)))
    found = letters(page)
    assert len(found) >= len(words.replace(" ", ""))
    left, right = min(each.x0 for each in found) / POINTS, max(each.x1 for each in found) / POINTS
    assert left == pytest.approx(20.0, abs=0.2)
    assert 0.96 * text.box.width_mm <= right - left <= text.box.width_mm + 0.05
