"""What a typed model says against a file's values, in plain words and at the right line."""

import re
from collections.abc import Iterator
from functools import cache
from typing import Any, Literal, NamedTuple, get_args, get_origin

from pydantic import BaseModel, ValidationError
from pydantic.fields import FieldInfo

from ferrule.document.problem import Path, Problem, cut, mistyped, nearest, quoted
from ferrule.document.tree import FACT_KEYS, Place
from ferrule.fact import Unknown, meaning
from ferrule.quantity import Unit

Model = type[BaseModel]

#: The most mistakes put into words; a file with more is no slip of the pen.
MAX_PROBLEMS = 1_000

#: pydantic's type of error, or its first word, or the name of a Python type -> what is allowed
_ALLOWED = {
    "int": "a whole number", "float": "a number", "finite": "a number", "bool": "yes or no",
    "str": "a text", "string": "a text", "date": "a date such as 2026-03-31",
    "list": "a list", "tuple": "a list", "dict": "keys and values",
    "greater_than": "more than {gt}", "greater_than_equal": "not below {ge}",
    "less_than": "less than {lt}", "less_than_equal": "not above {le}",
    "too_short": "at least {min_length} of them", "too_long": "at most {max_length} of them",
    "string_too_short": "at least {min_length} characters",
    "string_too_long": "at most {max_length} characters",
    "string_pattern_mismatch": "a text of the form {pattern}",
    "value_error": "{error}",
}  # fmt: skip

_ABOUT_KEY = {"missing", "extra_forbidden", "union_tag_not_found", "union_tag_invalid"}


class _Fault(NamedTuple):
    """An error of pydantic's, what stands in the file there, and what the model has there.

    A path that is about a key ends in None, so that it counts as within the keys and values it names.
    """

    detail: Any
    path: tuple[int | str | None, ...]
    place: Place
    records: list[Model]
    field: FieldInfo | None


def problems(source: str, model: Model, root: Place, error: ValidationError, only: str = "") -> list[Problem]:
    """Each mistake once, in the file's order; what the members of a union each refuse becomes one line.
    `only` is pydantic's type of error, where no other counts.
    """
    details = error.errors(include_url=False)
    faults = [follow(model, root, detail) for detail in details if only in ("", detail["type"])]
    # Where one member of a union refuses the whole and another got inside, the latter was meant.
    above = {fault.path[:end] for fault in faults for end in range(len(fault.path))}
    marked = [(_mark(fault), fault) for fault in faults if fault.path not in above]
    marked.sort(key=lambda each: (each[0].line, each[0].column))
    said: dict[tuple[int, int, str], Problem] = {}
    for mark, fault in marked[:MAX_PROBLEMS]:
        problem = Problem(source, mark.line + 1, mark.column + 1, *_words(fault))
        place = problem.line, problem.column, problem.found
        if (other := said.get(place)) and problem.allowed != other.allowed:
            allowed = f"{other.allowed}, or {problem.allowed}"
            problem = other._replace(allowed=allowed, hint=other.hint or problem.hint)
        said[place] = problem
    return list(said.values())


def follow(model: Model, root: Place, detail: Any) -> _Fault:
    """Follow pydantic's location through file and model; the names of a union's members stand in it too."""
    path: Path = ()
    place, records, field = root, [model], None
    for part in detail["loc"]:
        tagged = [record for record in records if part in _kinds(record)] if "kind" in place.inner else []
        if tagged and len(records) > 1:
            records = tagged
            continue
        if part in place.inner:
            path, place = (*path, part), place.inner[part]
        if found := [keys[part] for keys in map(_keys, records) if part in keys]:
            field, inner = found[0]
            records = inner or records
    about_key = detail["type"] in _ABOUT_KEY
    return _Fault(detail, (*path, None) if about_key else path, place, records, field)


@cache
def _keys(record: Model) -> dict[str, tuple[FieldInfo, list[Model]]]:
    """The keys of a record: the field of each, and the records which may stand in it."""
    return {
        field.alias or name: (field, list(_records(field.annotation)))
        for name, field in record.model_fields.items()
    }


@cache
def _kinds(record: Model) -> list[str]:
    kind = record.model_fields.get("kind")
    return _literals(kind.annotation) if kind else []


def _literals(annotation: Any) -> list[str]:
    return [str(word) for word in get_args(annotation)] if get_origin(annotation) is Literal else []


def _records(annotation: Any) -> Iterator[Model]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for inner in get_args(annotation):
        yield from _records(inner)


def _mark(fault: _Fault) -> Any:
    if fault.detail["type"] == "extra_forbidden":
        return fault.place.key
    if fault.detail["type"].startswith("union_tag"):
        return fault.place.inner.get("kind", fault.place).mark
    return fault.place.mark


def _words(fault: _Fault) -> tuple[str, str, str]:
    """What was found, what is allowed, and the hint."""
    type_, given, context = fault.detail["type"], fault.detail["input"], fault.detail.get("ctx", {})
    key = str(fault.detail["loc"][-1])
    keys = [key for record in fault.records for key in _keys(record)]
    kinds = [kind for record in fault.records for kind in _kinds(record)]
    if type_ == "extra_forbidden":
        return f"unknown key {quoted(key)}", *mistyped(key, "", keys)
    if type_ == "missing":
        return f"no value for {quoted(key)}", f"{key}: {_wanted(fault.field)}", ""
    if type_ == "union_tag_not_found":
        return "no value for 'kind'", f"kind: {', '.join(kinds)}", ""
    if type_ == "union_tag_invalid":
        return _shown(given["kind"]), *mistyped(str(given["kind"]), "", kinds)
    if isinstance(given, dict) and ("value" in given or "unknown" in given):
        odd = [word for word in given if word not in (*FACT_KEYS, "unknown")]
        hint = nearest(odd[0], FACT_KEYS)[:1] if odd else []
        return _shown(given), "value, with from and note as texts, or unknown alone", "".join(hint)
    if type_ in {"literal_error", "enum"}:
        known = re.findall(r"'([^']*)'", context["expected"])
        return _shown(given), *mistyped(given if isinstance(given, str) else "", "", known)
    if type_.startswith("model"):
        inside = f"kind: {', '.join(kinds)}" if len(fault.records) > 1 else ", ".join(keys)
        return _shown(given), f"keys and values ({inside})", ""
    if type_ == "list_type" and isinstance(given, str):
        return _shown(given), f"a list: [{cut(given)}]", ""
    if allowed := _ALLOWED.get(type_) or _ALLOWED.get(type_.partition("_")[0]):
        return _shown(given), allowed.format(**context), ""
    return _shown(given), _wanted(fault.field), ""


def _shown(given: Any) -> str:
    if isinstance(given, str):
        return quoted(given)
    if isinstance(given, dict):
        return f"keys and values ({', '.join(cut(key) for key in list(given)[:8])})"
    if isinstance(given, list):
        return f"a list of {len(given)}"
    return "unknown" if isinstance(given, Unknown) else "nothing"


def _wanted(field: FieldInfo | None) -> str:
    """What a field takes, in words, with its description."""
    if field is None:
        return "another value"
    units = [each.allowed() for each in field.metadata if isinstance(each, Unit)]
    plain = getattr(get_origin(field.annotation) or field.annotation, "__name__", "")
    kind = ", ".join(units or _literals(field.annotation)) or _ALLOWED.get(plain, "keys and values")
    about = meaning(field)
    return f"{kind} ({about})" if about else kind
