"""What every procedure has, and what stands in where there is none."""

from typing import NamedTuple, Protocol, TypeVar

from ferrule.fact import Missing
from ferrule.grade import Source


class NotCovered(NamedTuple):
    """The standard has rules for this subject; the rulebook has not got them yet. Makes it `unknown`."""

    subject: str


class NotRequired(NamedTuple):
    """The standard asks nothing here. Makes no finding."""

    source: Source


class Procedure(Protocol):
    """Any procedure: the tables, figures and series it reads, checked when it is bound to a rulebook."""

    @property
    def needs(self) -> tuple[str, ...]: ...


class Uncovered(Missing):
    """Raised where the rulebook has not got the rules; what is chosen rests on those it has."""

    waits = True


class Unasked(Exception):
    """Raised where the rules ask nothing; the question makes no finding."""


P = TypeVar("P")


def covered(procedure: P | NotCovered | NotRequired) -> P:
    """The procedure itself. Raises `Uncovered` where it is not covered, `Unasked` where none is required."""
    if isinstance(procedure, NotCovered):
        raise Uncovered(f"the rules on {procedure.subject}, which this rulebook has not got yet")
    if isinstance(procedure, NotRequired):
        raise Unasked(str(procedure.source))
    return procedure
