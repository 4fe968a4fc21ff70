"""One edition's limits and tables, as a working reads them."""

import hashlib
from collections.abc import Callable, Mapping
from typing import NamedTuple, TypeVar

from ferrule.grade import Grade, Source
from ferrule.rules.entry import Entry, Figure, RulebookError, Series, Table, Value
from ferrule.working import Bound, Read

E = TypeVar("E", Table, Figure, Series)


_MOST_READS = 10_000


class Confirmation(NamedTuple):
    """Who read a figure in his own copy of the document, when, on which page, and what he read there."""

    by: str
    date: str
    page: str
    value: str


class Rulebook:
    """A dated rulebook; it is what a trace reads from.

    `digest` changes with every byte of the data and with every confirmation given.
    """

    __slots__ = (
        "_confirmed", "_entries", "_names", "_parse", "_reads", "digest", "edition", "family", "title",
    )  # fmt: skip

    def __init__(
        self,
        *,
        edition: str,
        title: str,
        family: str,
        digest: str,
        names: tuple[str, ...],
        parse: Callable[[str], Entry],
    ) -> None:
        self.edition = edition
        self.title = title
        self.family = family
        self.digest = digest
        self._names = names
        self._parse = parse
        self._entries: dict[str, Entry] = {}
        self._reads: dict[tuple[str, Value | None, Value | None], Read] = {}
        self._confirmed: Mapping[str, Confirmation] = {}

    def confirmed_by(self, confirmed: Mapping[str, Confirmation]) -> "Rulebook":
        """The same rulebook with what persons confirmed of it, by name of figure, table or cell."""
        digest = hashlib.sha256(f"{self.digest}{sorted(confirmed.items())}".encode()).hexdigest()
        other = Rulebook(
            edition=self.edition,
            title=self.title,
            family=self.family,
            digest=digest,
            names=self._names,
            parse=self.entry,
        )
        other._confirmed = confirmed
        return other

    def cell(self, table: str, row: Value, column: Value | None = None) -> Read:
        """The cell of a table, by its stated rule between rows. Raises `NotPrinted`."""
        key = (table, row, column)
        read = self._reads.get(key)
        if read is None:
            entry = self._of(table, Table)
            read = self._keep(key, self._lifted(entry.cell(row, column), entry))
        return read

    def figure(self, name: str, bound: Bound | None = None) -> Read:
        """A single figure. Raises `RulebookError` if it is disputed and no bound is named."""
        key = (name, bound, None)
        read = self._reads.get(key)
        if read is None:
            entry = self._of(name, Figure)
            read = self._keep(key, self._lifted(entry.read(bound), entry))
        return read

    def _keep(self, key: tuple[str, Value | None, Value | None], read: Read) -> Read:
        """Remember a reading: one job asks for the same cells hundreds of times, a server for ever."""
        if len(self._reads) >= _MOST_READS:
            self._reads.clear()
        self._reads[key] = read
        return read

    def series(self, name: str) -> Series:
        """Preferred sizes or ratings."""
        entry = self._of(name, Series)
        by = self._confirmation(name, entry.fingerprint()) if self._confirmed else None
        return entry._replace(grade=Grade.CONFIRMED, source=_read_by(entry.source, by)) if by else entry

    def names(self) -> tuple[str, ...]:
        """The names of everything it holds, in the order of the files."""
        return self._names

    def entry(self, name: str) -> Entry:
        """An entry as it stands in the file. Raises `RulebookError` if there is none or it is faulty."""
        entry = self._entries.get(name)
        if entry is None:
            if name not in self._names:
                raise RulebookError(f"rulebook {self.edition} holds no '{name}'")
            entry = self._entries[name] = self._parse(name)
        return entry

    def _of(self, name: str, kind: type[E]) -> E:
        entry = self.entry(name)
        if not isinstance(entry, kind):
            raise RulebookError(f"{name} in rulebook {self.edition} is no {kind.__name__.lower()}")
        return entry

    def _lifted(self, read: Read, entry: Table | Figure) -> Read:
        """The reading with the grade `confirmed` and the reader's name, if a person confirmed it."""
        if not self._confirmed:
            return read
        cell = f"{read.table}[{','.join(read.keys)}]"
        by = self._confirmation(cell, str(read.value)) or self._confirmation(read.table, entry.fingerprint())
        return read._replace(grade=Grade.CONFIRMED, source=_read_by(read.source, by)) if by else read

    def _confirmation(self, name: str, value: str) -> Confirmation | None:
        """What a person confirmed; None where the rulebook changed since, for he read another value."""
        found = self._confirmed.get(name)
        return found if found and found.value == value else None


def _read_by(source: Source, by: Confirmation) -> Source:
    return source._replace(place=f"{source.place}, read by {by.by} on {by.date}, {by.page}")
