"""What the texts of site work are filled with, before any language puts it into words."""

from collections.abc import Iterator
from typing import NamedTuple

from ferrule.fact import Unknown
from ferrule.quantity import Size


class Term(NamedTuple):
    """A word or phrase of the catalogue, by its key, with what it is filled with in its turn."""

    key: str
    words: tuple[tuple[str, "Word"], ...] = ()


#: ids and names as they are, quantities in the unit their name ends in, sizes, what is not known yet, phrases
#: of the catalogue, and lists of all these
Word = str | float | Size | Unknown | Term | tuple["Word", ...]
Words = tuple[tuple[str, Word], ...]


def asks(word: Word) -> Iterator[str]:
    """What has to be found out before a word is whole."""
    if isinstance(word, Unknown):
        yield word.ask
    elif isinstance(word, Term):
        yield from (ask for _, inner in word.words for ask in asks(inner))
    elif isinstance(word, tuple):
        yield from (ask for inner in word for ask in asks(inner))


def named(kind: str, fact: str | Unknown) -> Word:
    """A fact as the catalogue names it, or what has to be found out."""
    return fact if isinstance(fact, Unknown) else Term(f"{kind}.{fact}")


def spot(terminal: str) -> Word:
    """A terminal by its id; the origin of the supply by its name in the catalogue."""
    return Term("area.supply") if terminal == "supply" else terminal
