"""Battery circuits: the current an inverter draws, and what a short circuit drives."""

from typing import Annotated, NamedTuple

from ferrule.calculators.calculator import About, Calculator
from ferrule.calculators.words import copper_ohm_per_km
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Verdict
from ferrule.fact import Missing
from ferrule.physics import battery as physics
from ferrule.physics import conductor
from ferrule.quantity import CurrentA, LengthM, PowerW, ResistanceOhm, Size, Unit
from ferrule.working import Trace


class BatteryCurrent(NamedTuple):
    current_a: Annotated[CurrentA, About("drawn from the battery", "up")]
    fuse_a: Annotated[CurrentA | None, About("smallest fuse with room to stay cool")]


def battery_current(
    t: Trace,
    *,
    code: Code,
    power_w: Annotated[PowerW, About("continuous output of the inverter")],
    efficiency_pct: Annotated[float, Unit("%", 1, 100), About("from battery to alternating current")],
    lowest_v: Annotated[float, Unit("V", 1, 1_500), About("lowest voltage of the battery in use")],
) -> BatteryCurrent:
    """Current an inverter draws from a battery that is nearly empty, and the fuse for it."""
    drawn_a = t.calculate(
        physics.battery_current, power_w=power_w, efficiency_pct=efficiency_pct, voltage_v=lowest_v
    )
    clause = covered(code.procedures.battery_circuit)
    for rating_a in clause.ratings_a(code.rulebook):
        found = list(clause.rating(code.rulebook, rating_a=rating_a, design_a=drawn_a))
        if all(constraint.verdict is Verdict.PASS for constraint in found):
            for constraint in found:
                t.steps.extend(constraint.steps)
            return BatteryCurrent(drawn_a, rating_a)
    return BatteryCurrent(drawn_a, None)


class BatteryFault(NamedTuple):
    at_poles_a: Annotated[CurrentA, About("at the poles: what the fuse must break", "up")]
    behind_a: Annotated[CurrentA | None, About("at the end of the cable", "down")]


def battery_fault_current(
    t: Trace,
    *,
    highest_v: Annotated[float, Unit("V", 1, 1_500), About("voltage at the end of charging")],
    internal_ohm: Annotated[ResistanceOhm, About("internal resistance of one pack, from its maker")],
    packs: Annotated[int, Unit("", 1, 1_000, whole=True), About("like packs in parallel")] = 1,
    length_m: Annotated[LengthM | None, About("length of the cable, one way")] = None,
    size: Annotated[Size | None, About("size of its conductors, copper of class 5")] = None,
) -> BatteryFault:
    """Short-circuit current of a battery, at its poles and at the end of its cable."""
    inner_ohm = t.calculate(physics.parallel_resistance, each_ohm=internal_ohm, count=packs)
    at_poles_a = t.calculate(
        physics.battery_fault_current, voltage_v=highest_v, internal_ohm=inner_ohm, cable_ohm=0.0
    )
    if length_m is None and size is None:
        return BatteryFault(at_poles_a, None)
    if length_m is None or size is None:
        raise Missing("length and size of the cable, both or neither")
    cable_ohm = t.calculate(
        conductor.cable_resistance,
        resistance_ohm_per_km=copper_ohm_per_km(t, size, "class5"),
        length_m=2 * length_m,
    )
    behind_a = t.calculate(
        physics.battery_fault_current, voltage_v=highest_v, internal_ohm=inner_ohm, cable_ohm=cable_ohm
    )
    return BatteryFault(at_poles_a, behind_a)


CALCULATORS = (
    Calculator(
        "battery-current",
        battery_current,
        "common practice: the power over efficiency and lowest voltage",
        {"power": "6 kW", "efficiency": "94 %", "lowest": "44.8 V"},
    ),
    Calculator(
        "battery-fault-current",
        battery_fault_current,
        "Ohm's law with the battery's internal resistance",
        {"highest": "57.6 V", "internal": "12 mohm", "packs": "2", "length": "2.5 m", "size": "50 mm²"},
        tables=True,
    ),
    Calculator(
        "battery-pack-share",
        physics.pack_share,
        "Kirchhoff's laws for branches side by side",
        {"own": "13 mohm", "other": "21 mohm", "others": "1"},
        result="share_pct",
        about={
            "own_ohm": About("one pack with its leads, plus and minus"),
            "other_ohm": About("each of the others with its leads"),
            "others": About("how many others there are"),
            "return": About("of the whole current", "up"),
        },
    ),
)
