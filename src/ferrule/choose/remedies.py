"""What to change so that a finding passes, found by asking the same questions of other sizes."""

from collections.abc import Iterator

from ferrule.checks.question import Finding, Question, Remedy
from ferrule.choose.engine import Asked, Turning, shortfall
from ferrule.choose.offers import BY_KIND, named, spelled
from ferrule.clauses import Code
from ferrule.clauses.procedures.base import Unasked
from ferrule.constraint import Verdict
from ferrule.design import Decided, Design
from ferrule.fact import Missing
from ferrule.job.firm import Firm


def remedies(
    design: Design, code: Code, firm: Firm, turning: Turning, question: Question, finding: Finding
) -> Iterator[Remedy]:
    """For a finding that fails or is a caution: each single change that mends it, then the stated advice."""
    if finding.verdict not in {Verdict.FAIL, Verdict.CAUTION}:
        return
    for decided in question.decides(design, finding.subject):
        others = [asked for asked in turning[decided] if asked != (question, finding.subject)]
        remedy = _other_size(design, code, firm, decided, (question, finding.subject), others)
        if remedy is not None:
            yield remedy
    told: list[Remedy] = []
    for constraint in sorted(finding.constraints, key=lambda each: -each.verdict):
        advice = Remedy(constraint.mend, dict(constraint.words))
        if advice.text and not any(_alike(advice, other) for other in told):
            told.append(advice)
            yield advice


def _alike(one: Remedy, other: Remedy) -> bool:
    """Whether two advices read the same: one text, and the same words where it has any."""
    return one.text == other.text and ("{" not in one.text or one.words == other.words)


def _other_size(
    design: Design, code: Code, firm: Firm, decided: Decided, asked: Asked, others: list[Asked]
) -> Remedy | None:
    """The first size on offer with which the question passes and nothing else becomes worse."""
    offer = BY_KIND.get(decided.kind)
    if offer is None:
        return None
    try:
        candidates = offer.candidates(design, code, firm, decided.owner)
    except (Missing, Unasked):
        return None
    for candidate in candidates:
        trial = offer.tried(design, decided.owner, candidate)
        if shortfall(trial, code, candidate, [asked]) is None and all(
            _verdict(trial, code, other) <= _verdict(design, code, other) for other in others
        ):
            return _proposal(trial, code, decided, candidate, asked)
    return None


def _verdict(design: Design, code: Code, asked: Asked) -> Verdict:
    question, subject = asked
    return max((c.verdict for c in question.ask(design, code, subject)), default=Verdict.PASS)


def _proposal(trial: Design, code: Code, decided: Decided, candidate: object, asked: Asked) -> Remedy:
    question, subject = asked
    margins = [c.margin for c in question.ask(trial, code, subject) if c.margin is not None]
    value = spelled(decided.kind, candidate)
    words = {"what": named(decided.kind), "owner": decided.owner, "value": value}
    remedy = Remedy(
        "{what} of {owner}: {value} passes",
        words,
        path=BY_KIND[decided.kind].path.format(owner=decided.owner),
        value=value,
    )
    if min(margins, default=0.0) > 0:
        return remedy._replace(
            text=remedy.text + " with {margin} margin", words={**words, "margin": min(margins)}
        )
    return remedy
