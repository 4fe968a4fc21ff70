"""Colour, marks and width for a terminal; no colour where the output goes elsewhere."""

import os
import sys
import textwrap
from collections.abc import Iterator
from shutil import get_terminal_size
from typing import NamedTuple

from ferrule.constraint import Verdict
from ferrule.display import TIE, tied

_COLOURS = {Verdict.PASS: "32", Verdict.CAUTION: "33", Verdict.UNKNOWN: "34", Verdict.FAIL: "1;31"}
_NARROWEST, _WIDEST = 60, 110

#: a short piece of the line from roof to grid, in the state it is in there
MARKS = {
    Verdict.PASS: "━●━",
    Verdict.CAUTION: "━○━",
    Verdict.UNKNOWN: "┅┅┅",
    Verdict.FAIL: "━╱╱",
}


class Paint(NamedTuple):
    """Whether to colour, and how many columns there are."""

    colour: bool = False
    width: int = _WIDEST

    @classmethod
    def for_terminal(cls) -> "Paint":
        """Colour only on a terminal, and not where NO_COLOR asks for none (no-color.org)."""
        columns = get_terminal_size((_WIDEST, 0)).columns
        return cls(
            colour=sys.stdout.isatty() and not os.environ.get("NO_COLOR"),
            width=min(max(columns, _NARROWEST), _WIDEST),
        )

    def verdict(self, verdict: Verdict, text: str) -> str:
        return self._in(_COLOURS[verdict], text)

    def quiet(self, text: str) -> str:
        return self._in("2", text)

    def strong(self, text: str) -> str:
        return self._in("1", text)

    def _in(self, code: str, text: str) -> str:
        return f"\x1b[{code}m{text}\x1b[0m" if self.colour else text

    def wrapped(self, text: str, indent: int, hanging: int | None = None) -> Iterator[str]:
        """The text in lines of this width; a number stays with its unit."""
        lines = textwrap.wrap(
            tied(text),
            self.width,
            initial_indent=" " * indent,
            subsequent_indent=" " * (indent if hanging is None else hanging),
            break_long_words=False,
            break_on_hyphens=False,
        )
        return (line.replace(TIE, " ") for line in lines)
