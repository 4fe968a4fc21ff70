"""What to change so that a finding passes, found by asking the same questions of other sizes."""

from collections.abc import Iterable, Iterator

from ferrule.checks.question import Finding, Question, Remedy
from ferrule.choose.engine import Turning, shortfall, turning_on
from ferrule.choose.offers import BY_KIND
from ferrule.clauses import Code
from ferrule.constraint import Verdict
from ferrule.design import Decided, Design
from ferrule.job.firm import Firm


def remedies(
    design: Design, code: Code, firm: Firm, finding: Finding, questions: Iterable[Question]
) -> Iterator[Remedy]:
    """For a finding that fails or is a caution: each single change that mends it, then the stated advice."""
    if finding.verdict not in {Verdict.FAIL, Verdict.CAUTION}:
        return
    question = next(q for q in questions if q.id == finding.id)
    turning = turning_on(design, questions)
    for decided in question.decides(design, finding.subject):
        remedy = _other_size(design, code, firm, decided, turning, question, finding)
        if remedy is not None:
            yield remedy
    for constraint in finding.constraints:
        if constraint.mend:
            yield Remedy(constraint.mend, dict(constraint.words))


def _other_size(
    design: Design,
    code: Code,
    firm: Firm,
    decided: Decided,
    turning: Turning,
    question: Question,
    finding: Finding,
) -> Remedy | None:
    offer = BY_KIND.get(decided.kind)
    if offer is None:
        return None
    for candidate in offer.candidates(design, code, firm, decided.owner):
        trial = design.choose(decided.kind, decided.owner, candidate)
        if shortfall(trial, code, candidate, turning.get(decided, [])) is None:
            passed = Finding(
                finding.id, finding.subject, finding.text, finding.place,
                question.ask(trial, code, finding.subject),
            )  # fmt: skip
            margin = passed.governed_by.margin
            return Remedy(
                "{what} {value} passes with {margin} margin"
                if margin is not None
                else "{what} {value} passes",
                {
                    "what": f"{decided.kind} of {decided.owner}:",
                    "value": offer.spell(candidate),
                    "margin": margin,
                },
                path=offer.path.format(owner=decided.owner),
                value=offer.spell(candidate),
            )
    return None
