"""What is asked about the colours of conductors."""

from collections.abc import Sequence
from typing import Protocol

from ferrule.clauses.procedures.base import Procedure
from ferrule.working import Tables


class Colours(Procedure, Protocol):
    """By which colour a conductor is known."""

    def colour(self, tables: Tables, *, core: str, lines: Sequence[str]) -> str:
        """The colour of a line (one of `lines`), of N, PE, PEN, plus or minus; empty for any other core."""
        ...

    def old_lines(self, tables: Tables) -> tuple[str, ...]:
        """Colours of lines that an older house may have."""
        ...

    def old_neutral(self, tables: Tables) -> tuple[str, ...]:
        """Colours of a neutral that an older house may have."""
        ...
