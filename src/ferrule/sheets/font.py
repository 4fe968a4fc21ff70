"""The type on every sheet: which font, where its files lie, and how wide each of its characters is."""

import struct
from collections.abc import Mapping
from functools import cache
from importlib.util import find_spec
from pathlib import Path

FAMILY = "Fira Sans"
CAPITAL_HEIGHT = 0.689
"""Height of a capital letter as a share of the font size."""

_PACKAGE = "fontpkg_fira_sans"


def folder() -> Path:
    """Where the font's files lie, for whoever embeds them. Raises `ModuleNotFoundError`."""
    found = find_spec(_PACKAGE)
    if found is None or found.origin is None:
        raise ModuleNotFoundError(f"the font's package {_PACKAGE} is not installed")
    return Path(found.origin).parent / "files"


def file(*, bold: bool = False) -> Path:
    """One of the two files that the sheets use."""
    return folder() / f"FiraSans-{'Bold' if bold else 'Regular'}.ttf"


@cache
def advances(bold: bool = False) -> Mapping[str, float]:
    """Width of each character the font has, as a share of the font size.

    Read straight from the tables `cmap` (format 4) and `hmtx` (ISO/IEC 14496-22), since a whole font library
    takes longer to import than a drawing takes to make.
    """
    data = file(bold=bold).read_bytes()
    count = struct.unpack_from(">H", data, 4)[0]
    records = (struct.unpack_from(">4sLLL", data, 12 + 16 * at) for at in range(count))
    tables = {tag: offset for tag, _, offset, _ in records}
    em = struct.unpack_from(">H", data, tables[b"head"] + 18)[0]
    metrics = struct.unpack_from(">H", data, tables[b"hhea"] + 34)[0]
    widths = struct.unpack_from(f">{2 * metrics}H", data, tables[b"hmtx"])[::2]
    glyphs = _glyphs(data, tables[b"cmap"])
    return {chr(code): widths[min(glyph, metrics - 1)] / em for code, glyph in glyphs.items()}


def _glyphs(data: bytes, table: int) -> dict[int, int]:
    """The glyph of each code point, from the subtable for Windows and the basic plane."""
    count = struct.unpack_from(">H", data, table + 2)[0]
    encodings = (struct.unpack_from(">HHL", data, table + 4 + 8 * at) for at in range(count))
    start = next(table + offset for platform, encoding, offset in encodings if (platform, encoding) == (3, 1))
    segments = struct.unpack_from(">H", data, start + 6)[0] // 2
    ends = struct.unpack_from(f">{segments}H", data, start + 14)
    starts = struct.unpack_from(f">{segments}H", data, start + 16 + 2 * segments)
    deltas = struct.unpack_from(f">{segments}H", data, start + 16 + 4 * segments)
    at_ranges = start + 16 + 6 * segments
    ranges = struct.unpack_from(f">{segments}H", data, at_ranges)
    glyphs: dict[int, int] = {}
    for at, (first, last, delta, offset) in enumerate(zip(starts, ends, deltas, ranges, strict=True)):
        for code in range(first, min(last, 0xFFFE) + 1):
            glyph = code
            if offset:
                glyph = struct.unpack_from(">H", data, at_ranges + 2 * at + offset + 2 * (code - first))[0]
            if glyph:
                glyphs[code] = (glyph + delta) & 0xFFFF
    return glyphs
