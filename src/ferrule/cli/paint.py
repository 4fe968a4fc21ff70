"""Colour and marks for a terminal; none where the output goes elsewhere."""

import os
import sys
from dataclasses import dataclass

from ferrule.constraint import Verdict

_COLOURS = {Verdict.PASS: "32", Verdict.CAUTION: "33", Verdict.UNKNOWN: "34", Verdict.FAIL: "1;31"}

#: a short piece of the line from roof to grid, in the state it is in there
MARKS = {
    Verdict.PASS: "━●━",
    Verdict.CAUTION: "━○━",
    Verdict.UNKNOWN: "┅┅┅",
    Verdict.FAIL: "━╱╱",
}


@dataclass(frozen=True)
class Paint:
    """Whether to colour."""

    colour: bool

    @classmethod
    def for_terminal(cls) -> "Paint":
        """Colour only on a terminal, and not where NO_COLOR asks for none."""
        return cls(sys.stdout.isatty() and "NO_COLOR" not in os.environ)

    def verdict(self, verdict: Verdict, text: str) -> str:
        return f"\x1b[{_COLOURS[verdict]}m{text}\x1b[0m" if self.colour else text

    def quiet(self, text: str) -> str:
        return f"\x1b[2m{text}\x1b[0m" if self.colour else text

    def strong(self, text: str) -> str:
        return f"\x1b[1m{text}\x1b[0m" if self.colour else text
