"""The size of the array beside that of its inverter."""

from collections.abc import Iterator

from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import inverters
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, at_most
from ferrule.design import Decided, Design
from ferrule.fact import all_known, known
from ferrule.job.array import PvString


def _strings(design: Design, inverter: str) -> tuple[PvString, ...]:
    return design.house.strings_of.get(inverter, ())


def _array_w(design: Design, inverter: str) -> float:
    strings = _strings(design, inverter)
    all_known(*(design.module(string).power_w for string in strings))
    return sum(design.modules(string.id) * known(design.module(string).power_w) for string in strings)


def pv_power(design: Design, code: Code, subject: Subject) -> Constraint | None:
    if not _strings(design, subject.id):
        return None
    return at_most(
        "pv_power",
        "The array is rated {value}; the inverter may have {limit} connected",
        code.trace(),
        value=_array_w(design, subject.id),
        limit=known(design.inverter(subject.id).pv_power_max_w),
        unit="W",
        mend="leave modules off {inverter}, or take an inverter made for more",
        inverter=subject.id,
    )


def usual(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    if not _strings(design, subject.id):
        return
    yield from covered(code.procedures.array_size).usual(
        code.rulebook,
        array_w=_array_w(design, subject.id),
        inverter_w=known(design.inverter(subject.id).grid.power_w),
        battery=bool(design.house.topology.at(f"{subject.id}.battery")),
    )


def module_counts(design: Design, subject: Subject) -> Iterator[Decided]:
    """How many modules each of the inverter's strings has."""
    return (Decided("modules", string.id) for string in _strings(design, subject.id))


QUESTIONS = (
    Question(
        "inverter.dc_ac_ratio",
        "Does the array suit the inverter in size?",
        inverters,
        each(pv_power, usual),
        module_counts,
    ),
)
