"""Whether inverters bear the height of the site: thin air cools less and insulates less."""

from collections.abc import Iterable

from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import inverters
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, at_most
from ferrule.design import Design
from ferrule.fact import all_known, known


def highest(design: Design, code: Code, subject: Subject) -> Constraint:
    altitude_m, part = design.house.job.site.altitude_m, design.inverter(subject.id)
    all_known(altitude_m, part.altitude_max_m)
    return at_most(
        "highest",
        "The site lies at {value}; the inverter may be used up to {limit}",
        code.trace(),
        value=known(altitude_m),
        limit=known(part.altitude_max_m),
        unit="m",
        mend="take an inverter made for this height",
    )


def full_power(design: Design, code: Code, subject: Subject) -> Constraint | None:
    limit_m = design.inverter(subject.id).full_power_altitude_m
    if limit_m is None:
        return None
    return at_most(
        "full_power",
        "The site lies at {value}; the inverter gives its full power up to {limit}",
        code.trace(),
        value=known(design.house.job.site.altitude_m),
        limit=limit_m,
        unit="m",
        binding=False,
        mend="reckon with less power, as the inverter's sheet says for this height",
    )


def thin_air(design: Design, code: Code, subject: Subject) -> Iterable[Constraint] | None:
    """Convention takes off power where the sheet names no height for it."""
    if design.inverter(subject.id).full_power_altitude_m is not None:
        return None
    altitude_m = known(design.house.job.site.altitude_m)
    return covered(code.procedures.air).cooling(code.rulebook, altitude_m=altitude_m)


def insulation(design: Design, code: Code, _subject: Subject) -> Iterable[Constraint]:
    altitude_m = known(design.house.job.site.altitude_m)
    return covered(code.procedures.air).insulation(code.rulebook, altitude_m=altitude_m)


QUESTIONS = (
    Question(
        "inverter.altitude",
        "Is the inverter made for the height of the site?",
        inverters,
        each(highest, full_power, thin_air, insulation),
    ),
)
