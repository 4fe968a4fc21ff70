"""An offer: who decides, what is given, and the candidates."""

from collections.abc import Callable, Iterable, Sequence
from typing import Any, NamedTuple, TypeVar

from ferrule.clauses import Code
from ferrule.design import Decided, Design
from ferrule.document import Record
from ferrule.fact import Unknown
from ferrule.job.firm import Firm
from ferrule.quantity import unit_of_name

T = TypeVar("T")


class Offer(NamedTuple):
    """One kind of decision.

    `owners` come in the order in which they are chosen; `candidates` from the smallest up, those the firm
    carries first; `path` is where the job file says it, `spell` how. `brings` says what comes with a
    candidate as long as it is not decided for itself: the other cores of a cable. `graded` says that each
    candidate lacks no more than the one before it.
    """

    kind: str
    owners: Callable[[Design], Iterable[str]]
    given: Callable[[Design, str], Any]
    candidates: Callable[[Design, Code, Firm, str], Sequence[Any]]
    path: str
    spell: Callable[[Any], str] = str
    brings: Callable[[Design, str, Any], Iterable[tuple[Decided, Any]]] = lambda _design, _owner, _value: ()
    graded: bool = True

    def tried(self, design: Design, owner: str, value: Any) -> Design:
        """The design with a candidate and what it brings."""
        design = design.choose(self.kind, owner, value)
        for decided, brought in self.brings(design, owner, value):
            design = design.choose(decided.kind, decided.owner, brought)
        return design


def carried_first(offered: Sequence[T], carried: Sequence[T]) -> list[T]:
    """What the firm carries before the rest, each in rising order."""
    return [each for each in offered if each in carried] + [each for each in offered if each not in carried]


def as_written(device: Record | str) -> str:
    """A device as a person would write it in a job: `{rating: 20 A, voltage_max: 1000 V, poles: both}`."""
    if isinstance(device, str):
        return device
    fields = type(device).model_fields
    told = [(n, v) for n, v in device if v is not None and not isinstance(v, Unknown)]
    return "{" + ", ".join(f"{fields[n].alias}: {_written(n, v)}" for n, v in told) + "}"


def _written(name: str, value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if not isinstance(value, float):
        return str(value)
    unit = unit_of_name(name)
    return amperes(value) if unit == "A" else f"{value:g} {unit}"


def amperes(value: float) -> str:
    """A current as a person writes it: `30 mA`, `16 A`, `6 kA`."""
    if value >= 1e3:
        return f"{value / 1e3:g} kA"
    return f"{value * 1e3:g} mA" if value < 1 else f"{value:g} A"
