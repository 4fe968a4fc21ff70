"""The open-circuit voltage of a string on the coldest morning, against everything that has to bear it."""

from collections.abc import Iterator

from ferrule.checks.array import run_of
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import strings
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, Verdict, at_most
from ferrule.design import Decided, Design
from ferrule.fact import Missing, Unknown, all_known, known
from ferrule.physics import module as physics_of_module
from ferrule.physics import scale
from ferrule.physics import strings as physics
from ferrule.working import Trace


def cold_voltage_v(design: Design, code: Code, string: str, t: Trace, modules: int | None = None) -> float:
    """Open-circuit voltage of a string (or of so many of its modules) on the coldest morning, in V.

    A factor that the site declares stands beside the temperature, and the higher result counts; it stands
    alone only where what the temperature needs is not known.
    """
    count = design.modules(string) if modules is None else modules
    declared = design.house.job.site.cold_factor
    if declared is None:
        return _by_temperature_v(design, code, string, t, count)
    voc_v = known(design.module(design.house.strings[string]).voc_v)
    each_v = t.calculate(
        scale.scaled_voltage,
        voltage_v=t.given("voc_v", voc_v, "the module's sheet"),
        factor=t.given("cold_factor", declared, "declared for this site"),
    )
    declared_v = t.calculate(physics.string_voltage, module_v=each_v, count=count)
    try:
        return max(declared_v, _by_temperature_v(design, code, string, t, count))
    except Missing:
        return declared_v


def _by_temperature_v(design: Design, code: Code, string: str, t: Trace, count: int) -> float:
    pv, site = design.house.strings[string], design.house.job.site
    module = design.module(pv)
    all_known(module.voc_v, site.coldest_c)
    voc_v = t.given("voc_v", known(module.voc_v), module.source)
    coldest_c = t.given("coldest_c", known(site.coldest_c), "site")
    coefficient = module.voc_coefficient
    technology = module.technology
    return covered(code.procedures.string_voltage).highest_v(
        t,
        modules=count,
        voc_v=voc_v,
        coefficient_v_per_k=None if isinstance(coefficient, Unknown) else coefficient.absolute(voc_v),
        coldest_c=coldest_c,
        technology="" if isinstance(technology, Unknown) else technology,
    )


def highest_on_input_v(design: Design, code: Code, terminal: str) -> tuple[Trace, float]:
    """The highest cold voltage among the strings of an input, with its working, in V."""
    judged = []
    for string in design.house.inputs[terminal]:
        t = code.trace()
        judged.append((cold_voltage_v(design, code, string.id, t), t))
    highest_v, t = max(judged, key=lambda pair: pair[0])
    return t, highest_v


def inverter_input(design: Design, code: Code, subject: Subject) -> Constraint:
    limit_v = known(design.tracker(design.house.strings[subject.id].input).voltage_max_v)
    return _below("inverter_input", "the inverter input withstands", design, code, subject.id, limit_v)


def straight_line(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """A coefficient draws a straight line, and cold cells lie a little above it: said where that matters.

    A convention, for no standard asks for that room; on the input, for that is what so little destroys.
    """
    pv, site = design.house.strings[subject.id], design.house.job.site
    part = design.module(pv)
    by_line = not isinstance(part.voc_coefficient, Unknown) and not isinstance(site.coldest_c, Unknown)
    if not by_line or part.technology == "thin-film":
        return None
    t = code.trace()
    limit_v = known(design.tracker(pv.input).voltage_max_v)
    line_v = _by_temperature_v(design, code, subject.id, t, design.modules(subject.id))
    clause = covered(code.procedures.string_voltage)
    shortfall_pct = clause.shortfall_pct(t, coldest_c=known(site.coldest_c))
    found = at_most(
        "straight_line",
        "{modules} modules may reach {value}, for in the cold a coefficient can be {shortfall_pct} short; "
        "the inverter input withstands {limit}",
        t,
        value=t.calculate(physics_of_module.above_the_line, voltage_v=line_v, shortfall_pct=shortfall_pct),
        limit=limit_v,
        unit="V",
        strict=True,
        binding=False,
        modules=design.modules(subject.id),
        shortfall_pct=shortfall_pct,
    )
    return None if found.verdict is Verdict.PASS else found


def module_system(design: Design, code: Code, subject: Subject) -> Constraint:
    limit_v = known(design.module(design.house.strings[subject.id]).system_voltage_max_v)
    return _below("module_system", "the modules are built for", design, code, subject.id, limit_v)


def connector(design: Design, code: Code, subject: Subject) -> Constraint:
    limit_v = known(design.module(design.house.strings[subject.id]).connector_voltage_max_v)
    return _below("connector", "the modules' connectors are rated", design, code, subject.id, limit_v)


def cable(design: Design, code: Code, subject: Subject) -> Constraint:
    limit_v = known(design.cable(run_of(design, subject.id).id).voltage_max_v)
    return _below("cable", "the cable is rated", design, code, subject.id, limit_v)


def fuse(design: Design, code: Code, subject: Subject) -> Constraint | None:
    try:
        fitted = design.fuse(subject.id)
    except Missing:  # still open: the question about fuses tells what it waits for
        return None
    if fitted is None:
        return None
    return _below("fuse", "the string fuse is rated", design, code, subject.id, known(fitted.voltage_max_v))


def isolator(design: Design, code: Code, subject: Subject) -> Constraint | None:
    try:
        fitted = design.isolator(design.house.strings[subject.id].input)
    except Missing:  # still open: the question about isolators tells what it waits for
        return None
    if fitted == "built-in":  # then the inverter's own limit covers it
        return None
    return _below("isolator", "the isolator is rated", design, code, subject.id, known(fitted.voltage_max_v))


def legal_cap(design: Design, code: Code, subject: Subject) -> Constraint:
    t = code.trace()
    limit_v = covered(code.procedures.string_voltage).cap_v(t, building=known(design.house.job.site.building))
    return _below("legal_cap", "the rules allow less than", design, code, subject.id, limit_v, t)


def _below(
    name: str, limits: str, design: Design, code: Code, string: str, limit_v: float, t: Trace | None = None
) -> Constraint:
    """Equality is not a pass: whatever bears a voltage is to stay above it."""
    t = t or code.trace()
    return at_most(
        name,
        f"{{modules}} modules reach {{value}} in the cold; {limits} {{limit}}",
        t,
        value=cold_voltage_v(design, code, string, t),
        limit=limit_v,
        unit="V",
        strict=True,
        modules=design.modules(string),
    )


def module_count(_design: Design, subject: Subject) -> Iterator[Decided]:
    yield Decided("modules", subject.id)


QUESTIONS = (
    Question(
        "string.cold_voltage",
        "Does the string stay below every voltage limit on the coldest morning?",
        strings,
        each(inverter_input, straight_line, module_system, connector, cable, fuse, isolator, legal_cap),
        module_count,
    ),
)
