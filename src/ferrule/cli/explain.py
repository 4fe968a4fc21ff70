"""`ferrule explain JOB ID SUBJECT`: the whole working of one finding."""

import argparse
from collections.abc import Iterator, Mapping, Sequence

from ferrule import display
from ferrule.answering import answer
from ferrule.checks.question import Finding
from ferrule.cli.paint import MARKS, Paint
from ferrule.cli.refused import Refused
from ferrule.cli.report import short
from ferrule.constraint import Constraint
from ferrule.document.problem import nearest
from ferrule.job.load import load
from ferrule.working import Step


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("job", help="the job file")
    parser.add_argument("id", help="the question's id, such as string.cold_voltage")
    parser.add_argument("subject", help="what it was asked of, such as S1 or string/S1")


def run(given: argparse.Namespace) -> int:
    finding = _wanted(answer(load(given.job)).findings, given.id, given.subject)
    print("\n".join(explained(finding, Paint.for_terminal())))
    return 0


def explained(finding: Finding, paint: Paint) -> Iterator[str]:
    """The question, then each limit with its working, the deciding one first, then what would mend it."""
    yield paint.strong(f"{finding.id}  {finding.subject}")
    yield from paint.wrapped(finding.text, 0)
    told: list[Step] = []
    for constraint in _deciding_first(finding):
        yield ""
        yield from _constraint(constraint, constraint is finding.governed_by, told, paint)
        told += constraint.steps
    if finding.remedies:
        yield ""
    for remedy in finding.remedies:
        yield from paint.wrapped("→ " + display.remedy(remedy), 0, 2)


def _deciding_first(finding: Finding) -> list[Constraint]:
    governing = finding.governed_by
    return sorted(finding.constraints, key=lambda each: (each is not governing, -each.verdict))


def _constraint(constraint: Constraint, governs: bool, told: Sequence[Step], paint: Paint) -> Iterator[str]:
    """A limit and how it was worked out; steps that stand above already are not told again."""
    word = f"{MARKS[constraint.verdict]} {display.WORDS[constraint.verdict]}"
    governing = ", which governs" if governs else ""
    yield f"{paint.verdict(constraint.verdict, word)}  {display.name(constraint)}{governing}"
    margin = display.margin(constraint)
    yield from paint.wrapped(display.filled(constraint) + (f" ({margin})" if margin else ""), 2, 4)
    fresh = tuple(step for step in constraint.steps if step not in told)
    for line in display.working(fresh):
        text = line.lstrip()
        yield from paint.wrapped(text, 4 + len(line) - len(text), 8)
    if len(fresh) < len(constraint.steps):
        yield paint.quiet("    the rest of the working as above")


def _wanted(findings: Sequence[Finding], question: str, subject: str) -> Finding:
    """The finding of that question and subject, with or without the subject's kind.

    Raises `Refused` naming the nearest.
    """
    of_question = [finding for finding in findings if finding.id == question]
    if not of_question:
        questions = {finding.id: finding.id for finding in findings}
        raise Refused(f"this job has no finding '{question}'{_near(question, questions)}")
    named = {name: str(f.subject) for f in of_question for name in (short(f.subject), str(f.subject))}
    if subject not in named:
        raise Refused(f"{question} was not asked of '{subject}'{_near(subject, named)}")
    return next(finding for finding in of_question if str(finding.subject) == named[subject])


def _near(word: str, known: Mapping[str, str]) -> str:
    """The known name most like a word, if one is, and all there are."""
    near = nearest(word, list(known))
    hint = f"; did you mean '{known[near[0]]}'?" if near else "."
    return f"{hint} There are {', '.join(dict.fromkeys(known.values()))}."
