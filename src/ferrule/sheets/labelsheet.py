"""Labels on paper: the schedule, and sheets on which each stands at its true size."""

from collections.abc import Iterator
from typing import NamedTuple

from ferrule.answering import Answer
from ferrule.display import number
from ferrule.fact import Missing
from ferrule.sheets.frame import Frame, Page, Sheet, frame
from ferrule.sheets.labels import Label, labels
from ferrule.sheets.paper import Block, Checklist, Drawing, Group, Grouped, Heading
from ferrule.sheets.paper import Item as ToTick
from ferrule.sheets.scene import (
    FINE,
    SMALL_MM,
    TEXT_MM,
    Box,
    Item,
    Point,
    Polygon,
    Rectangle,
    Scene,
    Text,
    line,
)
from ferrule.sheets.table import Column, Table, table
from ferrule.sheets.texts import say
from ferrule.sheets.words import width_mm, wrapped

_PAGE = Page(174.0, 230.0)
"""Fits between the margins of A4 and Letter, so that nobody scales it."""
_WIDEST_MM, _OF_HEIGHT = 146.0, 22.0
"""A label is no wider than this, which a sheet has room for; its words run no wider than so many heights."""
_LEADING, _PAD = 1.6, 0.8
"""From line to line, and around the words, as shares of the height of capitals."""
_SIGN_MM = 14.0
"""Height of a safety sign beside words."""
_LINES = 30
_GAP_MM, _CAPTION_MM, _CAPTION_ROW_MM = 5.0, 34.0, 2.9
"""Between labels; least width and line pitch of what is written below one."""
_CONTROL_MM = 100.0


class Shaped(NamedTuple):
    """A label as it is made: its lines, and how wide and high it is."""

    lines: tuple[str, ...]
    width_mm: float
    height_mm: float


def shaped(label: Label) -> Shaped:
    """A label's words over as many lines as they need; none is left out."""
    height_mm = label.height_mm
    pad_mm = _PAD * height_mm
    room_mm = min(_WIDEST_MM - 2 * pad_mm, _OF_HEIGHT * height_mm) - (_SIGN_MM + 2 if label.sign else 0.0)
    lines = wrapped(label.text, height_mm, room_mm, lines=_LINES, bold=True)
    wide_mm = max((width_mm(each, height_mm, bold=True) for each in lines), default=0.0)
    tall_mm = height_mm * (1 + _LEADING * (len(lines) - 1)) if lines else height_mm
    if label.sign:
        wide_mm, tall_mm = wide_mm + _SIGN_MM + 2.0, max(tall_mm, _SIGN_MM)
    return Shaped(lines, _up(wide_mm + 2 * pad_mm), _up(tall_mm + 2 * pad_mm))


def _up(value_mm: float) -> float:
    """Up to the next whole millimetre."""
    return float(-(-value_mm // 1))


def listed(result: Answer, language: str = "en") -> Table:
    """The label schedule, which a label printer takes, too: one row a label with its number of copies."""
    columns = (
        Column("name", say("labels.name"), width=14),
        Column("text", say("labels.text"), width=60),
        Column("language", say("labels.language"), width=8),
        Column("width", say("labels.width"), width=8, kind="number", unit="mm", digits=0),
        Column("height", say("labels.height"), width=8, kind="number", unit="mm", digits=0),
        Column("letters", say("labels.letters"), width=8, kind="number", unit="mm", digits=1),
        Column("ink", say("labels.ink"), width=8),
        Column("ground", say("labels.ground"), width=8),
        Column("sign", say("labels.sign"), width=8),
        Column("copies", say("labels.copies"), width=8, kind="count"),
        Column("place", say("ends.place"), width=9),
        Column("at", say("ends.at"), width=20),
        Column("source", say("labels.source"), width=36),
        Column("find_out", say("labels.find_out"), width=30),
    )
    found, asks = _found(result, language)
    return table("labels", say("labels.list"), columns, (_row(each) for each in found), asks)


def _row(label: Label) -> tuple[str | float | int, ...]:
    shape = shaped(label)
    count: str | int = say("labels.unknown") if label.copies is None else label.copies
    return (
        label.name, label.text, label.language, shape.width_mm, shape.height_mm, label.height_mm, label.ink,
        label.ground, label.sign, count, label.place, label.at, f"{label.source} ({label.grade.word})",
        "; ".join(label.find_out),
    )  # fmt: skip


def _found(result: Answer, language: str) -> tuple[list[Label], tuple[str, ...]]:
    """The labels, or what the rulebook lacks to tell them."""
    try:
        return labels(result, language), ()
    except Missing as missing:
        return [], tuple(say("labels.ask", ask=ask) for ask in missing.asks)


class _Made(NamedTuple):
    """Labels alike, with all that bear one."""

    label: Label
    at: tuple[str, ...]
    copies: int | None


def _alike(found: list[Label]) -> list[_Made]:
    groups: dict[tuple[str, str, str, str, str], list[Label]] = {}
    for each in found:
        groups.setdefault((each.name, each.text, each.ink, each.ground, each.sign), []).append(each)
    made = []
    for alike in groups.values():
        counts = [each.copies for each in alike]
        total = None if None in counts else sum(each for each in counts if each is not None)
        made.append(_Made(alike[0], tuple(dict.fromkeys(each.at for each in alike)), total))
    return made


def schedule(result: Answer) -> Iterator[tuple[str, Block]]:
    """The schedule and the sheets, in a chapter of their own."""
    found, asks = _found(result, "en")
    asks = (
        *asks,
        *(say("labels.ask", ask=ask) for ask in dict.fromkeys(a for each in found for a in each.find_out)),
    )
    if asks:
        yield "labels", Checklist(tuple(ToTick(ask) for ask in asks))
    made = _alike(found)
    if made:
        yield "labels", Heading(say("labels.list"))
        columns = ((say("labels.text"), 46), (say("labels.on"), 30), (say("labels.copies"), 10),
                   (say("labels.look"), 26), (say("labels.done"), 10))  # fmt: skip
        groups: dict[str, list[tuple[str | None, ...]]] = {}
        for each in made:
            groups.setdefault(str(each.label.source), []).append(_told(each))
        told = tuple(Group(source, (), tuple(rows)) for source, rows in groups.items())
        yield "labels", Grouped(columns, told, (say("labels.note"),))
    for at, scene in enumerate(sheets(result, made), 1):
        yield "labels", Drawing(f"label-sheet-{at}", scene)


def _told(made: _Made) -> tuple[str | None, ...]:
    label, shape = made.label, shaped(made.label)
    sign = f", {label.sign}" if label.sign else ""
    look = say(
        "labels.looks", ink=label.ink, ground=label.ground, sign=sign, letters=number(label.height_mm),
        width=number(shape.width_mm), height=number(shape.height_mm),
    )  # fmt: skip
    count = "?" if made.copies is None else str(made.copies)
    return (label.text, ", ".join(made.at), count, look, None)


def sheets(result: Answer, made: list[_Made]) -> list[Scene]:
    """Every different label once, at its true size, the tall ones first; below it how many and on what."""
    pages: list[list[Item]] = []
    framed = _framed(result, 1, 1)
    area = framed.inside.grown(-3.0)
    x, y, tall = area.left_mm, 0.0, 0.0
    for each in sorted(made, key=lambda each: -each.label.height_mm):
        shape = shaped(each.label)
        wide = max(shape.width_mm, _CAPTION_MM)
        caption = _caption(each, wide)
        high = shape.height_mm + 1.0 + _CAPTION_ROW_MM * len(caption)
        if x + wide > _right_mm(framed, area, y + high):
            x, y, tall = area.left_mm, y + tall + _GAP_MM, 0.0
        if not pages or y + high > area.bottom_mm or x + wide > _right_mm(framed, area, y + high):
            pages.append(list(_control(area)))
            x, y, tall = area.left_mm, area.top_mm + 11.0, 0.0
        pages[-1] += _drawn(each.label, shape, caption, Point(x, y))
        x, tall = x + wide + _GAP_MM, max(tall, high)
    return [
        Scene(
            _PAGE.width_mm, _PAGE.height_mm, (*_framed(result, at, len(pages)).items, *items),
            say("labels.sheet"), say("labels.sheet_description"),
        )
        for at, items in enumerate(pages, 1)
    ]  # fmt: skip


def _right_mm(framed: Frame, area: Box, bottom_mm: float) -> float:
    """How far to the right labels may reach that go so far down: the block takes a corner."""
    return area.right_mm if bottom_mm <= framed.block.top_mm - 1.0 else framed.block.left_mm - 3.0


def _framed(result: Answer, at: int, of: int) -> Frame:
    sheet = Sheet(
        say("labels.sheet"), result.loaded.job.name, result.code.rulebook.edition,
        result.loaded.revision[:12], result.cleared, number=at, of=of,
    )  # fmt: skip
    return frame(_PAGE, sheet)


def _control(area: Box) -> Iterator[Item]:
    """A line by which one sees whether a printer has scaled the sheet."""
    y = area.top_mm + 2.0
    left, right = area.left_mm, area.left_mm + _CONTROL_MM
    yield line((left, y), (right, y), pen=FINE, layer="dimension")
    for x in (left, right):
        yield line((x, y - 1.5), (x, y + 1.5), pen=FINE, layer="dimension")
    words = say("labels.control", length=number(_CONTROL_MM))
    yield Text(Point(left, y + 5.0), words, TEXT_MM)


def _caption(made: _Made, room_mm: float) -> tuple[str, ...]:
    count = "?" if made.copies is None else str(made.copies)
    label = made.label
    words = say("labels.caption", count=count, ink=label.ink, ground=label.ground, at=", ".join(made.at))
    return wrapped(words, SMALL_MM, room_mm, lines=3)


def _drawn(label: Label, shape: Shaped, caption: tuple[str, ...], corner: Point) -> Iterator[Item]:
    left, top = corner
    box = Box(left, top, left + shape.width_mm, top + shape.height_mm)
    yield Rectangle(box, FINE)
    pad_mm, height_mm = _PAD * label.height_mm, label.height_mm
    text_left = left + pad_mm
    if label.sign:
        yield from _sign(Point(left + pad_mm, box.middle.y_mm - _SIGN_MM / 2))
        text_left += _SIGN_MM + 2.0
    tall_mm = height_mm * (1 + _LEADING * (len(shape.lines) - 1))
    first = box.middle.y_mm - tall_mm / 2 + height_mm
    for at, words in enumerate(shape.lines):
        base = Point(text_left, first + at * height_mm * _LEADING)
        yield Text(base, words, height_mm, bold=True)
    for at, words in enumerate(caption):
        yield Text(Point(left, box.bottom_mm + 1.0 + SMALL_MM + at * _CAPTION_ROW_MM), words, SMALL_MM)


def _sign(corner: Point) -> Iterator[Item]:
    """The warning of electricity, after W012 of ISO 7010: a flash in a triangle."""
    x, y = corner
    side = _SIGN_MM
    triangle = ((x, y + 0.93 * side), (x + side / 2, y + 0.07 * side), (x + side, y + 0.93 * side))
    yield line(*triangle, triangle[0], pen=FINE._replace(width_mm=0.8), layer="device")
    flash = ((0.53, 0.34), (0.40, 0.62), (0.50, 0.60), (0.45, 0.76), (0.41, 0.75), (0.46, 0.86), (0.55, 0.77),
             (0.51, 0.77), (0.60, 0.53), (0.49, 0.55), (0.57, 0.36))  # fmt: skip
    yield Polygon(tuple(Point(x + a * side, y + b * side) for a, b in flash))
