"""The voltage of a string in the cold and in the heat."""

from collections.abc import Iterator

from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import strings
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, at_most
from ferrule.design import Decided, Design
from ferrule.fact import Unknown, all_known, known
from ferrule.working import Trace


def cold_voltage_v(design: Design, code: Code, string: str, t: Trace) -> float:
    """Open-circuit voltage of a string on the coldest morning, in V."""
    pv, site = design.house.strings[string], design.house.job.site
    module = design.module(pv)
    all_known(module.voc_v, site.coldest_c)
    voc_v = t.given("voc_v", known(module.voc_v), module.source)
    coldest_c = t.given("coldest_c", known(site.coldest_c), "site")
    coefficient = module.voc_coefficient
    technology = module.technology
    return covered(code.procedures.string_voltage).highest_v(
        t,
        modules=design.modules(string),
        voc_v=voc_v,
        coefficient_v_per_k=None if isinstance(coefficient, Unknown) else coefficient.absolute(voc_v),
        coldest_c=coldest_c,
        technology="" if isinstance(technology, Unknown) else technology,
    )


def inverter_input(design: Design, code: Code, subject: Subject) -> Constraint:
    """Equality is not a pass: the input must stay below what it withstands."""
    t = code.trace()
    limit_v = known(design.tracker(design.house.strings[subject.id].input).voltage_max_v)
    return at_most(
        "inverter_input",
        "{modules} modules reach {value} in the cold; the inverter input withstands {limit}",
        t,
        value=cold_voltage_v(design, code, subject.id, t),
        limit=limit_v,
        unit="V",
        strict=True,
        modules=design.modules(subject.id),
    )


def module_system(design: Design, code: Code, subject: Subject) -> Constraint:
    t = code.trace()
    limit_v = known(design.module(design.house.strings[subject.id]).system_voltage_max_v)
    return at_most(
        "module_system",
        "{modules} modules reach {value} in the cold; the modules are built for {limit}",
        t,
        value=cold_voltage_v(design, code, subject.id, t),
        limit=limit_v,
        unit="V",
        modules=design.modules(subject.id),
    )


def legal_cap(design: Design, code: Code, subject: Subject) -> Constraint:
    t = code.trace()
    limit_v = covered(code.procedures.string_voltage).cap_v(t, building=known(design.house.job.site.building))
    return at_most(
        "legal_cap",
        "{modules} modules reach {value} in the cold; the rules allow {limit} here",
        t,
        value=cold_voltage_v(design, code, subject.id, t),
        limit=limit_v,
        unit="V",
        modules=design.modules(subject.id),
    )


def module_count(_design: Design, subject: Subject) -> Iterator[Decided]:
    yield Decided("modules", subject.id)


QUESTIONS = (
    Question(
        "string.cold_voltage",
        "Does the string stay below every voltage limit on the coldest morning?",
        strings,
        each(inverter_input, module_system, legal_cap),
        module_count,
    ),
)
