"""Strings of modules: voltage, length, reverse current and fuse, the place of an earth fault."""

from typing import Annotated, NamedTuple

from ferrule.calculators.calculator import About, Calculator
from ferrule.calculators.coefficient import VoltageCoefficient
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, Verdict
from ferrule.physics import insulation, module
from ferrule.physics import strings as physics
from ferrule.quantity import Count, CurrentA, TemperatureC, Unit, VoltageV
from ferrule.working import Trace

ColdestC = Annotated[TemperatureC, About("coldest air temperature of the place")]
VocV = Annotated[float, Unit("V", 1, 500), About("open-circuit voltage of one module at standard conditions")]


class StringVoltage(NamedTuple):
    module_v: Annotated[VoltageV, About("one module", "up")]
    string_v: Annotated[VoltageV, About("the string", "up")]
    most_v: Annotated[
        VoltageV, About("the string, as far as cold crystalline cells lie above the coefficient's line", "up")
    ]


def string_voltage(
    t: Trace,
    *,
    code: Code,
    modules: Annotated[int, Unit("", 1, 1_000, whole=True), About("modules in series")],
    voc_v: VocV,
    voc_coefficient: VoltageCoefficient,
    coldest_c: ColdestC,
) -> StringVoltage:
    """Open-circuit voltage of a string on the coldest morning."""
    module_v = _at_cell_v(t, voc_v, voc_coefficient, coldest_c)
    string_v = t.calculate(physics.string_voltage, module_v=module_v, count=modules)
    return StringVoltage(module_v, string_v, _above_the_line_v(t, code, string_v, coldest_c))


def _above_the_line_v(t: Trace, code: Code, voltage_v: float, coldest_c: float) -> float:
    """A coefficient draws a straight line; the check of a string has a look at what lies above it."""
    shortfall_pct = covered(code.procedures.string_voltage).shortfall_pct(t, coldest_c=coldest_c)
    return t.calculate(module.above_the_line, voltage_v=voltage_v, shortfall_pct=shortfall_pct)


def _at_cell_v(t: Trace, stc_v: float, coefficient: VoltageCoefficient, cell_c: float) -> float:
    return t.calculate(
        module.voltage_at_cell,
        stc_v=stc_v,
        coefficient_v_per_k=coefficient.in_volts(t, stc_v),
        cell_c=cell_c,
    )


class StringLength(NamedTuple):
    longest: Annotated[Count, About("most modules")]
    longest_above_line: Annotated[
        Count, About("most modules, as far as cold crystalline cells lie above the coefficient's line")
    ]
    shortest: Annotated[Count, About("fewest modules")]
    cold_module_v: Annotated[VoltageV, About("open circuit of one module in the cold", "up")]
    hot_module_v: Annotated[VoltageV, About("one module at work in the heat", "down")]


def string_length(
    t: Trace,
    *,
    code: Code,
    voltage_max_v: Annotated[VoltageV, About("voltage that must not be reached, the least of all limits")],
    voltage_min_v: Annotated[VoltageV, About("voltage that is needed: start or lower end of the window")],
    voc_v: VocV,
    voc_coefficient: VoltageCoefficient,
    vmp_v: Annotated[
        float, Unit("V", 1, 500), About("voltage of one module at maximum power, standard conditions")
    ],
    vmp_coefficient: VoltageCoefficient,
    coldest_c: ColdestC,
    hottest_cell_c: Annotated[TemperatureC, About("cell temperature on the hottest day")],
) -> StringLength:
    """Most and fewest modules of a string, between what destroys the inverter and what it needs to work."""
    cold_v = _at_cell_v(t, voc_v, voc_coefficient, coldest_c)
    hot_v = _at_cell_v(t, vmp_v, vmp_coefficient, hottest_cell_c)
    longest = t.calculate(physics.longest_string_below, limit_v=voltage_max_v, module_v=cold_v)
    most_v = _above_the_line_v(t, code, cold_v, coldest_c)
    above_line = t.calculate(physics.longest_string_below, limit_v=voltage_max_v, module_v=most_v)
    shortest = t.calculate(physics.shortest_string, needed_v=voltage_min_v, module_v=hot_v)
    return StringLength(longest, above_line, shortest, cold_v, hot_v)


class StringFuse(NamedTuple):
    needed: Annotated[bool, About("whether the modules need fuses")]
    reverse_a: Annotated[CurrentA, About("what can flow back into a faulted string", "up")]
    rating_a: Annotated[CurrentA | None, About("smallest rating that fits, where one is needed")]
    rating_most_a: Annotated[CurrentA | None, About("largest rating that fits, where one is needed")]


def string_fuse(
    t: Trace,
    *,
    code: Code,
    strings: Annotated[
        int, Unit("", 1, 1_000, whole=True), About("strings tied together, the faulted one included")
    ],
    isc_a: Annotated[
        float, Unit("A", 0.1, 100), About("short-circuit current of one string at standard conditions")
    ],
    series_fuse_max_a: Annotated[CurrentA, About("maximum series fuse of the modules")],
    backfeed_a: Annotated[CurrentA, About("what the inverter can feed back")] = 0.0,
) -> StringFuse:
    """Whether parallel strings need fuses, and which ratings protect modules without tripping in the sun."""
    clause = covered(code.procedures.string_fuse)
    (unfused,) = clause.unfused(
        code.rulebook,
        count=strings,
        short_circuit_a=isc_a,
        backfeed_a=backfeed_a,
        module_limit_a=series_fuse_max_a,
    )
    t.steps.extend(unfused.steps)
    reverse_a = physics.reverse_current(string_a=isc_a, strings=strings, backfeed_a=backfeed_a)
    if unfused.verdict is Verdict.PASS:
        return StringFuse(False, reverse_a, None, None)
    judged = {
        rating_a: list(
            clause.fused(
                code.rulebook,
                rating_a=rating_a,
                poles="both",
                short_circuit_a=isc_a,
                module_limit_a=series_fuse_max_a,
            )
        )
        for rating_a in clause.ratings_a(code.rulebook)
    }
    for constraint in judged[min(judged)]:
        t.steps.extend(constraint.steps)
    fitting = [rating_a for rating_a, found in judged.items() if _all_pass(found)]
    return StringFuse(
        True,
        reverse_a,
        min(fitting, default=None),
        max(fitting, default=None),
    )


def _all_pass(found: list[Constraint]) -> bool:
    return all(constraint.verdict is Verdict.PASS for constraint in found)


CALCULATORS = (
    Calculator(
        "string-voltage",
        string_voltage,
        "IEC 62548-1:2023 clause 7.2",
        {"modules": "12", "voc": "38.9 V", "voc_coefficient": "-0.26 %/K", "coldest": "-16 °C"},
    ),
    Calculator(
        "string-length",
        string_length,
        "IEC 62548-1:2023 clause 7.2",
        {
            "voltage_max": "600 V",
            "voltage_min": "240 V",
            "voc": "38.9 V",
            "voc_coefficient": "-0.26 %/K",
            "vmp": "32.4 V",
            "vmp_coefficient": "-0.33 %/K",
            "coldest": "-16 °C",
            "hottest_cell": "70 °C",
        },
    ),
    Calculator(
        "string-fuse",
        string_fuse,
        "IEC 62548-1:2023 and IEC 60364-7-712:2017 on overcurrent protection of strings",
        {"strings": "3", "isc": "13.9 A", "series_fuse_max": "25 A"},
    ),
    Calculator(
        "reverse-current",
        physics.reverse_current,
        "IEC 62548-1:2023 on overcurrent protection of strings",
        {"string": "13.9 A", "strings": "3", "backfeed": "0 A"},
        result="current_a",
        about={
            "string_a": About("short-circuit current of one string"),
            "strings": About("strings tied together, the faulted one included"),
            "backfeed_a": About("what the input can feed back from behind"),
            "return": About("flows back into the faulted string", "up"),
        },
    ),
    Calculator(
        "earth-fault-place",
        physics.modules_to_earth_fault,
        "Ohm's law along the string, one fault",
        {"count": "12", "positive": "180 V", "negative": "280 V"},
        result="modules",
        about={
            "count": About("modules of the string"),
            "positive_v": About("positive pole against earth, without sign"),
            "negative_v": About("negative pole against earth, without sign"),
            "return": About("modules between the positive end and the fault"),
        },
    ),
    Calculator(
        "earth-fault-resistance",
        insulation.earth_fault_resistance,
        "Ohm's law with the meter's own resistance, one fault",
        {"meter": "10 Mohm", "open": "460 V", "positive": "180 V", "negative": "270 V"},
        result="resistance_ohm",
        about={
            "meter_ohm": About("input resistance of the voltmeter"),
            "open_v": About("between the poles"),
            "positive_v": About("positive pole against earth, without sign"),
            "negative_v": About("negative pole against earth, without sign"),
            "return": About("the string's one earth fault"),
        },
    ),
)
