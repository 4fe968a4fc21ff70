"""YAML as plain texts, and mappings whose every key must be known: what both kinds of file here are read with."""

import math
from difflib import get_close_matches
from typing import Any

import yaml

from ferrule.rules.entry import RulebookError

# The base loader leaves every scalar a text: no YAML surprise (`no`, `1:30`, `010`), and half the time.
_LOADER = getattr(yaml, "CBaseLoader", yaml.BaseLoader)


def parse(file: str, lines_before: int, text: str) -> dict[str, Any]:
    """YAML as dictionaries, lists and texts. Raises `RulebookError` with file and line."""
    try:
        node = yaml.compose(text, Loader=_LOADER)
    except yaml.MarkedYAMLError as error:
        line = error.problem_mark.line if error.problem_mark else 0
        raise RulebookError(f"{file}:{lines_before + line + 1}: {error.problem}") from None
    except yaml.YAMLError as error:
        raise RulebookError(f"{file}: {error}") from None
    plain = _plain(node, file, lines_before) if node else {}
    if not isinstance(plain, dict):
        raise RulebookError(f"{file}:{lines_before + 1}: expected named sections")
    return plain


def _plain(node: yaml.Node, file: str, lines_before: int) -> Any:
    if isinstance(node, yaml.SequenceNode):
        return [_plain(item, file, lines_before) for item in node.value]
    if not isinstance(node, yaml.MappingNode):
        return node.value
    plain: dict[str, Any] = {}
    for key, value in node.value:
        line = lines_before + key.start_mark.line + 1
        if not isinstance(key.value, str):
            raise RulebookError(f"{file}:{line}: a name must be a text")
        if key.value in plain:
            raise RulebookError(f"{file}:{line}: '{key.value}' stands twice")
        plain[key.value] = _plain(value, file, lines_before)
    return plain


class Fields:
    """The keys of one mapping, asked for one by one, so that a missing and an unknown one are both refused."""

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
        return self._filled(key, dict)

    def items(self, key: str) -> list[Any]:
        """A list that holds something."""
        return self._filled(key, list)

    def inner(self, key: str) -> "Fields":
        """The fields of a mapping."""
        return Fields(f"{self.where}: {key}", self.mapping(key))

    def close(self) -> None:
        """Refuse every key nobody asked for."""
        for key in self._given:
            if key not in self._known:
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


_KINDS = {str: "text", dict: "mapping", list: "list"}


def number(where: str, given: Any) -> float:
    """A finite number from a text. Raises `RulebookError`."""
    try:
        value = float(given)
    except (TypeError, ValueError):
        value = math.nan
    if not math.isfinite(value):
        raise RulebookError(f"{where}: '{given}' is not a number")
    return value
