"""Rulebooks: limits and tables as dated, sourced data, one folder an edition."""

from functools import cache
from pathlib import Path

from ferrule.rules import confirming
from ferrule.rules.confirming import Confirmed
from ferrule.rules.entry import Figure, RulebookError, Series, Table
from ferrule.rules.loading import HEAD, read_folder
from ferrule.rules.loading import problems as _problems
from ferrule.rules.rulebook import Confirmation, Rulebook

__all__ = [
    "Confirmation", "Figure", "Rulebook", "RulebookError", "Series", "Table",
    "confirm", "editions", "load", "problems", "read_confirmed",
]  # fmt: skip

_FOLDER = Path(__file__).parent

read_confirmed = confirming.read


def editions() -> list[str]:
    """The editions there are."""
    return sorted(head.parent.name for head in _FOLDER.glob(f"*/{HEAD}"))


def load(edition: str, confirmed: Confirmed | None = None) -> Rulebook:
    """The rulebook of an edition, with what `read_confirmed` found of persons' confirmations.

    Raises `RulebookError` if there is no such edition or its data are faulty.
    """
    rulebook = _plain(edition)
    held = (confirmed or {}).get(edition)
    return rulebook.confirmed_by(held) if held else rulebook


def problems(edition: str) -> list[str]:
    """Everything wrong with an edition's data, a line each; empty if all of it loads, sourced and graded."""
    return _problems(_FOLDER / edition)


def confirm(path: Path, edition: str, figure: str, *, by: str, page: str, date: str) -> Confirmation:
    """Record in the file at `path` that a person read `figure` in his own copy of the standard.

    `figure` names a figure, a series, a whole table, a cell `name[row,column]` or a bound `name[low]`.
    Raises `RulebookError` if the edition holds no such thing.
    """
    return confirming.record(path, load(edition), figure, by=by, page=page, date=date)


@cache
def _plain(edition: str) -> Rulebook:
    if edition not in editions():
        raise RulebookError(f"there is no rulebook '{edition}'; there are {', '.join(editions())}")
    return read_folder(_FOLDER / edition)
