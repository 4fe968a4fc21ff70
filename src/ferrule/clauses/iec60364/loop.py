"""The resistance of a fault loop's cables (IEC 60228, IEC 60909-0 for cold and warm conductors)."""

from collections.abc import Sequence

from ferrule.clauses.values import LoopPart
from ferrule.physics import conductor, fault
from ferrule.quantity import Size
from ferrule.working import NotPrinted, Trace

#: what `cold_ohm_per_km` and `warm_ohm_per_km` read
NEEDS = ("conductor_resistance", "zero_resistance_temperature", "insulation_temperature")


def cold_ohm_per_km(t: Trace, part: LoopPart, size: Size) -> float:
    """At 20 °C: what is measured, and what lets most current through."""
    if size.system != "mm²":
        raise NotPrinted(f"resistances are tabulated for mm², not for {size}")
    return t.read("conductor_resistance", size.name, f"{part.metal}_{part.strands.replace('-', '_')}")


def warm_ohm_per_km(t: Trace, part: LoopPart, size: Size) -> float:
    """As warm as the insulation bears in service: what lets least current through."""
    return t.calculate(
        conductor.resistance_at,
        resistance_ohm_per_km=cold_ohm_per_km(t, part, size),
        beta_c=t.read("zero_resistance_temperature", part.metal),
        from_c=20.0,
        to_c=t.read("insulation_temperature", part.insulation, "operating"),
    )


def warm_loop_ohm(t: Trace, origin_ohm: float, parts: Sequence[LoopPart]) -> float:
    """The supply's loop and warm cables out and back. The plain sum is never below the true impedance."""
    total_ohm = origin_ohm
    for part in parts:
        cable_ohm = t.calculate(
            fault.loop_of_cable,
            line_ohm_per_km=warm_ohm_per_km(t, part, part.line),
            return_ohm_per_km=warm_ohm_per_km(t, part, part.protective),
            length_m=part.length_m,
        )
        total_ohm = t.calculate(fault.loop_at_end, external_ohm=total_ohm, cable_ohm=cable_ohm)
    return total_ohm


def cold_loop_ohm(t: Trace, origin_ohm: float, parts: Sequence[LoopPart]) -> float:
    """The same with conductors at 20 °C."""
    total_ohm = origin_ohm
    for part in parts:
        cable_ohm = t.calculate(
            fault.loop_of_cable,
            line_ohm_per_km=cold_ohm_per_km(t, part, part.line),
            return_ohm_per_km=cold_ohm_per_km(t, part, part.protective),
            length_m=part.length_m,
        )
        total_ohm = t.calculate(fault.loop_at_end, external_ohm=total_ohm, cable_ohm=cable_ohm)
    return total_ohm
