"""Choose what is open, in a fixed order and without going back, by the questions that check it.

Ratings and conductors come first, circuit by circuit from the origin outward; then the conductors that share
a path settle its voltage drop or rise; then everything that depends on these. The first candidate that passes
every question turning on it is taken, and what the one before it lacked is what governs: a choice reduced by
one step makes a named constraint fail.
"""

from collections.abc import Iterable, Sequence
from typing import Any, NamedTuple

from ferrule.checks.question import Question, Subject
from ferrule.choose.offers import AFTER_PATHS, BEFORE_PATHS, BY_KIND
from ferrule.choose.offers.offer import Offer
from ferrule.clauses import Code
from ferrule.clauses.procedures.base import Unasked
from ferrule.constraint import Constraint, Verdict
from ferrule.design import Decided, Design
from ferrule.fact import Missing, Open
from ferrule.job.firm import Firm

Asked = tuple[Question, Subject]
Turning = dict[Decided, list[Asked]]


class Lacked(NamedTuple):
    """A candidate passed over, and the constraint it did not meet, or not with the margin `wanted`."""

    value: Any
    question: str
    subject: Subject
    constraint: Constraint
    wanted: float = 0.0


class Choice(NamedTuple):
    """What was chosen for one decision; the last of `lacked` governed.

    `passes` is False where nothing on offer meets every limit: then the least bad was taken, and the
    findings say what it misses.
    """

    decided: Decided
    value: Any
    lacked: tuple[Lacked, ...]
    carried: bool
    passes: bool

    @property
    def governed_by(self) -> Lacked | None:
        return self.lacked[-1] if self.lacked else None


def turning_on(design: Design, questions: Iterable[Question]) -> Turning:
    """For each decision, the questions and subjects whose answer turns on it."""
    turning: Turning = {}
    for question in questions:
        for subject in question.about(design):
            for decided in question.decides(design, subject):
                turning.setdefault(decided, []).append((question, subject))
    return turning


def choose(
    design: Design, code: Code, firm: Firm, questions: Sequence[Question], turning: Turning
) -> tuple[Design, tuple[Choice, ...]]:
    """Make every choice the job leaves open and the facts allow."""
    chooser = _Chooser(design, code, firm, turning)
    chooser.make(BEFORE_PATHS, shared=False)
    chooser.settle([question for question in questions if question.shared])
    chooser.make(AFTER_PATHS, shared=True)
    # What only came with a choice, and was never made for itself, is still open.
    made = {decided: choice.value for decided, choice in chooser.made.items()}
    return chooser.design._replace(choices=made), tuple(chooser.made.values())


def tried(design: Design, decided: Decided, value: Any) -> Design:
    """The design with a candidate, and with what that brings."""
    return BY_KIND[decided.kind].tried(design, decided.owner, value)


class _Chooser:
    """The design as it grows, and the choices made so far."""

    def __init__(self, design: Design, code: Code, firm: Firm, turning: Turning) -> None:
        self.design, self.code, self.firm, self.turning = design, code, firm, turning
        self.made: dict[Decided, Choice] = {}
        self.offered: dict[Decided, Sequence[Any]] = {}

    def make(self, offers: Iterable[Offer], *, shared: bool) -> None:
        """Choose for every owner of every offer, leaving shared paths aside at first."""
        for offer in offers:
            for owner in offer.owners(self.design):
                decided = Decided(offer.kind, owner)
                if not isinstance(offer.given(self.design, owner), Open) or decided in self.made:
                    continue
                try:
                    self.offered[decided] = offer.candidates(self.design, self.code, self.firm, owner)
                except Unasked:
                    continue
                except Missing as missing:
                    self.design = self.design.wait(decided, missing.asks)
                    continue
                asked = [a for a in self.turning.get(decided, []) if shared or not a[0].shared]
                if not asked:  # nothing would tell a good one from a bad one
                    continue
                wanted = self.firm.margins.wanted(offer.kind)
                if not (wanted and self._take(decided, asked, wanted)):
                    self._take(decided, asked)

    def _take(self, decided: Decided, asked: Sequence[Asked], wanted: float = 0.0) -> bool:
        """Take the first candidate that passes, with the firm's margin where one is wanted."""
        lacked: list[Lacked] = []
        for candidate in self.offered[decided]:
            trial = tried(self.design, decided, candidate)
            short = shortfall(trial, self.code, candidate, asked, wanted)
            if short is None:
                self._note(decided, candidate, lacked, passes=True)
                return True
            if short.constraint.verdict is Verdict.UNKNOWN:
                self.design = self.design.wait(decided, short.constraint.find_out)
                return False
            lacked.append(short)
        if lacked and not wanted:
            at, beyond_help = self._least_bad(decided, lacked, asked)
            asks = self._hidden(decided, lacked[:at], asked, beyond_help)
            asks = asks or _unknown(tried(self.design, decided, lacked[at].value), self.code, asked)
            if asks:  # a miss hid it: the candidate was asked no further
                self.design = self.design.wait(decided, asks)
                return False
            self._note(decided, lacked[at].value, lacked[:at], passes=False)
        return False

    def _hidden(
        self, decided: Decided, before: Sequence[Lacked], asked: Sequence[Asked], beyond_help: "Missed"
    ) -> tuple[str, ...]:
        """What is unknown of a candidate before the one taken that fails nothing but what all fail: with the
        fact known it might have been the one to take.
        """
        for passed_over in before:
            trial = tried(self.design, decided, passed_over.value)
            short = shortfall(trial, self.code, passed_over.value, asked, beyond_help=beyond_help)
            if short is not None and short.constraint.verdict is Verdict.UNKNOWN:
                return short.constraint.find_out
        return ()

    def _least_bad(
        self, decided: Decided, lacked: Sequence[Lacked], asked: Sequence[Asked]
    ) -> tuple[int, "Missed"]:
        """What to take where nothing passes, so that the findings tell what is missed: the first that misses
        only what all the others miss by as much, which is not for this choice to mend; else the first that
        fails nothing; else the largest, or where size does not tell, what fails in the fewest ways and least.
        With it what is beyond help.
        """
        trials = [tried(self.design, decided, short.value) for short in lacked]
        missed = [_missed(trial, self.code, asked) for trial in trials]
        same = _values(trials[0], self.code, asked) & _values(trials[-1], self.code, asked)
        beyond_help = frozenset.intersection(*missed) & {missing for missing, _ in same}
        least = [misses == beyond_help for misses in missed]
        mild = [short.constraint.verdict is Verdict.CAUTION for short in lacked]
        if any(least) or any(mild):
            return (least if any(least) else mild).index(True), beyond_help
        if BY_KIND[decided.kind].graded:
            return len(lacked) - 1, beyond_help
        failures = [_failure(trial, self.code, asked) for trial in trials]
        return failures.index(min(failures)), beyond_help

    def _note(self, decided: Decided, value: Any, lacked: Sequence[Lacked], *, passes: bool) -> None:
        self.design = tried(self.design, decided, value)
        self.made[decided] = Choice(decided, value, tuple(lacked), self._carries(value), passes)

    def _carries(self, value: Any) -> bool:
        firm = self.firm
        carried = (firm.sizes, firm.ratings_a, firm.breaking_capacity_a, [firm.curve], firm.anchors)
        return any(value in kind for kind in carried)

    def settle(self, questions: Iterable[Question]) -> None:
        """Thicken the open conductors of each shared path until it passes, the most telling step first."""
        for question in questions:
            for subject in question.about(self.design):
                open_ones = [d for d in question.decides(self.design, subject) if d in self.made]
                if open_ones:
                    self._settle_path((question, subject), open_ones)

    def _settle_path(self, asked: Asked, open_ones: Sequence[Decided]) -> None:
        start, mild = self.design, None
        while (short := shortfall(self.design, self.code, None, [asked])) is not None:
            if short.constraint.verdict is Verdict.UNKNOWN:
                self.design = start
                return
            if short.constraint.verdict is Verdict.CAUTION and mild is None:
                mild = self.design
            steps = [step for d in open_ones if (step := self._thicker(d)) is not None]
            if not steps:
                self.design = mild or start
                break
            self.design = min(steps, key=lambda step: self._miss(step, asked))
        for decided in reversed(open_ones):
            self._trim(decided)

    def _miss(self, design: Design, asked: Asked) -> float:
        question, subject = asked
        return max((c.value or 0.0 for c in question.ask(design, self.code, subject)), default=0.0)

    def _thicker(self, decided: Decided) -> Design | None:
        sizes, now = list(self.offered[decided]), self.design.choices[decided]
        at = sizes.index(now) + 1
        return tried(self.design, decided, sizes[at]) if at < len(sizes) else None

    def _trim(self, decided: Decided) -> None:
        """Note the size reached, or the one before it for as long as that passes as well."""
        sizes, asked = list(self.offered[decided]), self.turning[decided]
        now = self.design.choices[decided]
        if now == self.made[decided].value:
            return
        lacked = list(self.made[decided].lacked)
        reached = _missed(self.design, self.code, asked)
        for candidate in sizes[len(lacked) : sizes.index(now)]:
            trial = tried(self.design, decided, candidate)
            if _missed(trial, self.code, asked) <= reached:
                now = candidate
                break
            short = shortfall(trial, self.code, candidate, asked, beyond_help=reached)
            if short is not None:
                lacked.append(short)
        self._note(decided, now, lacked, passes=not reached)


Missed = frozenset[tuple[str, Subject, str]]


def shortfall(
    design: Design,
    code: Code,
    candidate: Any,
    asked: Sequence[Asked],
    wanted: float = 0.0,
    beyond_help: Missed = frozenset(),
) -> Lacked | None:
    """The worst a candidate lacks, be it only a margin less than wanted; None if it passes everything.

    Limits that only wait for another decision do not count, nor those `beyond_help`.
    """
    worst: Lacked | None = None
    for question, subject in asked:
        for constraint in question.ask(design, code, subject):
            if constraint.waits or (question.id, subject, constraint.name) in beyond_help:
                continue
            if constraint.verdict is Verdict.PASS and _roomy(constraint, wanted):
                continue
            if worst is None or constraint.verdict > worst.constraint.verdict:
                worst = Lacked(candidate, question.id, subject, constraint, wanted)
            if constraint.verdict is Verdict.FAIL:  # nothing is worse
                return worst
    return worst


def _unknown(design: Design, code: Code, asked: Sequence[Asked]) -> tuple[str, ...]:
    """What has to be found out before a candidate can be judged whole."""
    return tuple(
        ask
        for question, subject in asked
        for constraint in question.ask(design, code, subject)
        if constraint.verdict is Verdict.UNKNOWN and not constraint.waits
        for ask in constraint.find_out
    )


def _missed(design: Design, code: Code, asked: Sequence[Asked]) -> Missed:
    """The constraints that a design misses, by question, subject and name."""
    return frozenset(
        (question.id, subject, constraint.name)
        for question, subject in asked
        for constraint in question.ask(design, code, subject)
        if constraint.verdict is not Verdict.PASS and not constraint.waits
    )


def _failure(design: Design, code: Code, asked: Sequence[Asked]) -> tuple[int, float]:
    """How many limits a design fails outright, and by how much at the worst."""
    failed = [
        constraint
        for question, subject in asked
        for constraint in question.ask(design, code, subject)
        if constraint.verdict is Verdict.FAIL
    ]
    return len(failed), max((-(each.margin or 0.0) for each in failed), default=0.0)


def _values(
    design: Design, code: Code, asked: Sequence[Asked]
) -> frozenset[tuple[tuple[str, Subject, str], float | None]]:
    """The same for every constraint, each with its value."""
    return frozenset(
        ((question.id, subject, constraint.name), constraint.value)
        for question, subject in asked
        for constraint in question.ask(design, code, subject)
    )


def _roomy(constraint: Constraint, wanted: float) -> bool:
    return constraint.margin is None or constraint.margin >= wanted
