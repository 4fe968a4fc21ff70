"""What every procedure has, and what stands in where there is none."""

from dataclasses import dataclass
from typing import Protocol, TypeVar

from ferrule.fact import Missing
from ferrule.grade import Source


@dataclass(frozen=True, slots=True)
class NotCovered:
    """The standard has rules for this subject; the rulebook has not got them yet. Makes it `unknown`."""

    subject: str


@dataclass(frozen=True, slots=True)
class NotRequired:
    """The standard asks nothing here. Makes no finding."""

    source: Source


class Procedure(Protocol):
    """Any procedure: the tables, figures and series it reads, checked when it is bound to a rulebook."""

    @property
    def needs(self) -> tuple[str, ...]: ...


class Unasked(Exception):
    """Raised where the rules ask nothing; the question makes no finding."""


P = TypeVar("P")


def covered(procedure: P | NotCovered | NotRequired) -> P:
    """The procedure itself. Raises `Missing` where it is not covered, `Unasked` where none is required."""
    if isinstance(procedure, NotCovered):
        raise Missing(f"the rules on {procedure.subject}, which this rulebook has not got yet")
    if isinstance(procedure, NotRequired):
        raise Unasked(str(procedure.source))
    return procedure
