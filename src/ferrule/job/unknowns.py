"""What a job does not know yet, and where in it each fact stands."""

from collections.abc import Iterator
from typing import Any

from pydantic import BaseModel

from ferrule.fact import Unknown
from ferrule.job.job import Job


def unknowns(job: Job) -> dict[str, list[str]]:
    """What to find out -> the paths of all facts that ask for it in these words."""
    paths: dict[str, list[str]] = {}
    for path, ask in _unknown(job, ""):
        paths.setdefault(ask, []).append(path)
    return paths


def _unknown(value: Any, path: str) -> Iterator[tuple[str, str]]:
    if isinstance(value, Unknown):
        yield path, value.ask
    elif isinstance(value, BaseModel):
        for name, info in type(value).model_fields.items():
            yield from _unknown(getattr(value, name), f"{path}.{info.alias or name}".lstrip("."))
    elif isinstance(value, list):
        for at, item in enumerate(value):
            yield from _unknown(item, f"{path}.{getattr(item, 'id', at)}")
