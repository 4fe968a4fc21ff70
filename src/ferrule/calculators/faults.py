"""Faults: loop impedance, current along a cable, which breakers an inverter trips."""

from typing import Annotated, Literal, NamedTuple

from ferrule.calculators.calculator import About, Calculator
from ferrule.calculators.words import Curve, Device, Insulation, Metal, Phases, Strands
from ferrule.clauses import Code, values
from ferrule.clauses.procedures import covered
from ferrule.fact import Missing
from ferrule.physics import fault
from ferrule.quantity import CurrentA, LengthM, ResistanceOhm, Size, TimeS, VoltageV
from ferrule.working import Trace

NeutralV = Annotated[VoltageV, About("nominal voltage, line to neutral")]
LineSize = Annotated[Size, About("size of the line conductor")]
ReturnSize = Annotated[Size, About("size of the protective (or neutral) conductor")]
RouteM = Annotated[LengthM, About("length of the cable")]


class LoopLimit(NamedTuple):
    time_s: Annotated[TimeS, About("how long a fault may last", "down")]
    loop_ohm: Annotated[ResistanceOhm, About("largest fault loop, conductors warm", "down")]
    reading_ohm: Annotated[ResistanceOhm, About("largest reading, conductors cold", "down")]


def loop_limit(
    t: Trace,
    *,
    code: Code,
    device: Device,
    rating_a: Annotated[CurrentA, About("rated current of the device")],
    voltage_v: NeutralV,
    curve: Annotated[Curve | None, About("tripping characteristic, for a breaker")] = None,
    system: Annotated[Literal["TN", "TT"], About("earthing system")] = "TN",
    final: Annotated[bool, About("whether it is a final circuit")] = True,
    sockets: Annotated[bool, About("whether it has socket-outlets")] = True,
) -> LoopLimit:
    """The largest fault loop with which an overcurrent device disconnects in time."""
    if device == "mcb" and curve is None:
        raise Missing("curve: the tripping characteristic of the breaker")
    clause = covered(code.procedures.disconnection)
    time_s = clause.longest_s(
        t, system=system, line_to_neutral_v=voltage_v, rating_a=rating_a, final=final, sockets=sockets
    )
    warm, cold = clause.by_device(
        t,
        loop_ohm=0.0,
        origin_ohm=0.0,
        parts=(),
        device=values.Device(device, rating_a, curve or ""),
        line_to_neutral_v=voltage_v,
        within_s=time_s,
    )
    t.steps.extend(step for step in cold.steps if step not in t.steps)
    return LoopLimit(time_s, warm.limit or 0.0, cold.limit or 0.0)


class LoopImpedance(NamedTuple):
    loop_ohm: Annotated[ResistanceOhm, About("at the end of the cable, conductors warm", "up")]
    fault_a: Annotated[CurrentA, About("lowest current of a fault there", "down")]


def loop_impedance(
    t: Trace,
    *,
    code: Code,
    origin_ohm: Annotated[ResistanceOhm, About("fault loop at the head of the cable")],
    voltage_v: NeutralV,
    length_m: RouteM,
    line: LineSize,
    protective: ReturnSize,
    insulation: Insulation = "pvc",
    metal: Metal = "cu",
    strands: Strands = "class2",
) -> LoopImpedance:
    """Fault loop at the end of a cable, and the current it lets through at least."""
    part = values.LoopPart(line, protective, metal, strands, insulation, length_m)
    loop_ohm = covered(code.procedures.disconnection).loop_ohm(t, origin_ohm=origin_ohm, parts=(part,))
    fault_a = t.calculate(fault.fault_current, voltage_v=voltage_v, voltage_factor=1.0, loop_ohm=loop_ohm)
    return LoopImpedance(loop_ohm, fault_a)


class FaultCurrent(NamedTuple):
    fault_a: Annotated[CurrentA, About("highest current of a fault at the end of the cable", "up")]


def fault_current(
    t: Trace,
    *,
    code: Code,
    origin_a: Annotated[CurrentA, About("highest fault current at the head of the cable")],
    voltage_v: NeutralV,
    length_m: RouteM,
    line: LineSize,
    returning: ReturnSize,
    phases: Phases,
    insulation: Insulation = "pvc",
    metal: Metal = "cu",
    strands: Strands = "class2",
) -> FaultCurrent:
    """What is left of a fault current at the end of a cable: what a device there must break."""
    part = values.LoopPart(line, returning, metal, strands, insulation, length_m)
    return FaultCurrent(
        covered(code.procedures.short_circuit).highest_a(
            t,
            origin_a=origin_a,
            line_to_neutral_v=voltage_v,
            parts=(part,),
            lines=int(phases),
            inverters_a=0.0,
        )
    )


class Clearing(NamedTuple):
    type_b_a: Annotated[CurrentA | None, About("largest breaker of type B that trips at once")]
    type_c_a: Annotated[CurrentA | None, About("largest of type C")]
    type_d_a: Annotated[CurrentA | None, About("largest of type D")]


def inverter_clearing(
    t: Trace,
    *,
    code: Code,
    source_a: Annotated[CurrentA, About("short-circuit current of the inverter in island mode")],
    lasts_s: Annotated[TimeS, About("how long it gives that current")],
) -> Clearing:
    """Which breakers an inverter in island mode trips at once with its short-circuit current."""
    clause = covered(code.procedures.island_fault)
    ratings_a = covered(code.procedures.conductor).ratings_a(code.rulebook, "mcb")

    def largest_a(curve: str) -> float | None:
        tripped = []
        for rating_a in ratings_a:
            own = code.trace()
            trips_a = clause.trips_at_a(own, device=values.Device("mcb", rating_a, curve), lasts_s=lasts_s)
            t.steps.extend(step for step in own.reads() if step not in t.steps)
            if trips_a is not None and trips_a <= source_a:
                tripped.append(rating_a)
        return max(tripped, default=None)

    return Clearing(largest_a("B"), largest_a("C"), largest_a("D"))


_CABLE = {"voltage": "230 V", "length": "25 m", "line": "2.5 mm²"}

CALCULATORS = (
    Calculator(
        "loop-limit",
        loop_limit,
        "IEC 60364-4-41:2005 clause 411.4.4 and IEC 60364-6:2016 annex D",
        {"device": "mcb", "rating": "16 A", "curve": "B", "voltage": "230 V"},
    ),
    Calculator(
        "loop-impedance",
        loop_impedance,
        "IEC 60364-4-41:2005 clause 411.4.4, conductors warm from service",
        {"origin": "0.28 ohm", **_CABLE, "protective": "2.5 mm²"},
    ),
    Calculator(
        "fault-current",
        fault_current,
        "IEC 60909-0:2016 clause 7, the supply all reactance, conductors at 20 °C",
        {"origin": "4.2 kA", **_CABLE, "returning": "2.5 mm²", "phases": "1"},
    ),
    Calculator(
        "inverter-clearing",
        inverter_clearing,
        "IEC 60898-1:2015 instantaneous tripping",
        {"source": "80 A", "lasts": "100 ms"},
    ),
)
