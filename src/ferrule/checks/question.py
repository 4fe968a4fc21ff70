"""A question, the subjects it is asked of, and the finding that answers it."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import partial
from typing import Any, NamedTuple

from ferrule.clauses import Code
from ferrule.clauses.procedures import Unasked
from ferrule.constraint import Constraint, Verdict, not_known
from ferrule.design import Decided, Design
from ferrule.fact import Missing
from ferrule.grade import Grade


class Subject(NamedTuple):
    """What a question is asked of: `string/S1`, or `circuit/C4@island` where the position matters."""

    kind: str
    id: str
    position: str = ""

    def __str__(self) -> str:
        return f"{self.kind}/{self.id}" + (f"@{self.position}" if self.position else "")


Judge = Callable[[Design, Code, Subject], Constraint | Iterable[Constraint] | None]
Ask = Callable[[Design, Code, Subject], Iterable[Constraint]]


class Question(NamedTuple):
    """One thing asked of one kind of subject.

    `about` lists the subjects a design has for it; `decides` names the decisions that its answer turns on,
    given a subject, and `shared` says that several conductors on a path share it; `text` is what it asks, in
    the words of the trade.
    """

    id: str
    text: str
    about: Callable[[Design], Iterable[Subject]]
    ask: Ask
    decides: Callable[[Design, Subject], Iterable[Decided]] = lambda _design, _subject: ()
    shared: bool = False


class Finding(NamedTuple):
    """The answer to one question about one subject, with all its constraints."""

    id: str
    subject: Subject
    text: str
    place: str
    constraints: tuple[Constraint, ...]
    remedies: tuple["Remedy", ...] = ()

    @property
    def verdict(self) -> Verdict:
        return max(c.verdict for c in self.constraints)

    @property
    def governed_by(self) -> Constraint:
        """The deciding constraint: the worst verdict, then the smallest margin."""
        return max(self.constraints, key=lambda c: (c.verdict, c.margin is not None, -(c.margin or 0.0)))

    @property
    def grade(self) -> Grade | None:
        """The weakest grade among the figures of the constraints that can stop a job."""
        return min((c.grade for c in self.constraints if c.binding and c.grade is not None), default=None)


class Remedy(NamedTuple):
    """A change that would mend a finding: a template, its parameters, and what to set in the job."""

    text: str
    words: Mapping[str, Any] = {}
    path: str = ""
    value: str = ""


def each(*judges: Judge) -> Ask:
    """Ask a question constraint by constraint, so that one missing fact hides no other answer."""

    def ask(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
        for judge in judges:
            said = partial(_constraints, judge, design, code, subject)
            yield from design.recall((judge, subject, code), said)

    return ask


def _constraints(judge: Judge, design: Design, code: Code, subject: Subject) -> list[Constraint]:
    try:
        found = judge(design, code, subject)
        if found is None:
            return []
        return [found] if isinstance(found, Constraint) else list(found)
    except Unasked:
        return []
    except Missing as missing:
        return [not_known(judge.__name__, missing)]
