"""Earth electrodes and residual current devices."""

from typing import Annotated, NamedTuple

from ferrule.calculators.calculator import About, Calculator
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Verdict
from ferrule.fact import Missing
from ferrule.physics import electrode as physics
from ferrule.physics import scale
from ferrule.quantity import Count, CurrentA, LengthM, ResistanceOhm, ResistivityOhmM, TimeS, VoltageV
from ferrule.working import Trace

SoilOhmM = Annotated[ResistivityOhmM, About("resistivity of the soil")]
ResidualA = Annotated[CurrentA, About("rated residual current")]


class Electrode(NamedTuple):
    resistance_ohm: Annotated[ResistanceOhm, About("in even soil; a measurement decides", "up")]


def rod_electrode(
    t: Trace,
    *,
    soil_ohm_m: SoilOhmM,
    length_m: Annotated[LengthM, About("what stands in the soil")],
    diameter_m: LengthM,
    rods: Annotated[Count, About("like rods in a row")] = 1,
    spacing_m: Annotated[LengthM | None, About("between two rods, not less than their length")] = None,
) -> Electrode:
    """Resistance of an upright rod, or of several in a row."""
    single_ohm = t.calculate(physics.rod, soil_ohm_m=soil_ohm_m, length_m=length_m, diameter_m=diameter_m)
    if rods == 1:
        return Electrode(single_ohm)
    if spacing_m is None:
        raise Missing("spacing: how far apart the rods stand")
    return Electrode(
        t.calculate(
            physics.rods_in_parallel,
            single_ohm=single_ohm,
            count=rods,
            spacing_factor=t.calculate(physics.line_spacing_factor, count=rods),
            spacing_m=spacing_m,
            soil_ohm_m=soil_ohm_m,
        )
    )


def tape_electrode(
    t: Trace,
    *,
    soil_ohm_m: SoilOhmM,
    length_m: Annotated[LengthM, About("length of the buried tape, straight")],
    depth_m: LengthM,
    width_m: Annotated[LengthM, About("width of the tape")],
) -> Electrode:
    """Resistance of a tape buried flat."""
    return Electrode(
        t.calculate(
            physics.horizontal,
            soil_ohm_m=soil_ohm_m,
            length_m=length_m,
            depth_m=depth_m,
            diameter_m=t.calculate(physics.tape_as_wire, width_m=width_m),
        )
    )


class TtCheck(NamedTuple):
    safe: Annotated[bool, About("whether touch voltage stays harmless until the device trips")]
    touch_v: Annotated[VoltageV, About("on the metal of the house until then", "up")]
    electrode_most_ohm: Annotated[ResistanceOhm, About("largest electrode resistance", "down")]
    stable: Annotated[bool, About("whether the electrode is good enough to stay what it is")]


def tt_check(
    t: Trace,
    *,
    code: Code,
    electrode_ohm: Annotated[ResistanceOhm, About("earth electrode with its conductors")],
    residual_a: ResidualA,
) -> TtCheck:
    """Whether an earth electrode suits the residual current device of a TT system."""
    clause = covered(code.procedures.earthing)
    (touch,) = clause.touch_voltage(code.rulebook, electrode_ohm=electrode_ohm, residual_a=residual_a)
    (stable,) = clause.stable(code.rulebook, electrode_ohm=electrode_ohm)
    t.steps.extend((*touch.steps, *stable.steps))
    most_ohm = t.calculate(physics.electrode_limit, touch_v=touch.limit or 0.0, current_a=residual_a)
    return TtCheck(
        touch.verdict is Verdict.PASS, touch.value or 0.0, most_ohm, stable.verdict is Verdict.PASS
    )


class RcdLimits(NamedTuple):
    no_trip_a: Annotated[CurrentA, About("at this current it must not trip", "down")]
    trip_s: Annotated[TimeS, About("longest time at its rated residual current", "down")]
    trip_twice_s: Annotated[TimeS, About("at twice that", "down")]
    trip_fivefold_s: Annotated[TimeS, About("at five times that", "down")]
    wait_s: Annotated[
        TimeS | None, About("shortest time of a delayed one at its rated residual current", "up")
    ]
    wait_fivefold_s: Annotated[TimeS | None, About("at five times that", "up")]


def rcd_limits(
    t: Trace,
    *,
    residual_a: ResidualA,
    selective: Annotated[bool, About("whether it is a delayed one (type S)")] = False,
) -> RcdLimits:
    """What a residual current device must show when it is tested."""
    kind = "selective" if selective else "general"
    return RcdLimits(
        t.calculate(scale.scaled_current, current_a=residual_a, factor=t.figure("rcd_no_trip_share")),
        t.read("rcd_trip_time", kind, "1"),
        t.read("rcd_trip_time", kind, "2"),
        t.read("rcd_trip_time", kind, "5"),
        t.read("rcd_no_trip_time", kind, "1") if selective else None,
        t.read("rcd_no_trip_time", kind, "5") if selective else None,
    )


CALCULATORS = (
    Calculator(
        "rod-electrode",
        rod_electrode,
        "Dwight, AIEE Transactions 55 (1936) 1319; BS 7430:2011 clause 9.5",
        {"soil": "100 ohm m", "length": "2.4 m", "diameter": "16 mm", "rods": "2", "spacing": "3 m"},
    ),
    Calculator(
        "tape-electrode",
        tape_electrode,
        "Dwight, AIEE Transactions 55 (1936) 1319; AS/NZS 1768:2007 appendix C",
        {"soil": "100 ohm m", "length": "20 m", "depth": "0.6 m", "width": "30 mm"},
    ),
    Calculator(
        "tt-check",
        tt_check,
        "IEC 60364-4-41:2005 clause 411.5.3",
        {"electrode": "45 ohm", "residual": "30 mA"},
    ),
    Calculator(
        "rcd-limits",
        rcd_limits,
        "IEC 61008-1:2010 table 1",
        {"residual": "30 mA"},
        tables=True,
    ),
)
