"""Confirmations: a person read a figure in his own copy of the standard; his name, the date and the page.

They live in a file of the firm's own (`confirmed.yaml`), by edition and by the name of what was read: a
figure, a whole table, one cell `name[row,column]`, or one bound `name[low]` of a disputed figure.
"""

import os
from collections.abc import Mapping
from datetime import date as Date  # noqa: N812 (a parameter is called date)
from pathlib import Path

import yaml

from ferrule.rules.entry import Figure, RulebookError, Table
from ferrule.rules.reading import Fields, parse
from ferrule.rules.rulebook import Confirmation, Rulebook
from ferrule.working import NotPrinted

Confirmed = Mapping[str, Mapping[str, Confirmation]]


def read(path: Path) -> dict[str, dict[str, Confirmation]]:
    """What the file at `path` confirms, by edition and name; nothing if there is no file.

    Raises `RulebookError` with file and place.
    """
    if not path.exists():
        return {}
    try:
        text = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise RulebookError(f"{path}: cannot be read: {error}") from None
    return {
        edition: {name: _confirmation(f"{path}: {edition}: {name}", given) for name, given in names.items()}
        for edition, names in _editions(path, text).items()
    }


def record(path: Path, rulebook: Rulebook, name: str, *, by: str, page: str, date: str) -> Confirmation:
    """Write down that `by` read `name` on `page` of his own copy on `date` (YYYY-MM-DD).

    Replaces an earlier confirmation of the same name and keeps all others. Raises `RulebookError` if the
    rulebook holds no such figure or the file is not readable.
    """
    if not by.strip() or not page.strip():
        raise RulebookError("a confirmation says who read the figure, and on which page")
    _checked_date("date", date)
    name, value = _named(rulebook, name)
    confirmation = Confirmation(by.strip(), date, page.strip(), value)
    held = read(path)
    held.setdefault(rulebook.edition, {})[name] = confirmation
    _write(path, held)
    return confirmation


def stale(rulebook: Rulebook, confirmed: Confirmed) -> list[str]:
    """The names confirmed for this rulebook that it no longer holds, or holds with another value."""
    names = confirmed.get(rulebook.edition, {})
    return [name for name, confirmation in names.items() if not _still(rulebook, name, confirmation.value)]


def _still(rulebook: Rulebook, name: str, value: str) -> bool:
    try:
        return _named(rulebook, name) == (name, value)
    except RulebookError:
        return False


def _editions(path: Path, text: str) -> dict[str, dict[str, object]]:
    editions = parse(str(path), 0, text)
    for edition, names in editions.items():
        if not isinstance(names, dict):
            raise RulebookError(f"{path}: {edition}: expected names of figures")
    return editions


def _confirmation(where: str, given: object) -> Confirmation:
    fields = Fields(where, given)
    confirmation = Confirmation(*(fields.text(key) for key in Confirmation._fields))
    fields.close()
    _checked_date(where, confirmation.date)
    return confirmation


def _checked_date(where: str, date: str) -> None:
    try:
        Date.fromisoformat(date)
    except ValueError:
        raise RulebookError(f"{where}: '{date}' is not a date (YYYY-MM-DD)") from None


def _named(rulebook: Rulebook, name: str) -> tuple[str, str]:
    """The name as a reading spells it, and the value that stands there now."""
    whole, bracket, rest = name.strip().partition("[")
    entry = rulebook.entry(whole)
    keys = [key.strip() for key in rest.removesuffix("]").split(",")] if bracket else []
    if isinstance(entry, Figure) and entry.disputed:
        if keys not in (["low"], ["high"]):
            raise RulebookError(f"{whole} is disputed: confirm {whole}[low] or {whole}[high]")
        printed = entry.low if keys == ["low"] else entry.high
        return f"{whole}[{keys[0]}]", str(printed.value)
    if not keys:
        return whole, entry.fingerprint()
    if not isinstance(entry, Table) or len(keys) > 2:
        raise RulebookError(f"{whole} has no cells: confirm it by its name alone")
    return _cell(entry, *keys)


def _cell(table: Table, row: str, column: str | None = None) -> tuple[str, str]:
    if not table.has_row(row):
        raise RulebookError(f"table {table.name} prints no row {row}")
    try:
        cell = table.cell(row, column)
    except NotPrinted as error:
        raise RulebookError(str(error)) from None
    return f"{table.name}[{','.join(cell.keys)}]", str(cell.value)


def _write(path: Path, held: Confirmed) -> None:
    """Replace the file in one step, so that a reader finds the old one or the new one."""
    plain = {
        edition: {name: confirmation._asdict() for name, confirmation in sorted(names.items())}
        for edition, names in sorted(held.items())
    }
    fresh = path.with_name(f"{path.name}.{os.getpid()}")
    try:
        with fresh.open("w", encoding="utf-8") as file:
            yaml.safe_dump(plain, file, allow_unicode=True, sort_keys=False)
            file.flush()
            os.fsync(file.fileno())
        fresh.replace(path)
    except OSError as error:
        fresh.unlink(missing_ok=True)
        raise RulebookError(f"{path}: cannot be written: {error}") from None
