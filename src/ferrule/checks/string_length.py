"""The longest and the shortest string that an inverter input allows."""

from ferrule.checks.question import Question, Subject, each
from ferrule.checks.string_operating import hottest_cell_c, open_module_v, operating_module_v
from ferrule.checks.string_voltage import cold_voltage_v, module_count
from ferrule.checks.subjects import strings
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, within
from ferrule.design import Design
from ferrule.fact import all_known, known
from ferrule.physics import strings as physics
from ferrule.working import Trace

#: a count, and what set it
End = tuple[int, str]


def length(design: Design, code: Code, subject: Subject) -> Constraint:
    """The longest rounded down from what it may reach in the cold, the shortest up from the heat."""
    pv, site = design.house.strings[subject.id], design.house.job.site
    module, tracker = design.module(pv), design.tracker(pv.input)
    all_known(
        module.voc_v, module.vmp_v, module.system_voltage_max_v, site.hottest_c, site.building,
        tracker.voltage_max_v, tracker.tracking_low_v, tracker.start_v, design.house.faces[pv.face].mounting,
    )  # fmt: skip
    t = code.trace()
    longest, longest_by = _longest(design, code, subject.id, t)
    shortest, shortest_by = _shortest(design, code, subject.id, t)
    return within(
        "length",
        "{value} modules; from {low} ({shortest_by}) to {high} ({longest_by}) are allowed",
        t,
        value=design.modules(subject.id),
        low=shortest,
        high=longest,
        unit="count",
        shortest_by=shortest_by,
        longest_by=longest_by,
    )


def _longest(design: Design, code: Code, string: str, t: Trace) -> End:
    pv = design.house.strings[string]
    cold_v = cold_voltage_v(design, code, string, t, modules=1)
    building = known(design.house.job.site.building)
    limits = (
        (known(design.tracker(pv.input).voltage_max_v), "the inverter input in the cold"),
        (known(design.module(pv).system_voltage_max_v), "the modules' system voltage in the cold"),
        (covered(code.procedures.string_voltage).cap_v(t, building=building), "the rules for this building"),
    )
    return min(
        (t.calculate(physics.longest_string_below, limit_v=limit_v, module_v=cold_v), by)
        for limit_v, by in limits
    )


def _shortest(design: Design, code: Code, string: str, t: Trace) -> End:
    tracker = design.tracker(design.house.strings[string].input)
    cell_c = hottest_cell_c(design, code, string, t)
    loaded_v, open_v = (v(design, string, t, cell_c) for v in (operating_module_v, open_module_v))
    needs = (
        (known(tracker.tracking_low_v), loaded_v, "the tracking window in the heat"),
        (known(tracker.start_v), open_v, "the start voltage in the heat"),
    )
    return max(
        (t.calculate(physics.shortest_string, needed_v=needed_v, module_v=module_v), by)
        for needed_v, module_v, by in needs
    )


QUESTIONS = (
    Question(
        "string.length",
        "Is the string neither longer nor shorter than the inverter allows?",
        strings,
        each(length),
        module_count,
    ),
)
