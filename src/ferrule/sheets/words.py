"""Words before they are drawn: made harmless, measured, wrapped or shortened so that none is ever clipped."""

import unicodedata
from collections.abc import Iterator

from ferrule.sheets import font

ELLIPSIS = "…"
"""Stands where words were left out; the whole text is in the job."""

_UNKNOWN_WIDTH = 1.0  # em, of what the font lacks: as wide as most scripts get, so that nothing is too narrow


def plain(words: str) -> str:
    """The words on one line without what no paper shows: control characters, marks that turn the direction of
    reading, surrogates, code points without a character.
    """
    if words.isprintable() and "  " not in words and words == words.strip():
        return words
    shown = "".join(each if each.isprintable() else " " * each.isspace() for each in words)
    return " ".join(shown.split())


def width_mm(words: str, height_mm: float, *, bold: bool = False) -> float:
    """How wide the words are at a height of capitals, in mm, without kerning (which mostly narrows)."""
    widths = font.advances(bold)
    try:
        ems = sum([widths[each] for each in words])
    except KeyError:
        ems = sum([widths[each] if each in widths else _unknown(each) for each in words])
    return ems * height_mm / font.CAPITAL_HEIGHT


def _unknown(character: str) -> float:
    return 0.0 if unicodedata.combining(character) else _UNKNOWN_WIDTH


def shortened(words: str, height_mm: float, room_mm: float, *, bold: bool = False) -> str:
    """The words as far as they fit the room, with an ellipsis where some are left out."""
    words = plain(words)
    if width_mm(words, height_mm, bold=bold) <= room_mm:
        return words
    low, high = 0, len(words)
    while high - low > 1:
        middle = (low + high) // 2
        fits = width_mm(words[:middle] + ELLIPSIS, height_mm, bold=bold) <= room_mm
        low, high = (middle, high) if fits else (low, middle)
    return words[:low].rstrip() + ELLIPSIS


def wrapped(
    words: str, height_mm: float, room_mm: float, *, lines: int, bold: bool = False
) -> tuple[str, ...]:
    """The words over at most so many lines of the room's width, broken between words, or within one that is
    longer than a line; what does not fit into the last line is left out behind an ellipsis.
    """
    broken: list[str] = []
    rest = plain(words)
    while rest and len(broken) < lines - 1:
        line = _line(rest, height_mm, room_mm, bold)
        broken.append(line.rstrip())
        rest = rest[len(line) :].lstrip()
    return (*broken, shortened(rest, height_mm, room_mm, bold=bold)) if rest else tuple(broken)


def _line(words: str, height_mm: float, room_mm: float, bold: bool) -> str:
    """As many whole words as fit, else as much of the first as fits, else one character."""
    if width_mm(words, height_mm, bold=bold) <= room_mm:
        return words
    fitting = 1
    for end, width in enumerate(_widths(words, height_mm, bold), start=1):
        if width > room_mm:
            break
        fitting = end
    space = words.rfind(" ", 0, fitting + 1)
    return words[: space + 1] if space > 0 else words[:fitting]


def _widths(words: str, height_mm: float, bold: bool) -> Iterator[float]:
    total = 0.0
    for each in words:
        total += width_mm(each, height_mm, bold=bold)
        yield total
