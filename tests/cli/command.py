"""A command as a person would type it, and how it ended."""

from collections.abc import Callable
from typing import NamedTuple


class Ended(NamedTuple):
    """The exit code and what was printed."""

    code: int
    out: str
    err: str


Ferrule = Callable[..., Ended]
