"""The operating voltage of a string in heat and cold, against the windows of its inverter input."""

from ferrule.checks.array import operating_coefficient_v_per_k
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.string_voltage import module_count
from ferrule.checks.subjects import strings
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, at_least, at_most
from ferrule.design import Design
from ferrule.fact import all_known, known
from ferrule.physics import module as physics
from ferrule.physics import strings as series
from ferrule.working import Trace

_LONGER = "put more modules in series, or land the string on an input whose window begins lower"


def hottest_cell_c(design: Design, code: Code, string: str, t: Trace, *facts: object) -> float:
    """Temperature of a string's cells in full sun on the hottest day, by its face's mounting, in °C.

    Asks for the other `facts` of the question at the same time.
    """
    mounting = design.house.faces[design.house.strings[string].face].mounting
    hottest_c = design.house.job.site.hottest_c
    all_known(*facts, hottest_c, mounting)
    return covered(code.procedures.string_heat).hottest_cell_c(
        t,
        hottest_c=t.given("hottest_c", known(hottest_c), "site"),
        mounting=t.given("mounting", known(mounting), "face of the string"),
    )


def operating_module_v(design: Design, string: str, t: Trace, cell_c: float) -> float:
    """Voltage of one module of a string at its best power, in V."""
    module = design.module(design.house.strings[string])
    return t.calculate(
        physics.voltage_at_cell,
        stc_v=t.given("vmp_v", known(module.vmp_v), module.source),
        coefficient_v_per_k=operating_coefficient_v_per_k(module, t),
        cell_c=cell_c,
    )


def open_module_v(design: Design, string: str, t: Trace, cell_c: float) -> float:
    """Open-circuit voltage of one module of a string, in V: what an inverter sees before it starts."""
    module = design.module(design.house.strings[string])
    all_known(module.voc_v, module.voc_coefficient)
    return t.calculate(
        physics.voltage_at_cell,
        stc_v=t.given("voc_v", known(module.voc_v), module.source),
        coefficient_v_per_k=known(module.voc_coefficient).absolute(known(module.voc_v)),
        cell_c=cell_c,
    )


def tracking_low(design: Design, code: Code, subject: Subject) -> Constraint:
    """Below the tracking window the inverter can no longer hold the string at its best, and may drop out."""
    limit_v = known(design.tracker(design.house.strings[subject.id].input).tracking_low_v)
    return _hot("tracking_low", "the inverter tracks from {limit} on", design, code, subject.id, limit_v)


def full_power_low(design: Design, code: Code, subject: Subject) -> Constraint:
    limit_v = known(design.tracker(design.house.strings[subject.id].input).full_power_low_v)
    limits = "the input gives full power from {limit} on"
    return _hot("full_power_low", limits, design, code, subject.id, limit_v, binding=False)


def start(design: Design, code: Code, subject: Subject) -> Constraint:
    """Before it starts an inverter draws nothing, so it is the open-circuit voltage that it waits for."""
    t = code.trace()
    limit_v = known(design.tracker(design.house.strings[subject.id].input).start_v)
    module = design.module(design.house.strings[subject.id])
    cell_c = hottest_cell_c(design, code, subject.id, t, module.voc_v, module.voc_coefficient)
    open_v = open_module_v(design, subject.id, t, cell_c)
    return at_least(
        "start",
        "{modules} modules show {value} unloaded in the heat; the inverter starts at {limit}",
        t,
        value=t.calculate(series.string_voltage, module_v=open_v, count=design.modules(subject.id)),
        limit=limit_v,
        unit="V",
        mend=_LONGER,
        modules=design.modules(subject.id),
    )


def start_loaded(design: Design, code: Code, subject: Subject) -> Constraint:
    """A string that falls below the start voltage once it works may stop and start again and again."""
    limit_v = known(design.tracker(design.house.strings[subject.id].input).start_v)
    limits = "the inverter starts at {limit}"
    return _hot("start_loaded", limits, design, code, subject.id, limit_v, binding=False)


def _hot(
    name: str, limits: str, design: Design, code: Code, string: str, limit_v: float, *, binding: bool = True
) -> Constraint:
    """The working string on the hottest day must reach this limit."""
    t, vmp_v = code.trace(), design.module(design.house.strings[string]).vmp_v
    each_v = operating_module_v(design, string, t, hottest_cell_c(design, code, string, t, vmp_v))
    return at_least(
        name,
        f"{{modules}} modules fall to {{value}} in the heat; {limits}",
        t,
        value=t.calculate(series.string_voltage, module_v=each_v, count=design.modules(string)),
        limit=limit_v,
        unit="V",
        binding=binding,
        mend=_LONGER,
        modules=design.modules(string),
    )


def tracking_high(design: Design, code: Code, subject: Subject) -> Constraint:
    limit_v = known(design.tracker(design.house.strings[subject.id].input).tracking_high_v)
    return _cold("tracking_high", "the inverter tracks up to {limit}", design, code, subject.id, limit_v)


def full_power_high(design: Design, code: Code, subject: Subject) -> Constraint:
    limit_v = known(design.tracker(design.house.strings[subject.id].input).full_power_high_v)
    return _cold(
        "full_power_high", "the input gives full power up to {limit}", design, code, subject.id, limit_v
    )


def _cold(name: str, limits: str, design: Design, code: Code, string: str, limit_v: float) -> Constraint:
    """Above its windows an input takes less power and comes to no harm: that is asked of the open string."""
    t = code.trace()
    site, module = design.house.job.site, design.module(design.house.strings[string])
    all_known(module.vmp_v, site.coldest_c)
    coldest_c = t.given("coldest_c", known(site.coldest_c), "site; the cells as cold as the air")
    each_v = operating_module_v(design, string, t, coldest_c)
    return at_most(
        name,
        f"{{modules}} modules work at {{value}} in the cold; {limits}",
        t,
        value=t.calculate(series.string_voltage, module_v=each_v, count=design.modules(string)),
        limit=limit_v,
        unit="V",
        binding=False,
        modules=design.modules(string),
    )


QUESTIONS = (
    Question(
        "string.hot_voltage",
        "Does the string still reach the inverter's window on the hottest day?",
        strings,
        each(tracking_low, full_power_low, start, start_loaded),
        module_count,
    ),
    Question(
        "string.cold_operating_voltage",
        "Does the working string stay within the inverter's window in the cold?",
        strings,
        each(tracking_high, full_power_high),
        module_count,
    ),
)
