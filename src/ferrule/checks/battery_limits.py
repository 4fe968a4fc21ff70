"""Whether a battery fits its inverter, its neighbours and its place."""

from collections.abc import Iterator

from ferrule.checks.battery import charge_a, discharge_a, feeds, port
from ferrule.checks.current import cable_kind
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import batteries
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, at_least, at_most, is_so, within
from ferrule.design import Design
from ferrule.fact import Fact, Missing, all_known, known
from ferrule.physics import battery as physics
from ferrule.physics import conductor, scale
from ferrule.working import Trace

_FITTING = "take a battery that {inverter} is made for, or an inverter made for this battery"


def window(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    part = design.battery(subject.id)
    for feed in feeds(design, subject.id):
        limits = port(design, feed.inverter)
        all_known(
            limits.voltage_low_v, limits.voltage_high_v,
            part.voltage_low_v, part.voltage_nominal_v, part.voltage_high_v,
        )  # fmt: skip
        yield within(
            "nominal",
            "The battery has {value}; {inverter} works from {low} to {high}",
            code.trace(),
            value=known(part.voltage_nominal_v),
            low=known(limits.voltage_low_v),
            high=known(limits.voltage_high_v),
            unit="V",
            mend=_FITTING,
            inverter=feed.inverter,
        )
        yield at_most(
            "highest",
            "At the end of charging the battery has {value}; {inverter} bears {limit}",
            code.trace(),
            value=known(part.voltage_high_v),
            limit=known(limits.voltage_high_v),
            unit="V",
            mend=_FITTING,
            inverter=feed.inverter,
        )
        yield at_least(
            "lowest",
            "The battery may be used down to {value}; {inverter} stops at {limit} and leaves the rest",
            code.trace(),
            value=known(part.voltage_low_v),
            limit=known(limits.voltage_low_v),
            unit="V",
            binding=False,
            inverter=feed.inverter,
        )


def charging(design: Design, code: Code, subject: Subject) -> Constraint:
    t, part = code.trace(), design.battery(subject.id)
    limit_a = known(part.charge_max_a)
    return at_most(
        "charging",
        "Charged with up to {value}; the battery takes {limit} for hours",
        t,
        value=charge_a(design, subject.id, t),
        limit=_together_a(design, subject.id, limit_a, t),
        unit="A",
        mend="set the inverter's charge current to what the battery takes, or add a pack",
    )


def discharging(design: Design, code: Code, subject: Subject) -> Constraint:
    t, part = code.trace(), design.battery(subject.id)
    limit_a = known(part.discharge_max_a)
    return at_most(
        "discharging",
        "At full power {value} are drawn; the battery gives {limit} for hours",
        t,
        value=discharge_a(design, subject.id, t),
        limit=_together_a(design, subject.id, limit_a, t),
        unit="A",
        mend="set the inverter's discharge current to what the battery gives, or add a pack",
    )


def _together_a(design: Design, battery: str, each_a: float, t: Trace) -> float:
    """What all packs bear, loaded alike."""
    stated_a = t.given("each_a", each_a, f"{design.battery(battery).source}, each pack")
    return t.calculate(scale.scaled_current, current_a=stated_a, factor=design.battery_device(battery).packs)


def allowed(design: Design, code: Code, subject: Subject) -> Constraint | None:
    packs = design.battery_device(subject.id).packs
    if packs == 1:
        return None
    return at_most(
        "allowed",
        "{value} packs side by side; their maker allows {limit}",
        code.trace(),
        value=packs,
        limit=known(design.battery(subject.id).parallel_max),
        unit="count",
        mend="leave packs off, or ask their maker for more",
    )


def equal_leads(design: Design, code: Code, subject: Subject) -> Constraint | None:
    device = design.battery_device(subject.id)
    if device.packs == 1:
        return None
    leads_m = _leads_m(design, subject.id)
    shortest_m, longest_m = min(leads_m), max(leads_m)
    return is_so(
        "equal_leads",
        "The packs' leads are {shortest_m} to {longest_m} long; alike, they share the current alike",
        code.trace(),
        shortest_m == longest_m,
        binding=False,
        mend="make the leads of all packs alike in length and size",
        shortest_m=shortest_m,
        longest_m=longest_m,
    )


def sharing(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """The pack with the shortest leads, all others taken to have the longest."""
    device, part = design.battery_device(subject.id), design.battery(subject.id)
    if device.packs == 1:
        return
    leads_m = _leads_m(design, subject.id)
    all_known(part.internal_ohm, device.pack_lead_size, part.charge_max_a, part.discharge_max_a)
    for name, flows, demand_a, limit_a in (
        ("pack_charge", "is charged with", charge_a, known(part.charge_max_a)),
        ("pack_discharge", "gives", discharge_a, known(part.discharge_max_a)),
    ):
        t = code.trace()
        share_pct = t.calculate(
            physics.pack_share,
            own_ohm=_branch_ohm(design, code, subject.id, min(leads_m), t),
            other_ohm=_branch_ohm(design, code, subject.id, max(leads_m), t),
            others=device.packs - 1,
        )
        yield at_most(
            name,
            f"The pack on the shortest leads {flows} {{value}}, {{share_pct}} of all; it bears {{limit}}",
            t,
            value=t.calculate(
                scale.scaled_current, current_a=demand_a(design, subject.id, t), factor=share_pct / 100
            ),
            limit=limit_a,
            unit="A",
            mend="make the leads of all packs alike in length and size",
            share_pct=share_pct,
        )


def _leads_m(design: Design, battery: str) -> list[float]:
    device = design.battery_device(battery)
    if len(device.pack_leads_m) != device.packs:
        raise Missing(f"length of the leads of each of the {device.packs} packs of {battery}")
    return device.pack_leads_m


def _branch_ohm(design: Design, code: Code, battery: str, lead_m: float, t: Trace) -> float:
    """A pack with its leads, which are of the same cable as the run to the inverter."""
    device, run = design.battery_device(battery), feeds(design, battery)[0].run
    lead_ohm = t.calculate(
        conductor.cable_resistance,
        resistance_ohm_per_km=covered(code.procedures.battery_circuit).resistance_ohm_per_km(
            t, known(device.pack_lead_size), cable_kind(design, run.id)
        ),
        length_m=lead_m,
    )
    return t.calculate(
        physics.branch_resistance, internal_ohm=known(design.battery(battery).internal_ohm), lead_ohm=lead_ohm
    )


def charge_temperature(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    part = design.battery(subject.id)
    yield from _borne(design, code, subject.id, "charge", "charged", part.charge_low_c, part.charge_high_c)


def discharge_temperature(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    part = design.battery(subject.id)
    low_c, high_c = part.discharge_low_c, part.discharge_high_c
    yield from _borne(design, code, subject.id, "discharge", "discharged", low_c, high_c)


def _borne(
    design: Design,
    code: Code,
    battery: str,
    name: str,
    used: str,
    low_c: Fact[float],
    high_c: Fact[float],
) -> Iterator[Constraint]:
    """The place in its coldest and its hottest hour, against the battery's sheet."""
    coldest_c, hottest_c = design.house.air_c(battery)
    all_known(coldest_c, hottest_c, low_c, high_c)
    yield at_least(
        f"{name}_cold",
        f"Down to {{value}} where the battery stands; it may be {used} from {{limit}} on",
        code.trace(),
        value=known(coldest_c),
        limit=known(low_c),
        unit="°C",
        mend="stand the battery where it is warmer, or heat its place",
    )
    yield at_most(
        f"{name}_hot",
        f"Up to {{value}} where the battery stands; it may be {used} up to {{limit}}",
        code.trace(),
        value=known(hottest_c),
        limit=known(high_c),
        unit="°C",
        mend="stand the battery where it is cooler, or air its place",
    )


def chemistry(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    part, (coldest_c, hottest_c) = design.battery(subject.id), design.house.air_c(subject.id)
    all_known(part.chemistry, coldest_c, hottest_c)
    yield from covered(code.procedures.battery_circuit).charged_cold(
        code.rulebook,
        chemistry=known(part.chemistry),
        coldest_c=known(coldest_c),
        hottest_c=known(hottest_c),
    )


QUESTIONS = (
    Question(
        "battery.voltage_window",
        "Does the inverter work with every voltage the battery can have?",
        batteries,
        each(window),
    ),
    Question(
        "battery.current",
        "Can the battery take and give what the inverter asks of it?",
        batteries,
        each(charging, discharging),
    ),
    Question(
        "battery.parallel_packs",
        "Do the packs side by side share the current as they should?",
        batteries,
        each(allowed, equal_leads, sharing),
    ),
    Question(
        "battery.temperature",
        "Is it neither too cold nor too hot where the battery stands?",
        batteries,
        each(charge_temperature, discharge_temperature, chemistry),
    ),
)
