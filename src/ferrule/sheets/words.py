"""Words before they are drawn: made harmless, measured, wrapped or shortened so that none is ever clipped."""

import unicodedata

from ferrule.sheets import font
from ferrule.sheets.harmless import spelled

ELLIPSIS = "…"
"""Stands where words were left out; the whole text is in the job."""

# Shares of the font size, of a sign that the font lacks and of any other beside it: as wide as most fonts
# make them, so that no room is too narrow.
_UNKNOWN, _OTHER_FONT = 1.0, 0.61


def plain(words: str) -> str:
    """The words on one line, with what no font has or nobody sees spelled out: control characters, marks that
    turn the direction of reading, code points without a character.
    """
    shown = spelled(unicodedata.normalize("NFC", " ".join(words.split())))
    if shown.isascii():
        return shown
    # The typesetter takes no picture with a mark over a letter that is not one sign with it.
    return "".join(f"[U+{ord(each):04X}]" if unicodedata.category(each)[0] == "M" else each for each in shown)


def width_mm(words: str, height_mm: float, *, bold: bool = False) -> float:
    """How wide the words are at a height of capitals, in mm, without kerning (which mostly narrows)."""
    widths = font.advances(bold)
    try:
        ems = sum([widths[each] for each in words])
    except KeyError:
        # What shows a page may then set all of the words in the font that has the sign.
        ems = sum([max(widths[each], _OTHER_FONT) if each in widths else _UNKNOWN for each in words])
    return ems * height_mm / font.CAPITAL_HEIGHT


def shortened(words: str, height_mm: float, room_mm: float, *, bold: bool = False) -> str:
    """The words as far as they fit the room, with an ellipsis where some are left out."""
    words = plain(words)
    if width_mm(words, height_mm, bold=bold) <= room_mm:
        return words
    return words[: _fitting(words, ELLIPSIS, height_mm, room_mm, bold)].rstrip() + ELLIPSIS


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
    fitting = max(_fitting(words, "", height_mm, room_mm, bold), 1)
    space = words.rfind(" ", 0, fitting + 1)
    return words[: space + 1] if space > 0 else words[:fitting]


def _fitting(words: str, then: str, height_mm: float, room_mm: float, bold: bool) -> int:
    """How many of the characters fit with what comes then."""
    low, high = 0, len(words) + 1
    while high - low > 1:
        middle = (low + high) // 2
        fits = width_mm(words[:middle] + then, height_mm, bold=bold) <= room_mm
        low, high = (middle, high) if fits else (low, middle)
    return low
