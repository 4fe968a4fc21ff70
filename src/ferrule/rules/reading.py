"""YAML as plain texts, and mappings whose every key must be known: how both kinds of file here are read."""

import math
from collections.abc import Callable, Mapping
from typing import Any

import yaml

from ferrule.rules.entry import RulebookError

# Of its loaders only the events are used: every scalar stays a text, without YAML's surprises (`no`, `1:30`,
# `010`), and reading takes a third of the time.
_LOADER = getattr(yaml, "CBaseLoader", yaml.BaseLoader)


def parse(file: str, lines_before: int, text: str) -> dict[str, Any]:
    """YAML as dictionaries, lists and texts. Raises `RulebookError` with file and line."""
    try:
        return _Document(file, lines_before, text).plain()
    except yaml.MarkedYAMLError as error:
        line = error.problem_mark.line if error.problem_mark else 0
        raise RulebookError(f"{file}:{lines_before + line + 1}: {error.problem}") from None
    except (yaml.YAMLError, RecursionError) as error:
        raise RulebookError(f"{file}: not readable: {error}") from None


class _Document:
    """The events of one document, taken in order."""

    def __init__(self, file: str, lines_before: int, text: str) -> None:
        self._file = file
        self._first_line = lines_before + 1
        self._event: Callable[[], Any] = _LOADER(text).get_event

    def plain(self) -> dict[str, Any]:
        self._event()
        if isinstance(self._event(), yaml.StreamEndEvent):
            return {}
        first = self._event()
        plain = self._value(first)
        if not isinstance(plain, dict):
            raise self._error(first, "expected named fields")
        self._event()
        if not isinstance(after := self._event(), yaml.StreamEndEvent):
            raise self._error(after, "a second document")
        return plain

    def _value(self, event: Any) -> Any:
        kind = type(event)
        if kind is yaml.ScalarEvent:
            return event.value
        if kind is yaml.SequenceStartEvent:
            items = []
            while type(item := self._event()) is not yaml.SequenceEndEvent:
                items.append(self._value(item))
            return items
        if kind is yaml.MappingStartEvent:
            return self._mapping()
        raise self._error(event, "an alias is not allowed")

    def _mapping(self) -> dict[str, Any]:
        fields: dict[str, Any] = {}
        while type(key := self._event()) is not yaml.MappingEndEvent:
            if type(key) is not yaml.ScalarEvent:
                raise self._error(key, "a name must be a text")
            if key.value in fields:
                raise self._error(key, f"'{key.value}' stands twice")
            fields[key.value] = self._value(self._event())
        return fields

    def _error(self, event: yaml.Event, text: str) -> RulebookError:
        line = self._first_line + (event.start_mark.line if event.start_mark else 0)
        return RulebookError(f"{self._file}:{line}: {text}")


class Fields:
    """The keys of one mapping, asked for one by one, so that a missing one and an unknown one are refused."""

    def __init__(self, where: str, given: Any) -> None:
        if not isinstance(given, dict):
            raise RulebookError(f"{where}: expected named fields, found '{given}'")
        self.where = where
        self._given = given
        self._known: list[str] = []

    def __contains__(self, key: str) -> bool:
        return key in self._given

    def text(self, key: str, *, default: str | None = None, empty: bool = False) -> str:
        """A text; required without a default, and not empty unless `empty`."""
        given = self._get(key, str, default)
        if not (given or empty or default is not None):
            raise self.error(f"{key} is empty")
        return str(given)

    def choice(self, key: str, allowed: tuple[str, ...], default: str | None = None) -> Any:
        """A text out of a closed list."""
        given = self.text(key, default=default)
        if given not in allowed:
            raise self.error(f"{key} '{given}' is none of {', '.join(allowed)}")
        return given

    def mapping(self, key: str) -> dict[str, Any]:
        """A mapping that holds something."""
        filled: dict[str, Any] = self._filled(key, dict)
        return filled

    def items(self, key: str) -> list[Any]:
        """A list that holds something."""
        filled: list[Any] = self._filled(key, list)
        return filled

    def inner(self, key: str) -> "Fields":
        """The fields of a mapping."""
        return Fields(f"{self.where}: {key}", self.mapping(key))

    def close(self) -> None:
        """Refuse every key nobody asked for."""
        for key in self._given:
            if key not in self._known:
                from difflib import get_close_matches

                near = get_close_matches(key, self._known, n=1)
                raise self.error(f"unknown field '{key}'" + (f"; did you mean '{near[0]}'?" if near else ""))

    def error(self, text: str) -> RulebookError:
        """A complaint about these fields, with their place in front."""
        return RulebookError(f"{self.where}: {text}")

    def _filled(self, key: str, kind: type[Any]) -> Any:
        given = self._get(key, kind, None)
        if not given:
            raise self.error(f"{key} is empty")
        return given

    def _get(self, key: str, kind: type[Any], default: Any) -> Any:
        self._known.append(key)
        given = self._given.get(key, default)
        if given is None:
            raise self.error(f"no {key}")
        if not isinstance(given, kind):
            raise self.error(f"{key} is not a {_KINDS[kind]}")
        return given


_KINDS: Mapping[type[Any], str] = {str: "text", dict: "mapping", list: "list"}


def number(where: str, given: Any) -> float:
    """A finite number from a text. Raises `RulebookError`."""
    try:
        value = float(given)
    except (TypeError, ValueError):
        value = math.nan
    if not math.isfinite(value):
        raise RulebookError(f"{where}: '{given}' is not a number")
    return value
