"""The one door: a loaded job in, every finding out."""

from typing import NamedTuple

from ferrule.checks import QUESTIONS
from ferrule.checks.ask import findings
from ferrule.checks.question import Finding
from ferrule.choose import Choice, choose, remedies, turning_on
from ferrule.clauses import Code, bind
from ferrule.constraint import Verdict
from ferrule.design import Design, House
from ferrule.grade import Grade
from ferrule.job.assumptions import Assumption, assumptions
from ferrule.job.load import Loaded
from ferrule.rules import load as load_rulebook
from ferrule.rules import read_confirmed
from ferrule.wiring.recipes import topology


class Answer(NamedTuple):
    """Everything Ferrule has to say about one revision of a job under one rulebook."""

    loaded: Loaded
    code: Code
    design: Design
    choices: tuple[Choice, ...]
    findings: tuple[Finding, ...]

    @property
    def cleared(self) -> bool:
        """Nothing fails, nothing is unknown, and no deciding figure stands on memory alone."""
        return all(
            finding.verdict in {Verdict.PASS, Verdict.CAUTION} and finding.grade is not Grade.MEMORY
            for finding in self.findings
        )

    @property
    def assumptions(self) -> list[Assumption]:
        """What the job takes for granted."""
        return assumptions(self.loaded.job, self.loaded.origins)

    @property
    def worst(self) -> Verdict:
        return max((finding.verdict for finding in self.findings), default=Verdict.UNKNOWN)

    @property
    def from_memory(self) -> tuple[str, ...]:
        """The figures of grade memory that keep the job from being cleared, by name."""
        return tuple(
            sorted(
                {
                    read.table
                    for finding in self.findings
                    for constraint in finding.constraints
                    if constraint.binding
                    for read in constraint.reads
                    if read.grade is Grade.MEMORY
                }
            )
        )


def answer(loaded: Loaded) -> Answer:
    """Choose what the job leaves open, ask every question, and name a change for what does not pass."""
    code = bind(load_rulebook(loaded.job.rulebook, read_confirmed(loaded.confirmed)))
    design = Design(House(loaded.job, topology(loaded.job)))
    turning = turning_on(design, QUESTIONS)
    design, choices = choose(design, code, loaded.firm, QUESTIONS, turning)
    by_id = {question.id: question for question in QUESTIONS}
    found = tuple(
        finding._replace(
            remedies=tuple(remedies(design, code, loaded.firm, turning, by_id[finding.id], finding)),
        )
        for finding in tuple(findings(design, code, QUESTIONS))  # before any remedy tries other sizes
    )
    return Answer(loaded, code, design, choices, found)
