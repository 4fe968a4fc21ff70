"""The frame of a sheet: margins, a block that says what it is, and whether it may be built from."""

from typing import NamedTuple

from ferrule.sheets.scene import (
    FINE,
    MEDIUM,
    NAME_MM,
    SMALL_MM,
    TEXT_MM,
    Box,
    Item,
    Line,
    Point,
    Rectangle,
    Text,
    line,
)
from ferrule.sheets.texts import say
from ferrule.sheets.words import shortened, wrapped

MARGIN_MM = 10.0
BLOCK_WIDTH_MM = 60.0
HEAD_MM = 7.5
"""Height of the strip that says a sheet is not cleared."""

_PADDING_MM = 1.5
_ROW_MM = 8.0
_NAME_ROW_MM = 14.0


class Page(NamedTuple):
    """A size of paper, upright."""

    width_mm: float
    height_mm: float

    def across(self) -> "Page":
        return Page(self.height_mm, self.width_mm)


A4 = Page(210.0, 297.0)
"""ISO 216."""
LETTER = Page(215.9, 279.4)
"""ANSI/ASME Y14.1, size A."""


class Sheet(NamedTuple):
    """What the block says. The date is given by whoever asks for the sheet, never by the clock; `place` and
    `date` may be empty.
    """

    drawing: str
    job: str
    edition: str
    revision: str
    cleared: bool
    place: str = ""
    date: str = ""
    number: int = 1
    of: int = 1


class Frame(NamedTuple):
    """What to draw around a drawing, and where the drawing may lie: `outline` bounds everything, `inside` is
    what the head leaves of it, `block` the part that says what the sheet is, `area` what is free above that.
    """

    items: tuple[Item, ...]
    outline: Box
    inside: Box
    block: Box
    area: Box


def frame(page: Page, sheet: Sheet) -> Frame:
    """The frame of one sheet on one page."""
    outline = Box(0.0, 0.0, page.width_mm, page.height_mm).grown(-MARGIN_MM)
    top = outline.top_mm if sheet.cleared else outline.top_mm + HEAD_MM
    inside = outline._replace(top_mm=top)
    rows = _rows(sheet)
    height = _NAME_ROW_MM + _ROW_MM * len(rows)
    block = Box(
        outline.right_mm - BLOCK_WIDTH_MM, outline.bottom_mm - height, outline.right_mm, outline.bottom_mm
    )
    items = (
        Rectangle(outline, MEDIUM, "frame"),
        *(() if sheet.cleared else _warning(outline)),
        *_block(block, sheet.drawing, rows),
    )
    return Frame(items, outline, inside, block, inside._replace(bottom_mm=block.top_mm))


def _rows(sheet: Sheet) -> list[list[tuple[str, str]]]:
    """The fields under the name of the drawing, row by row: what each is, and what it says."""
    return [
        [(say("frame.job"), sheet.job)],
        [(say("frame.place"), sheet.place)],
        [(say("frame.revision"), sheet.revision), (say("frame.edition"), sheet.edition)],
        [
            (say("frame.date"), sheet.date),
            (say("frame.sheet"), say("frame.number", number=sheet.number, of=sheet.of)),
        ],
    ]


def _warning(outline: Box) -> tuple[Item, ...]:
    bottom = outline.top_mm + HEAD_MM
    words = Text(
        Point(outline.middle.x_mm, outline.top_mm + HEAD_MM / 2),
        say("pack.band").upper(),
        NAME_MM,
        "middle",
        "middle",
        bold=True,
        layer="frame",
    )
    return (_ruled(outline.left_mm, bottom, outline.right_mm), words)


def _block(block: Box, drawing: str, rows: list[list[tuple[str, str]]]) -> tuple[Item, ...]:
    left, right = block.left_mm, block.right_mm
    room = block.width_mm - 2 * _PADDING_MM
    names = wrapped(drawing, NAME_MM, room, lines=2, bold=True)
    items: list[Item] = [Rectangle(block, MEDIUM, "frame")]
    for at, name in enumerate(names):
        baseline = block.top_mm + 2.0 + NAME_MM + at * 5.5
        items.append(Text(Point(left + _PADDING_MM, baseline), name, NAME_MM, bold=True, layer="frame"))
    for at, row in enumerate(rows):
        top = block.top_mm + _NAME_ROW_MM + at * _ROW_MM
        items.append(_ruled(left, top, right))
        width = block.width_mm / len(row)
        for column, (what, says) in enumerate(row):
            items += _field(Point(left + column * width, top), width, what, says)
            if column:
                x = left + column * width
                items.append(line((x, top), (x, top + _ROW_MM), pen=FINE, layer="frame"))
    return tuple(items)


def _field(corner: Point, width_mm: float, what: str, says: str) -> tuple[Text, ...]:
    x, room = corner.x_mm + _PADDING_MM, width_mm - 2 * _PADDING_MM
    shown = shortened(says, TEXT_MM, room)
    return (
        Text(Point(x, corner.y_mm + 1.0 + SMALL_MM), what, SMALL_MM, layer="frame"),
        Text(Point(x, corner.y_mm + _ROW_MM - 1.3), shown, TEXT_MM, layer="frame"),
    )


def _ruled(left_mm: float, y_mm: float, right_mm: float) -> Line:
    return line((left_mm, y_mm), (right_mm, y_mm), pen=FINE, layer="frame")
