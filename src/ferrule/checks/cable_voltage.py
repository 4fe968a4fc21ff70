"""Whether a cable of alternating current is made for the voltage of the supply."""

import cmath
import math
from collections.abc import Iterator
from itertools import combinations

from ferrule.checks.question import Question, Subject, each
from ferrule.clauses import Code
from ferrule.constraint import Constraint, at_least
from ferrule.design import Design
from ferrule.fact import known
from ferrule.job.site import LiveConductor


def ac_runs(design: Design) -> Iterator[Subject]:
    return (Subject("run", run) for run in design.house.ac_runs)


def rated(design: Design, code: Code, subject: Subject) -> Constraint:
    """Against the nominal voltage from a line to earth; in an IT system a first fault stays, and raises the
    other lines to the voltage between lines.
    """
    supply = design.house.job.supply
    lines_v = [line.voltage_v for line in supply.live]
    if known(supply.earthing) == "IT":
        lines_v += [abs(_phasor(one) - _phasor(other)) for one, other in combinations(supply.live, 2)]
    cable = design.cable(subject.id)
    return at_least(
        "rated",
        "The cable is rated {value} to earth; the supply brings it to {limit}",
        code.trace(),
        value=known(cable.voltage_max_v),
        limit=max(lines_v),
        unit="V",
        mend="take a cable rated {limit} to earth or more",
    )


def _phasor(line: LiveConductor) -> complex:
    return cmath.rect(line.voltage_v, math.radians(line.angle_deg))


QUESTIONS = (
    Question(
        "run.voltage",
        "Is the cable made for the voltage of the supply?",
        ac_runs,
        each(rated),
    ),
)
