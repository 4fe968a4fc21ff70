"""An offer: who decides, what is given, and the candidates."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any, TypeVar

from ferrule.clauses import Code
from ferrule.design import Design
from ferrule.document import Record
from ferrule.job.firm import Firm
from ferrule.quantity import unit_of_name

T = TypeVar("T")


@dataclass(frozen=True)
class Offer:
    """One kind of decision.

    `owners` come in the order in which they are chosen; `candidates` from the smallest up, those the firm
    carries first; `path` is where the job file says it, `spell` how.
    """

    kind: str
    owners: Callable[[Design], Iterable[str]]
    given: Callable[[Design, str], Any]
    candidates: Callable[[Design, Code, Firm, str], Sequence[Any]]
    path: str
    spell: Callable[[Any], str] = str


def carried_first(offered: Sequence[T], carried: Sequence[T]) -> list[T]:
    """What the firm carries before the rest, each in rising order."""
    return [each for each in offered if each in carried] + [each for each in offered if each not in carried]


def as_written(device: Record | str) -> str:
    """A device as a person would write it in a job: `{rating: 20 A, voltage_max: 1000 V, poles: both}`."""
    if isinstance(device, str):
        return device
    fields = type(device).model_fields
    return "{" + ", ".join(f"{fields[n].alias}: {_written(n, v)}" for n, v in device) + "}"


def _written(name: str, value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{value:g} {unit_of_name(name)}" if isinstance(value, float) else str(value)


def amperes(value: float) -> str:
    return f"{value:g} A"
