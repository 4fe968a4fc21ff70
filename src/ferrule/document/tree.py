"""YAML text into plain dicts, lists and texts, with the place of every key and value beside them.

Only the plain part of YAML is read: no tags, no anchors, no merge keys, one document. Scalars stay text,
since only the typed model knows whether `12` is a number or a name. Events are read one by one, so that a
hostile file is refused at the first event too many, before it has cost anything.
"""

import re
from collections.abc import Iterator
from typing import Any, NamedTuple, NoReturn

import yaml

from ferrule.document.problem import Problem, Unreadable, quoted
from ferrule.fact import Unknown

MAX_BYTES = 2_000_000
MAX_DEPTH = 40
MAX_EVENTS = 100_000
MAX_SCALAR = 10_000

FACT_KEYS = ("value", "from", "note")

_NOTHING = frozenset({"", "~", "null", "Null", "NULL", "unknown"})

# What YAML calls unprintable, what it takes for line ends and editors do not, and what nobody sees: spaces of
# no width, which make two ids of one, and marks that turn the direction of writing. (Listing all that
# is printable would take ten times as long to compile.)
_UNPRINTABLE = re.compile(
    "[\0-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u200b\u200e\u200f\u2028-\u202e\u2060\u2066-\u2069\ud800-\udfff\ufeff\ufffe\uffff]"
)

_LINE_END = re.compile("\r\n?|\n")
_START: Any = yaml.Mark("", 0, 0, 0, None, 0)

_Events: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class Place(NamedTuple):
    """Where a value stands: the marks of its key and of itself, the places inside it, and its origin."""

    key: Any
    mark: Any
    inner: "dict[str | int, Place]"
    origin: str = ""


_LEAF: dict[str | int, Place] = {}


class Tree(NamedTuple):
    """What a text holds, the place of it all, what is wrong with it as YAML, and what that took away; `bare`
    where a key has nothing behind it.
    """

    data: Any
    root: Place
    problems: list[Problem]
    dropped: list[Any]
    bare: bool


def grow(source: str, given: bytes | str) -> Tree:
    """Read one YAML document. Raises `Unreadable` where nothing sensible can follow."""
    text = _text(source, given)
    return _Grower(source, text).tree()


def _text(source: str, given: bytes | str) -> str:
    if len(given) > MAX_BYTES:
        raise Unreadable([Problem(source, 1, 1, "a larger file", f"at most {MAX_BYTES:,} bytes")])
    try:
        text = given if isinstance(given, str) else given.decode()
    except UnicodeDecodeError as error:
        before = error.object[: error.start].decode()
        found = f"a byte that is not UTF-8 (0x{error.object[error.start]:02x})"
        raise _at_end(source, before, found) from None
    text = text.removeprefix("\ufeff")
    if bad := _UNPRINTABLE.search(text):
        found = f"an unprintable character (U+{ord(bad[0]):04X})"
        raise _at_end(source, text[: bad.start()], found)
    return text


def _at_end(source: str, before: str, found: str) -> Unreadable:
    lines = _LINE_END.split(before)
    return Unreadable([Problem(source, len(lines), len(lines[-1]) + 1, found, "printable text in UTF-8")])


class _Grower:
    """Builds a tree from events; goes on after a mistake as long as the text still makes sense."""

    def __init__(self, source: str, text: str) -> None:
        self.source = source
        self.text = text
        self.problems: list[Problem] = []
        self.dropped: list[Any] = []
        self.bare = False

    def tree(self) -> Tree:
        self.event = self._events().__next__
        try:
            return self._document()
        except (yaml.YAMLError, ValueError) as error:  # the parser in Python lets some ValueErrors through
            self._syntax(error)

    def _events(self) -> Iterator[Any]:
        parser = _Events(self.text)
        for _ in range(MAX_EVENTS):
            yield parser.get_event()
        mark = parser.get_event().start_mark
        self._refuse(mark, "one value more", f"at most {MAX_EVENTS:,} keys and values in a file")

    def _document(self) -> Tree:
        self.event()  # the stream's start
        first = self.event()
        if isinstance(first, yaml.StreamEndEvent):
            self._refuse(first.start_mark, "nothing", "keys and values, ferrule: 1 first")
        first = self.event()
        data, root = self._node(first, first.start_mark, 0)
        self.event()  # the document's end
        if not isinstance(after := self.event(), yaml.StreamEndEvent):
            self._refuse(after.start_mark, "a second document", "one document in a file")
        return Tree(data, root, self.problems, self.dropped, self.bare)

    def _node(self, event: Any, key: Any, depth: int) -> tuple[Any, Place]:
        kind, mark = type(event), event.start_mark
        if kind is yaml.ScalarEvent:
            return self._scalar(event), Place(key, mark, _LEAF)
        self._plain(event)
        if kind is yaml.AliasEvent:
            return None, Place(key, mark, _LEAF)
        if depth == MAX_DEPTH:
            self._refuse(mark, "one more level", f"at most {MAX_DEPTH} levels inside each other")
        if kind is yaml.SequenceStartEvent:
            return self._sequence(key, mark, depth + 1)
        return self._mapping(key, mark, depth + 1)

    def _plain(self, event: Any) -> None:
        if event.anchor is not None:
            found = f"an anchor or alias {quoted(event.anchor)}"
            self._note(event.start_mark, found, "each value written out where it belongs")
        if getattr(event, "tag", None) is not None:
            self._note(event.start_mark, f"a tag {quoted(event.tag)}", "values without a tag")

    def _scalar(self, event: Any) -> str | None:
        text: str = event.value
        if event.anchor is not None or event.tag is not None:
            self._plain(event)
        if len(text) > MAX_SCALAR:
            self._refuse(event.start_mark, f"a text of {len(text):,} characters", f"at most {MAX_SCALAR:,}")
        if not event.style:
            return None if text in _NOTHING else text
        if event.style == '"' and _UNPRINTABLE.search(text):
            self._note(event.start_mark, "an escaped unprintable character", "printable text")
        return text

    def _sequence(self, key: Any, mark: Any, depth: int) -> tuple[list[Any], Place]:
        data: list[Any] = []
        inner: dict[str | int, Place] = {}
        while type(event := self.event()) is not yaml.SequenceEndEvent:
            value, inner[len(data)] = self._node(event, event.start_mark, depth)
            data.append(value)
        return data, Place(key, mark, inner)

    def _mapping(self, key: Any, mark: Any, depth: int) -> tuple[Any, Place]:
        data: dict[str, Any] = {}
        inner: dict[str | int, Place] = {}
        while type(event := self.event()) is not yaml.MappingEndEvent:
            name = self._name(event, inner, depth)
            value, place = self._node(self.event(), event.start_mark, depth)
            if name is None:
                self.dropped.append(value)
                continue
            inner[name] = place
            if value is None and name[:1].isdigit():
                self._note(
                    event.start_mark, f"{quoted(name)} after a comma", "a point in a number: 9.5, not 9,5"
                )
            if value is not None:  # nothing, or plain `unknown`, is as good as left out
                data[name] = value
            else:
                self.bare = True
        place = Place(key, mark, inner)
        return self._fact(data, place) if "value" in inner or "unknown" in inner else (data, place)

    def _name(self, event: Any, taken: dict[str | int, Place], depth: int) -> str | None:
        """The key, or None for one that cannot be used."""
        if type(event) is not yaml.ScalarEvent:
            self._note(event.start_mark, "a list, mapping or alias as a key", "a word as a key")
            self._node(event, None, depth)
            return None
        self._scalar(event)
        name: str = event.value
        if name == "<<":
            self._note(event.start_mark, "a merge key '<<'", "each value written out where it belongs")
            return None
        if name in taken:
            line = taken[name].key.line + 1
            self._note(event.start_mark, f"key {quoted(name)} again", f"each key once (first on line {line})")
            return None
        return name

    def _fact(self, data: dict[str, Any], place: Place) -> tuple[Any, Place]:
        """`{value: X, from: a source}` stands for X, `{unknown: what to find out}` for an `Unknown`."""
        inner = place.inner
        if len(inner) == 1 and "unknown" in inner and isinstance(ask := data.get("unknown"), str | None):
            return Unknown(ask) if ask else None, place._replace(inner={})
        if "value" in inner and inner.keys() <= set(FACT_KEYS):
            words = [data[key] for key in FACT_KEYS[1:] if key in data]
            if all(isinstance(word, str) for word in words):
                return data.get("value"), inner["value"]._replace(key=place.key, origin="; ".join(words))
        return data, place

    def _note(self, mark: Any, found: str, allowed: str) -> None:
        self.problems.append(Problem(self.source, mark.line + 1, mark.column + 1, found, allowed))

    def _refuse(self, mark: Any, found: str, allowed: str) -> NoReturn:
        self._note(mark, found, allowed)
        raise Unreadable(self.problems)

    def _syntax(self, error: Any) -> NoReturn:
        mark = getattr(error, "problem_mark", None) or _START
        line = [*_LINE_END.split(self.text), ""][mark.line]
        if line[mark.column : mark.column + 1] == "\t":
            self._refuse(mark, "a tab", "spaces to indent")
        why = (getattr(error, "problem", None) or "not readable").removeprefix("found ")
        if context := getattr(error, "context_mark", None):
            why += f" {error.context} from line {context.line + 1}"
        self._refuse(mark, f"a slip in the YAML ({why})", "lines of 'key: value' or '- item', indented alike")


def origins(place: Place, path: str = "") -> Iterator[tuple[str, str]]:
    """The origin of each value that states one, by its dotted path: ("runs.3.length", "measured")."""
    if place.origin:
        yield path, place.origin
    for key, inner in place.inner.items():
        yield from origins(inner, f"{path}.{key}" if path else str(key))
