"""What is wrong in a file: where, what was found, what is allowed, and the word that was perhaps meant."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

#: The way to a value through a file's own keys and list positions: ("runs", 3, "from").
Path = tuple[str | int, ...]

_SHOWN_PROBLEMS = 100
_SHOWN_WORDS = 40


class Problem(NamedTuple):
    """One mistake; lines and columns count from 1."""

    source: str
    line: int
    column: int
    found: str
    allowed: str
    hint: str = ""

    def __str__(self) -> str:
        hint = f"; did you mean {quoted(self.hint)}?" if self.hint else ""
        return f"{self.source}:{self.line}:{self.column}: found {self.found}; allowed: {self.allowed}{hint}"


class Unreadable(Exception):
    """A file, or several, that cannot be used; `problems` holds every reason, in the file's order."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = list(problems)
        super().__init__(self.problems)

    def __str__(self) -> str:
        lines = [str(problem) for problem in self.problems[:_SHOWN_PROBLEMS]]
        more = len(self.problems) - len(lines)
        return "\n".join([*lines, f"and {more} more"] if more else lines)


def nearest(word: str, known: Sequence[str]) -> list[str]:
    """The `known` words, those most like `word` first; only likely ones count as near.

    >>> nearest("lenght", ["id", "length"])
    ['length']
    """
    from difflib import get_close_matches

    by_folded = {each.lower(): each for each in known}
    return [by_folded[near] for near in get_close_matches(word.lower()[:80], by_folded, n=3)]


def mistyped(found: str, allowed: str, known: Sequence[str]) -> tuple[str, str]:
    """`allowed` with the known words listed, nearest to `found` first; and the hint, empty if none is."""
    near = nearest(found, known)
    words = list(dict.fromkeys([*near, *known]))
    more = [f"and {len(words) - _SHOWN_WORDS} more"] if len(words) > _SHOWN_WORDS else []
    listed = ", ".join([*words[:_SHOWN_WORDS], *more]) or "none"
    return f"{allowed}: {listed}" if allowed else listed, near[0] if near else ""


def quoted(text: str) -> str:
    """A text as a message shows it."""
    return f"'{cut(text)}'"


def cut(text: str) -> str:
    """A text on one line and not too long."""
    line = " ".join(text.split())
    return line if len(line) <= 60 else f"{line[:59]}…"
