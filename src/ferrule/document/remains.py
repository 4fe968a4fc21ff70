"""What still reads in a file with mistakes, so that what it says can be looked at in the same round.

A wrong value is left out, and so is all that cannot stand without it, up to the nearest record with an id.
The words of what was left out are kept: whoever looks at the rest must not miss what only could not be read.
"""

from collections.abc import Iterator, Mapping
from typing import Any, Generic, NamedTuple, TypeVar

from pydantic import BaseModel, ValidationError

from ferrule.document.problem import Path
from ferrule.document.tree import Place, Tree
from ferrule.document.words import follow

T = TypeVar("T", bound=BaseModel)

_ROUNDS = 8  # what was left out may be missed by what stands around it, a level further up each time
_MOST = 200  # mistakes; where there are more, little of the rest would mean anything


class Remains(NamedTuple, Generic[T]):
    """The typed rest of a file, the places of its parts, and every word of what was left out: texts, and the
    file's own key above each.
    """

    value: T
    root: Place
    lost: frozenset[str]


def remains(model: type[T], tree: Tree, stand_ins: Mapping[str, Any]) -> Remains[T] | None:
    """What of a file reads; None where that is too little. `stand_ins` are values for keys of the file itself
    that may be missing.
    """
    data, root = tree.data, tree.root
    lost = {word for each in tree.dropped for word in _texts(each)}
    for _ in range(_ROUNDS):
        try:
            return Remains(model.model_validate(data), root, frozenset(lost))
        except ValidationError as error:
            if error.error_count() > _MOST:
                return None
            wrong = [_left_out(model, data, root, each) for each in error.errors(include_url=False)]
        for path in wrong:
            if not path or (path[0] not in data and path[0] not in stand_ins):
                return None
            lost |= {str(path[0]), *_texts(_at(data, path))}
        data, root = _without(data, root, set(wrong))
        missed = {str(path[0]) for path in wrong} & stand_ins.keys() - data.keys()
        data = {key: stand_ins[key] for key in missed} | data
    return None


def _left_out(model: type[BaseModel], data: Any, root: Place, detail: Any) -> Path:
    """The path of what goes because of one error: the key, where the file itself misses one; empty, where the
    file as a whole means nothing without it.
    """
    fault = follow(model, root, detail)
    path: Path = tuple(part for part in fault.path if part is not None)
    value = _at(data, path)
    if detail["type"] == "missing":
        return _record(data, path) or (detail["loc"][-1],)
    if detail["type"] == "extra_forbidden":
        return _record(data, path[:-1]) if isinstance(value, dict | list) else path
    listed = isinstance(value, list) or detail["type"] == "list_type" or isinstance(path[-1], int)
    if listed:
        return _record(data, path[:-1])
    return _record(data, path) if isinstance(value, dict) else path


def _record(data: Any, path: Path) -> Path:
    """The nearest at or above `path` that can go alone: an item with an id, or what stands under a key."""
    while path:
        value = _at(data, path)
        if isinstance(value, dict) and (isinstance(path[-1], str) or "id" in value):
            break
        path = path[:-1]
    return path


def _at(data: Any, path: Path) -> Any:
    for part in path:
        if isinstance(data, dict):
            data = data.get(part)
        else:
            data = data[part] if isinstance(data, list) and isinstance(part, int) else None
    return data


def _texts(data: Any) -> Iterator[str]:
    if isinstance(data, str):
        yield data
    elif isinstance(data, dict | list):
        for each in data.values() if isinstance(data, dict) else data:
            yield from _texts(each)


def _without(data: Any, place: Place, lost: set[Path], path: Path = ()) -> tuple[Any, Place]:
    """Data and places without what stands at the `lost` paths; the items of a list are counted anew."""
    if isinstance(data, dict):
        inner = {key: each for key, each in place.inner.items() if (*path, key) not in lost}
        kept = {
            key: _without(data[key], each, lost, (*path, key)) for key, each in inner.items() if key in data
        }
        places = {key: kept[key][1] if key in kept else each for key, each in inner.items()}
        return {key: each for key, (each, _) in kept.items()}, place._replace(inner=places)
    if isinstance(data, list):
        items = [
            _without(each, place.inner[at], lost, (*path, at))
            for at, each in enumerate(data)
            if (*path, at) not in lost
        ]
        return [each for each, _ in items], place._replace(inner=dict(enumerate(its for _, its in items)))
    return data, place
