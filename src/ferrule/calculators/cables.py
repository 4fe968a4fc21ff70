"""Cables: voltage drop and rise, capacity as laid, the smallest conductor, its device, heating by a fault."""

from typing import Annotated, Literal, NamedTuple

from ferrule.calculators.calculator import About, Calculator
from ferrule.calculators.words import (
    Ambient,
    Circuits,
    Device,
    Grouping,
    Insulation,
    Loaded,
    Metal,
    Method,
    Phases,
    Soil,
    Strands,
    cable,
    copper_ohm_per_km,
    laid,
)
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.clauses.values import CableKind, Laid
from ferrule.constraint import Verdict
from ferrule.physics import conductor, drop
from ferrule.quantity import (
    AreaMm2,
    CurrentA,
    EnergyLetThroughA2s,
    LengthM,
    PowerFactor,
    SharePct,
    Size,
    TemperatureC,
    TimeS,
    VoltageV,
)
from ferrule.working import NotPrinted, Trace

RouteM = Annotated[LengthM, About("length of the route, one way")]
LineSize = Annotated[Size, About("size of the line conductors")]
NeutralV = Annotated[VoltageV, About("nominal voltage, line to neutral")]


class VoltageDrop(NamedTuple):
    drop_v: Annotated[VoltageV, About("line to neutral", "up")]
    share_pct: Annotated[SharePct, About("of the nominal voltage", "up")]


def voltage_drop(
    t: Trace,
    *,
    code: Code,
    length_m: RouteM,
    size: LineSize,
    current_a: CurrentA,
    phases: Phases,
    voltage_v: NeutralV,
    power_factor: Annotated[
        PowerFactor | None, About("left out, the worst one for this cable is taken")
    ] = None,
    metal: Metal = "cu",
) -> VoltageDrop:
    """Voltage lost along a cable to a load, with conductors warm from service."""
    drop_v = covered(code.procedures.voltage_change).drop_v(
        t,
        length_m=length_m,
        size=size,
        metal=metal,
        balanced_a=current_a if phases == "3" else 0.0,
        single_a=current_a if phases == "1" else 0.0,
        cos_phi=power_factor,
    )
    return VoltageDrop(drop_v, t.calculate(drop.drop_pct, drop_v=drop_v, base_v=voltage_v))


class VoltageRise(NamedTuple):
    rise_v: Annotated[VoltageV, About("line to neutral", "up")]
    share_pct: Annotated[SharePct, About("of the nominal voltage", "up")]
    should_pct: Annotated[SharePct, About("should not be exceeded", "down")]
    at_inverter_v: Annotated[VoltageV, About("at the inverter while the network is at its highest", "up")]


def voltage_rise(
    t: Trace,
    *,
    code: Code,
    length_m: RouteM,
    size: LineSize,
    current_a: Annotated[CurrentA, About("fed in by each line")],
    phases: Phases,
    voltage_v: NeutralV,
    highest_v: Annotated[VoltageV, About("highest voltage of the network, line to neutral")],
    metal: Metal = "cu",
) -> VoltageRise:
    """How far an inverter lifts the voltage along its cable, and what it then sees at its own terminals."""
    clause = covered(code.procedures.voltage_change)
    rise_v = clause.rise_v(
        t,
        length_m=length_m,
        size=size,
        metal=metal,
        balanced_a=current_a if phases == "3" else 0.0,
        single_a=current_a if phases == "1" else 0.0,
    )
    return VoltageRise(
        rise_v,
        t.calculate(drop.drop_pct, drop_v=rise_v, base_v=voltage_v),
        clause.rise_should_pct(t),
        t.calculate(drop.raised_voltage, supply_v=highest_v, rise_v=rise_v),
    )


class DcDrop(NamedTuple):
    drop_v: Annotated[VoltageV, About("out and back", "up")]
    share_pct: Annotated[SharePct, About("of the voltage given", "up")]


def dc_voltage_drop(
    t: Trace,
    *,
    length_m: RouteM,
    size: Annotated[Size, About("size of the plus and the minus conductor")],
    current_a: CurrentA,
    voltage_v: Annotated[VoltageV, About("voltage of the string or the battery")],
    conductor_c: Annotated[TemperatureC, About("temperature of the conductor")] = 90.0,
    strands: Strands = "class5",
) -> DcDrop:
    """Voltage lost in a direct-current cable of copper, out and back."""
    resistance = t.calculate(
        conductor.resistance_at,
        resistance_ohm_per_km=copper_ohm_per_km(t, size, strands),
        beta_c=t.read("zero_resistance_temperature", "cu"),
        from_c=20.0,
        to_c=conductor_c,
    )
    drop_v = t.calculate(
        drop.drop_dc, length_m=length_m, resistance_ohm_per_km=resistance, current_a=current_a
    )
    return DcDrop(drop_v, t.calculate(drop.drop_pct, drop_v=drop_v, base_v=voltage_v))


class Capacity(NamedTuple):
    capacity_a: Annotated[CurrentA, About("carried for good, as laid", "down")]


def capacity(
    t: Trace,
    *,
    code: Code,
    size: LineSize,
    method: Method,
    insulation: Insulation,
    ambient_c: Ambient,
    circuits: Circuits,
    loaded: Loaded,
    grouping: Grouping = "bunched",
    soil_km_per_w: Soil = None,
    metal: Metal = "cu",
) -> Capacity:
    """Current a conductor carries as it is laid, every factor shown."""
    return Capacity(
        covered(code.procedures.conductor).capacity_a(
            t,
            size=size,
            cable=cable(method, insulation, metal),
            stretch=laid(method, ambient_c, circuits, grouping, soil_km_per_w),
            loaded=int(loaded),
        )
    )


class SmallestConductor(NamedTuple):
    size: Annotated[Size | None, About("the thinnest that its device protects")]
    capacity_a: Annotated[CurrentA | None, About("what it carries as laid", "down")]


def smallest_conductor(
    t: Trace,
    *,
    code: Code,
    design_a: Annotated[CurrentA, About("design current of the circuit")],
    rating_a: Annotated[CurrentA, About("rated current of its device")],
    method: Method,
    insulation: Insulation,
    ambient_c: Ambient,
    circuits: Circuits,
    loaded: Loaded,
    device: Device = "mcb",
    grouping: Grouping = "bunched",
    soil_km_per_w: Soil = None,
    metal: Metal = "cu",
) -> SmallestConductor:
    """The thinnest conductor that carries a circuit's current and is protected by its device.

    Voltage drop and fault currents may ask for a thicker one.
    """
    kind, stretch = (
        cable(method, insulation, metal),
        laid(method, ambient_c, circuits, grouping, soil_km_per_w),
    )
    clause = covered(code.procedures.conductor)
    for size in clause.sizes(code.rulebook):
        if _protected(code, code.trace(), design_a, device, rating_a, size, kind, stretch, int(loaded)):
            capacity_a = clause.capacity_a(t, size=size, cable=kind, stretch=stretch, loaded=int(loaded))
            return SmallestConductor(size, capacity_a)
    return SmallestConductor(None, None)


def _protected(
    code: Code,
    t: Trace,
    design_a: float,
    device: str,
    rating_a: float,
    size: Size,
    kind: CableKind,
    stretch: Laid,
    loaded: int,
) -> bool:
    """Whether I_B ≤ I_n ≤ I_z and all that belongs to it hold; their working goes into `t`."""
    clause = covered(code.procedures.conductor)
    found = [
        clause.device(code.trace(), design_a=design_a, kind=device, rating_a=rating_a),
        *clause.conductor(
            code.trace(),
            design_a=design_a,
            kind=device,
            rating_a=rating_a,
            size=size,
            cable=kind,
            stretches=(stretch,),
            loaded=loaded,
        ),
    ]
    for constraint in found:
        t.steps.extend(step for step in constraint.steps if step not in t.steps)
    return all(constraint.verdict is Verdict.PASS for constraint in found)


class Coordination(NamedTuple):
    protected: Annotated[bool, About("whether device and conductor fit each other and the load")]
    capacity_a: Annotated[CurrentA, About("what the conductor carries as laid", "down")]
    rating_most_a: Annotated[CurrentA | None, About("largest rating that still protects it")]


def breaker_coordination(
    t: Trace,
    *,
    code: Code,
    design_a: Annotated[CurrentA, About("design current of the circuit")],
    rating_a: Annotated[CurrentA, About("rated current of its device")],
    size: LineSize,
    method: Method,
    insulation: Insulation,
    ambient_c: Ambient,
    circuits: Circuits,
    loaded: Loaded,
    device: Device = "mcb",
    grouping: Grouping = "bunched",
    soil_km_per_w: Soil = None,
    metal: Metal = "cu",
) -> Coordination:
    """Whether load, device and conductor fit: the device carries the load, the conductor what the device lets
    through.
    """
    kind, stretch = (
        cable(method, insulation, metal),
        laid(method, ambient_c, circuits, grouping, soil_km_per_w),
    )
    clause = covered(code.procedures.conductor)
    protected = _protected(code, t, design_a, device, rating_a, size, kind, stretch, int(loaded))
    protecting = [
        each_a
        for each_a in clause.ratings_a(code.rulebook, device)
        if _protected(code, code.trace(), 0.0, device, each_a, size, kind, stretch, int(loaded))
    ]
    return Coordination(
        protected,
        clause.capacity_a(code.trace(), size=size, cable=kind, stretch=stretch, loaded=int(loaded)),
        max(protecting, default=None),
    )


class Adiabatic(NamedTuple):
    survives: Annotated[bool, About("whether it survives")]
    let_through_a2s: Annotated[EnergyLetThroughA2s, About("let through in that time", "up")]
    bears_a2s: Annotated[EnergyLetThroughA2s, About("borne by the conductor", "down")]
    smallest_mm2: Annotated[AreaMm2, About("smallest area that survives", "up")]
    longest_s: Annotated[TimeS, About("how long it bears that current", "down")]


def adiabatic(
    t: Trace,
    *,
    fault_a: Annotated[CurrentA, About("fault current")],
    time_s: Annotated[TimeS, About("until it is broken")],
    size: Annotated[Size, About("size of the conductor")],
    core: Annotated[
        Literal[
            "line_pvc",
            "line_xlpe",
            "line_rubber",
            "separate_pvc",
            "separate_xlpe",
            "pv_90",
            "pv_120",
        ],
        About("core of a cable or separate conductor, by its insulation"),
    ],
    metal: Metal = "cu",
) -> Adiabatic:
    """Whether a conductor survives a short circuit, with all heat kept in it."""
    least_s, most_s = t.figure("adiabatic_time_least"), t.figure("adiabatic_time_most")
    if not least_s <= time_s <= most_s:
        raise NotPrinted(f"the formula holds from {least_s:g} s to {most_s:g} s, not for {time_s:g} s")
    k_factor = t.read("adiabatic_k", core, metal)
    let_through = t.calculate(conductor.let_through, current_a=fault_a, time_s=time_s)
    bears = t.calculate(conductor.withstand, k_factor=k_factor, area_mm2=size.area_mm2)
    return Adiabatic(
        let_through <= bears,
        let_through,
        bears,
        t.calculate(conductor.smallest_area, let_through_a2s=let_through, k_factor=k_factor),
        t.calculate(conductor.longest_time, k_factor=k_factor, area_mm2=size.area_mm2, current_a=fault_a),
    )


_LAID = {"method": "C", "insulation": "pvc", "ambient": "30 °C", "circuits": "2", "grouping": "wall"}

CALCULATORS = (
    Calculator(
        "voltage-drop",
        voltage_drop,
        "IEC 60364-5-52:2009 annex G",
        {
            "length": "25 m",
            "size": "2.5 mm²",
            "current": "13 A",
            "phases": "1",
            "voltage": "230 V",
            "power_factor": "1",
        },
    ),
    Calculator(
        "voltage-rise",
        voltage_rise,
        "IEC 60364-5-52:2009 annex G with the current turned",
        {
            "length": "20 m",
            "size": "6 mm²",
            "current": "26 A",
            "phases": "1",
            "voltage": "230 V",
            "highest": "245 V",
        },
    ),
    Calculator(
        "dc-voltage-drop",
        dc_voltage_drop,
        "IEC 60228:2004 and Ohm's law",
        {
            "length": "18 m",
            "size": "4 mm²",
            "current": "13 A",
            "voltage": "389 V",
            "strands": "class5-tinned",
        },
        tables=True,
    ),
    Calculator(
        "capacity",
        capacity,
        "IEC 60364-5-52:2009 clause 523",
        {"size": "6 mm²", **_LAID, "loaded": "2"},
    ),
    Calculator(
        "smallest-conductor",
        smallest_conductor,
        "IEC 60364-4-43:2008 clause 433.1 with the capacities of IEC 60364-5-52:2009",
        {"design": "27.3 A", "rating": "32 A", **_LAID, "loaded": "2"},
    ),
    Calculator(
        "breaker-coordination",
        breaker_coordination,
        "IEC 60364-4-43:2008 clause 433.1",
        {"design": "27.3 A", "rating": "32 A", "size": "6 mm²", **_LAID, "loaded": "2"},
    ),
    Calculator(
        "adiabatic",
        adiabatic,
        "IEC 60364-4-43:2008 clause 434.5.2 and IEC 60364-5-54:2011 clause 543.1.2",
        {"fault": "1.2 kA", "time": "0.4 s", "size": "6 mm²", "core": "line_pvc"},
        tables=True,
    ),
)
