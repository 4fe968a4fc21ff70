"""The neutral-earth bond in each switch position."""

from collections.abc import Iterator

from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import positions
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint
from ferrule.design import Design
from ferrule.fact import known


def bonds(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    topology, earthing = design.house.topology, known(design.house.job.supply.earthing)
    position = next(p for p in topology.positions if p == subject.position)
    for zone in topology.zones[position]:
        yield from covered(code.procedures.neutral_earth).bonds(
            code.rulebook,
            position=position,
            earthing=earthing,
            closed=len(topology.closed_bonds(zone, position)),
        )


QUESTIONS = (
    Question(
        "earth.neutral_bond",
        "Is the neutral joined to earth exactly once?",
        positions,
        each(bonds),
    ),
)
