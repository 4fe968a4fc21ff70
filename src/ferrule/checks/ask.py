"""Ask every question of every subject it has."""

from collections.abc import Iterable, Iterator

from ferrule.checks.question import Finding, Question
from ferrule.checks.subjects import place
from ferrule.clauses import Code
from ferrule.design import Design


def findings(design: Design, code: Code, questions: Iterable[Question]) -> Iterator[Finding]:
    """One finding for each question and subject; a question nothing applies to makes none."""
    for question in questions:
        for subject in question.about(design):
            constraints = tuple(question.ask(design, code, subject))
            if constraints:
                yield Finding(question.id, subject, question.text, place(design.house, subject), constraints)
