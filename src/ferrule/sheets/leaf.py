"""A drawing over one or more sheets: each framed and numbered, with notes beside the block."""

import math
from collections.abc import Sequence
from typing import NamedTuple

from ferrule.answering import Answer
from ferrule.sheets.frame import A4, LETTER, Frame, Page
from ferrule.sheets.framed import frame_of, framed
from ferrule.sheets.scene import TEXT_MM, Box, Item, Point, Scene, Text
from ferrule.sheets.texts import say
from ferrule.sheets.words import wrapped

UPRIGHT = Page(min(A4.width_mm, LETTER.width_mm), min(A4.height_mm, LETTER.height_mm))
"""What A4 and Letter have in common, so that one drawing fits both at its own size."""
ACROSS = UPRIGHT.across()

_PITCH_MM = 3.9
_PADDING_MM = 2.5
_GAP_MM = 6.0


class Leaf(NamedTuple):
    """One sheet before it is numbered: where one stands, what is drawn on it, and what is said beside it."""

    place: str
    items: tuple[Item, ...]
    notes: tuple[str, ...] = ()
    description: str = ""


def room(result: Answer, page: Page) -> Frame:
    """Where a drawing may lie on each of its sheets."""
    return frame_of(result, "", page)


def strip(free: Frame) -> Box:
    """What is free beside the block."""
    return Box(free.inside.left_mm, free.block.top_mm, free.block.left_mm, free.inside.bottom_mm)


def scenes(result: Answer, drawing: str, page: Page, leaves: Sequence[Leaf]) -> tuple[Scene, ...]:
    """The sheets of a drawing. Notes that find no room beside their block go on over sheets of their own."""
    free = room(result, page)
    full: list[Leaf] = []
    for leaf in leaves:
        written, rest = noted(strip(free), leaf.notes)
        full.append(leaf._replace(items=(*leaf.items, *written)))
        while rest:
            written, rest = noted(free.area, rest)
            full.append(Leaf(leaf.place, written, description=say("leaf.notes", of=drawing)))
    return tuple(
        _scene(result, drawing, page, leaf, number, len(full)) for number, leaf in enumerate(full, start=1)
    )


def _scene(result: Answer, drawing: str, page: Page, leaf: Leaf, number: int, of: int) -> Scene:
    made = frame_of(result, drawing, page, place=leaf.place, number=number, of=of)
    title = drawing if of == 1 else say("leaf.title", drawing=drawing, number=number, of=of)
    described = leaf.description or " ".join(leaf.notes) or title
    return framed(made, leaf.items, title, page, description=described)


def listing_mm(count: int) -> float:
    """How high a list is whose lines are short, in two columns."""
    return _PITCH_MM * math.ceil(count / 2) + 2 * _PADDING_MM + 0.5


def noted(box: Box, notes: Sequence[str]) -> tuple[tuple[Item, ...], tuple[str, ...]]:
    """Notes in two columns, none broken over both, and those for which there is no room."""
    width = (box.width_mm - 2 * _PADDING_MM - _GAP_MM) / 2
    lines = int((box.height_mm - 2 * _PADDING_MM) // _PITCH_MM)
    texts: list[Item] = []
    column, line = 0, 0
    for at, note in enumerate(notes):
        broken = wrapped(note, TEXT_MM, width, lines=min(6, lines))
        if line + len(broken) > lines:
            column, line = column + 1, 0
        if column > 1:
            return tuple(texts), tuple(notes[at:])
        for each in broken:
            left = box.left_mm + _PADDING_MM + column * (width + _GAP_MM)
            baseline = box.top_mm + _PADDING_MM + TEXT_MM + line * _PITCH_MM
            texts.append(Text(Point(left, baseline), each, TEXT_MM))
            line += 1
    return tuple(texts), ()


def spread(wanted_mm: Sequence[float], pitch_mm: float, low_mm: float, high_mm: float) -> list[float]:
    """Places for labels along an edge, in the order of where they want to be (which rises), no two nearer to
    each other than the pitch, within the bounds as long as there is room for all.
    """
    found: list[float] = []
    for wanted in wanted_mm:
        found.append(max(wanted, found[-1] + pitch_mm if found else low_mm))
    top = high_mm
    for at in range(len(found) - 1, -1, -1):
        if found[at] <= top:
            break
        found[at] = top
        top -= pitch_mm
    return found
