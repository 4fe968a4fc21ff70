"""Texts as they may be printed: nothing cut, nothing that could act on what stands beside it."""

import re
import unicodedata
from collections.abc import Mapping

from ferrule.display import TIE, tied
from ferrule.sheets import font

BREAK = "\N{ZERO WIDTH SPACE}"
"""Where a long word may go on in the next line. The typesetter puts nothing there, not even this."""

_LONGEST = 16  # letters that a narrow column takes
_LONG = re.compile(rf"[^\s]{{{_LONGEST + 1},}}")
_JOINTS = re.compile(r"(?<=[./_\-@,;:])(?=\w)")
_PIECES = re.compile(rf"[^{BREAK}]{{1,{_LONGEST}}}")

# What the typesetter's own fonts have beyond ours: symbols, Hebrew, Arabic. A test sets them all.
_ALSO = frozenset(
    {
        *"☐☑✓→●○",
        *map(chr, range(0x5D0, 0x5EB)),
        *map(chr, range(0x621, 0x63B)),
        *map(chr, range(0x641, 0x64B)),
    }
)


def harmless(text: str) -> str:
    """A text as it is printed: white space is one space, what cannot be printed is spelled, a long word may
    break, and a number stays with its unit.
    """
    return _LONG.sub(_broken, tied(spelled(" ".join(text.split()))))


def spelled(text: str) -> str:
    """The text with every character that no font has, or that nobody sees, written as [U+202E]."""
    if text.isascii() and text.isprintable():
        return text
    known = font.advances()
    return "".join(each if _shown(each, known) else f"[U+{ord(each):04X}]" for each in text)


def _shown(each: str, known: Mapping[str, float]) -> bool:
    if each == "\n":
        return True
    if unicodedata.category(each) in {"Cc", "Cf", "Cs", "Co", "Cn"}:
        return False
    return each in known or each in _ALSO or each == TIE


def _broken(word: re.Match[str]) -> str:
    """A word with places to break: after its joints, and where a piece between them is long itself."""
    parts = _JOINTS.sub(BREAK, word.group()).split(BREAK)
    return BREAK.join(BREAK.join(_PIECES.findall(part)) for part in parts)
