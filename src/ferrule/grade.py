"""How sure a figure is, and where it was printed."""

from enum import IntEnum
from typing import NamedTuple


class Grade(IntEnum):
    """How well a figure is supported; the lower the value, the weaker the support.

    `MEMORY`: nobody here has seen it printed. `SINGLE`: seen in one source. `VERIFIED`: seen in two or
    more sources that do not copy each other. `CONFIRMED`: a named person read it in his own copy.
    """

    MEMORY = 0
    SINGLE = 1
    VERIFIED = 2
    CONFIRMED = 3

    @property
    def word(self) -> str:
        return self.name.lower()


class Source(NamedTuple):
    """The place a figure comes from: document, its edition, and the table or clause in it."""

    document: str
    edition: str
    place: str

    def __str__(self) -> str:
        return " ".join(part for part in (f"{self.document}:{self.edition}".strip(":"), self.place) if part)
