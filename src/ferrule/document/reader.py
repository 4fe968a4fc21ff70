"""The one reader behind job files, part files and a firm's file."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path as FilePath
from typing import Any, Generic, NamedTuple, TypeVar

from pydantic import BaseModel, ConfigDict, ValidationError

from ferrule.document.problem import Path, Problem, Unreadable, mistyped, quoted
from ferrule.document.remains import remains
from ferrule.document.tree import MAX_BYTES, Place, Tree, grow, origins
from ferrule.document.words import problems
from ferrule.quantity import bare_name


class Record(BaseModel):
    """Anything written as keys and values in a file.

    A key is the attribute's name without its unit (`length_m` is written `length`), or its explicit alias.
    A validator's `ValueError` says what is allowed. The records of a union are told apart by `kind`. No
    record has the keys of a fact: `value` with nothing but `from` and `note` beside it, or `unknown` alone.
    """

    model_config = ConfigDict(alias_generator=bare_name, extra="forbid", frozen=True, allow_inf_nan=False)

    @classmethod
    def __pydantic_init_subclass__(cls, **_: Any) -> None:
        """Refuse a record of which two attributes would share a key, such as `rise_v` and `rise_pct`."""
        keys = [field.alias for field in cls.model_fields.values()]
        if len(set(keys)) < len(keys):
            raise TypeError(f"{cls.__name__}: two attributes with one key among {keys}")


T = TypeVar("T", bound=BaseModel)

_QUOTED = re.compile("'([^']*)'")


class Document(NamedTuple, Generic[T]):
    """A file that was read: its typed value, where each part of it stands, and every word of what could not
    be read and was left out.
    """

    source: str
    value: T
    root: Place
    lost: frozenset[str] = frozenset()

    @property
    def origins(self) -> dict[str, str]:
        """Where a value comes from, as the file says, by dotted path: `runs.3.length`."""
        return dict(origins(self.root))

    def at(self, path: Path) -> tuple[int, int]:
        """Line and column, from 1, of the value at `path`, or of what is nearest above it."""
        place = self.root
        for part in path:
            if part not in place.inner:
                break
            place = place.inner[part]
        return place.mark.line + 1, place.mark.column + 1

    def problem(self, path: Path, found: str, allowed: str) -> Problem:
        """A mistake at `path`, in words."""
        return Problem(self.source, *self.at(path), found, allowed)

    def mistyped(self, path: Path, word: str, allowed: str, known: Sequence[str]) -> Problem:
        """A `word` at `path` that is none of those `known`: these are listed, and the nearest suggested."""
        return Problem(self.source, *self.at(path), quoted(word), *mistyped(word, allowed, known))

    def repeated(self, ids: Iterable[tuple[Path, str]]) -> list[Problem]:
        """A problem for each id that an earlier path has already."""
        first: dict[str, Path] = {}
        return [
            self.problem(
                path, f"id {quoted(each)} again", f"another id (first on line {self.at(first[each])[0]})"
            )
            for path, each in ids
            if first.setdefault(each, path) != path
        ]

    def certain(self, found: Iterable[Problem]) -> Iterator[Problem]:
        """The problems that do not rest on what was left out: none of its words is quoted in them."""
        for problem in found:
            words = _QUOTED.findall(problem.found)
            if self.lost.isdisjoint([*words, *(part for word in words for part in word.split("."))]):
                yield problem


def read(path: str | FilePath, model: type[T]) -> Document[T]:
    """Read a file of at most 2 MB. Raises `Unreadable` with every mistake in it."""
    return parse(_given(path), model, str(path))


def parse(given: bytes | str, model: type[T], source: str = "text") -> Document[T]:
    """Read a file's text. Raises `Unreadable` with every mistake in it."""
    tree = _keyed(source, given)
    value, found = _typed(source, tree, model)
    if value is None or found:
        raise Unreadable(found)
    return Document(source, value, tree.root)


def attempt(
    path: str | FilePath, model: type[T], stand_ins: Mapping[str, Any]
) -> tuple[Document[T] | None, list[Problem]]:
    """Read a file and go on after mistakes: what of it reads, if that means anything, and every mistake.

    `stand_ins` are values for keys of the file itself that may be missing. Raises `Unreadable` where nothing
    sensible can follow.
    """
    source = str(path)
    tree = _keyed(source, _given(path))
    value, found = _typed(source, tree, model)
    if value is not None and not found:
        return Document(source, value, tree.root), []
    rest = remains(model, tree, stand_ins)
    return Document(source, *rest) if rest else None, found


def _given(path: str | FilePath) -> bytes:
    try:
        if FilePath(path).is_fifo():  # one that nobody writes to would hold us for ever
            raise OSError(0, "a pipe")
        with open(path, "rb") as file:
            return file.read(MAX_BYTES + 1)
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "not a file's name"
        raise Unreadable([Problem(str(path), 1, 1, f"nothing to read ({why})", "a file")]) from None


def _keyed(source: str, given: bytes | str) -> Tree:
    tree = grow(source, given)
    if not isinstance(tree.data, dict):
        line, column = tree.root.mark.line + 1, tree.root.mark.column + 1
        top = Problem(source, line, column, "no keys", "keys and values, ferrule: 1 first")
        raise Unreadable([*tree.problems, top])
    return tree


def _typed(source: str, tree: Tree, model: type[T]) -> tuple[T | None, list[Problem]]:
    """The typed value, None where it is none, and every mistake in the file's order."""
    value, found = None, tree.problems
    try:
        value = model.model_validate(tree.data)
    except ValidationError as error:
        found = _with_more(found, problems(source, model, tree.root, error))
    if tree.bare:
        found = _with_more(found, _bare(source, tree, model))
    return value, sorted(found, key=lambda each: (each.line, each.column))


def _with_more(found: list[Problem], more: Iterable[Problem]) -> list[Problem]:
    taken = {(each.line, each.column) for each in found}
    return [*found, *(each for each in more if (each.line, each.column) not in taken)]


def _bare(source: str, tree: Tree, model: type[T]) -> list[Problem]:
    """The unknown keys with nothing behind them. A known key may be left empty, but a mistyped one must not
    go unheard.
    """
    try:
        model.model_validate(_with_nothing(tree.data, tree.root))
    except ValidationError as error:
        return problems(source, model, tree.root, error, only="extra_forbidden")
    return []


def _with_nothing(data: Any, place: Place) -> Any:
    """What a file holds, with None at the keys that have nothing behind them."""
    if isinstance(data, dict):
        return {
            key: _with_nothing(data[key], inner) if key in data else None
            for key, inner in place.inner.items()
        }
    if isinstance(data, list):
        return [_with_nothing(each, place.inner[at]) for at, each in enumerate(data)]
    return data
