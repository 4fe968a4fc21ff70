"""Numbers, verdicts and workings as people read them. Nothing else in the program formats a number."""

from ferrule.display.choices import why
from ferrule.display.numbers import SYMBOLS, number, percent, quantity, word
from ferrule.display.sentences import WORDS, comparison, filled, margin, measured, name, remedy, room
from ferrule.display.working import result_unit, working

__all__ = [
    "SYMBOLS", "WORDS", "comparison", "filled", "margin", "measured", "name", "number", "percent", "quantity",
    "remedy", "result_unit", "room", "why", "word", "working",
]  # fmt: skip
