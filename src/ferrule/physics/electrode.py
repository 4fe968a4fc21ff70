"""Resistance of earth electrodes in even soil, and the voltage a fault leaves on them.

Soil is never even: these figures plan, a measurement decides.
"""

import math

from ferrule.quantity import (
    Count,
    CurrentA,
    LengthM,
    Ratio,
    ResistanceOhm,
    ResistivityOhmM,
    VoltageV,
    formula,
)


@formula("soil_ohm_m / (2 * pi * length_m) * (ln(8 * length_m / diameter_m) - 1)")
def rod(*, soil_ohm_m: ResistivityOhmM, length_m: LengthM, diameter_m: LengthM) -> ResistanceOhm:
    """A rod driven upright from the surface; `length_m` is what stands in the soil.

    Dwight, AIEE Transactions 55 (1936) 1319; IEEE Std 142-2007 chapter 4; BS 7430:2011 clause 9.5.
    Raises `ZeroDivisionError` or `ValueError` for no length or thickness.
    """
    return soil_ohm_m / (2 * math.pi * length_m) * (math.log(8 * length_m / diameter_m) - 1)


@formula("soil_ohm_m / length_m")
def rod_roughly(*, soil_ohm_m: ResistivityOhmM, length_m: LengthM) -> ResistanceOhm:
    """A rod by the short rule (IEC 60364-5-54:2011 annex D).

    Against `rod` with 16 mm it is 16 per cent high at 1.2 m, equal at 3 m and 10 per cent low at 6 m.
    """
    return soil_ohm_m / length_m


@formula(
    "soil_ohm_m / (2 * pi * length_m) * (ln(4 * length_m**2 / (diameter_m * depth_m)) - 2"
    " + 2 * depth_m / length_m - (depth_m / length_m)**2)"
)
def horizontal(
    *, soil_ohm_m: ResistivityOhmM, length_m: LengthM, depth_m: LengthM, diameter_m: LengthM
) -> ResistanceOhm:
    """A straight round wire laid flat at a depth, much longer than deep; a tape counts as a wire of half its
    width (`tape_as_wire`).

    Dwight, AIEE Transactions 55 (1936) 1319; IEEE Std 142-2007 chapter 4.
    """
    series = math.log(4 * length_m**2 / (diameter_m * depth_m)) - 2
    series += 2 * depth_m / length_m - (depth_m / length_m) ** 2
    return soil_ohm_m / (2 * math.pi * length_m) * series


@formula("2 * soil_ohm_m / length_m")
def horizontal_roughly(*, soil_ohm_m: ResistivityOhmM, length_m: LengthM) -> ResistanceOhm:
    """A buried wire or tape by the short rule (IEC 60364-5-54:2011 annex D).

    On the high side up to some 50 m, by as much as three quarters for 5 m.
    """
    return 2 * soil_ohm_m / length_m


@formula("width_m / 2")
def tape_as_wire(*, width_m: LengthM) -> LengthM:
    """Diameter of the round wire that a thin tape counts as (AS/NZS 1768:2007 appendix C)."""
    return width_m / 2


@formula("single_ohm / count * (1 + spacing_factor * soil_ohm_m / (2 * pi * spacing_m * single_ohm))")
def rods_in_parallel(
    *,
    single_ohm: ResistanceOhm,
    count: Count,
    spacing_factor: Ratio,
    spacing_m: LengthM,
    soil_ohm_m: ResistivityOhmM,
) -> ResistanceOhm:
    """Like rods joined in parallel, each raising the potential of the others.

    `spacing_factor` is the λ of BS 7430:2011 clause 9.5, by pattern (`line_spacing_factor` for a row).
    True for rods at least their own length apart.
    """
    return single_ohm / count * (1 + spacing_factor * soil_ohm_m / (2 * math.pi * spacing_m * single_ohm))


@formula("2 * sum(1 / rod for rod in range(2, count + 1))")
def line_spacing_factor(*, count: Count) -> Ratio:
    """The λ of rods evenly spaced in a straight row, if all carry the same current.

    BS 7430:2011 clause 9.5 lets the outer rods carry more and is up to 2 per cent lower.
    """
    return 2 * sum(1 / rod for rod in range(2, count + 1))


@formula("electrode_ohm * current_a")
def touch_voltage(*, electrode_ohm: ResistanceOhm, current_a: CurrentA) -> VoltageV:
    """Voltage between exposed metal and far earth while a current flows through the electrode and its
    protective conductor (IEC 60364-4-41:2005 clause 411.5.3).
    """
    return electrode_ohm * current_a


@formula("touch_v / current_a")
def electrode_limit(*, touch_v: VoltageV, current_a: CurrentA) -> ResistanceOhm:
    """The largest electrode resistance that keeps the touch voltage until the device trips.

    IEC 60364-4-41:2005 clause 411.5.3. Raises `ZeroDivisionError` for no current.
    """
    return touch_v / current_a
