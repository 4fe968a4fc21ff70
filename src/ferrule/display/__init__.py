"""Numbers, verdicts and workings as people read them. Nothing else in the program formats a number."""

from ferrule.display.choices import plainly, why
from ferrule.display.numbers import TIE, number, percent, quantity, tied, word
from ferrule.display.sentences import WORDS, comparison, filled, margin, measured, name, remedy, room
from ferrule.display.working import result_unit, working

__all__ = [
    "TIE", "WORDS", "comparison", "filled", "margin", "measured", "name", "number", "percent", "plainly",
    "quantity", "remedy", "result_unit", "room", "tied", "why", "word", "working",
]  # fmt: skip
