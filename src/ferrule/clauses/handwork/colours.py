"""Colours of conductors: every country has its list, and all are read alike."""

from collections.abc import Sequence

from ferrule.working import Tables

_OTHERS = ("N", "PE", "plus", "minus", "PEN")


class ByName:
    """A line by its place among the lines of its lead; a lead of one line has the first colour."""

    needs = ("colours_of_lines", "colours_of_others", "colours_of_old_lines", "colours_of_old_neutral")

    def colour(self, tables: Tables, *, core: str, lines: Sequence[str]) -> str:
        """The colour of a line (one of `lines`), of N, PE, PEN, plus or minus; empty for any other core."""
        if core in lines:
            return tables.series("colours_of_lines").words()[lines.index(core)]
        name = "PE" if core in {"PE", "PE2"} else core
        return tables.series("colours_of_others").words()[_OTHERS.index(name)] if name in _OTHERS else ""

    def old_lines(self, tables: Tables) -> tuple[str, ...]:
        """Colours of lines that an older house may have."""
        return tables.series("colours_of_old_lines").words()

    def old_neutral(self, tables: Tables) -> tuple[str, ...]:
        """Colours of a neutral that an older house may have."""
        return tables.series("colours_of_old_neutral").words()
