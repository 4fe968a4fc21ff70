"""Currents and voltages of several phases: line currents, the neutral's share, a neutral that is lost.

Angles count like those of the supply: 0, -120 and -240 degrees for three phases, 0 and 180 for a split phase.
"""

import cmath
import math

from ferrule.quantity import (
    AngleDeg,
    ApparentPowerVa,
    Count,
    CurrentA,
    PowerFactor,
    PowerW,
    VoltageV,
    formula,
)


@formula("power_w / (lines * line_to_neutral_v * cos_phi)")
def current_from_power(
    *, power_w: PowerW, lines: Count, line_to_neutral_v: VoltageV, cos_phi: PowerFactor
) -> CurrentA:
    """Current in each line of a load spread evenly over one, two or three lines, each against neutral.

    Raises `ZeroDivisionError` for no voltage.
    """
    return power_w / (lines * line_to_neutral_v * cos_phi)


@formula("apparent_va / (lines * line_to_neutral_v)")
def current_from_apparent_power(
    *, apparent_va: ApparentPowerVa, lines: Count, line_to_neutral_v: VoltageV
) -> CurrentA:
    """Current in each line of an apparent power spread evenly over one, two or three lines."""
    return apparent_va / (lines * line_to_neutral_v)


@formula("voltage_deg - degrees(acos(cos_phi))")
def lagging_angle(*, voltage_deg: AngleDeg, cos_phi: PowerFactor) -> AngleDeg:
    """Angle of a current that lags its voltage; a leading one is the same with the difference turned."""
    return voltage_deg - math.degrees(math.acos(cos_phi))


@formula("abs(phasor(line_1_a, line_1_deg) + phasor(line_2_a, line_2_deg) + phasor(line_3_a, line_3_deg))")
def neutral_current(
    *,
    line_1_a: CurrentA,
    line_1_deg: AngleDeg,
    line_2_a: CurrentA,
    line_2_deg: AngleDeg,
    line_3_a: CurrentA,
    line_3_deg: AngleDeg,
) -> CurrentA:
    """Current in the neutral that three lines share, harmonics left out.

    Zero when balanced; the plain sum of all three when their lines are bridged to one phase.
    """
    return abs(_phasor(line_1_a, line_1_deg) + _phasor(line_2_a, line_2_deg) + _phasor(line_3_a, line_3_deg))


@formula("max(line_1_va, line_2_va, line_3_va) - min(line_1_va, line_2_va, line_3_va)")
def phase_unbalance(
    *, line_1_va: ApparentPowerVa, line_2_va: ApparentPowerVa, line_3_va: ApparentPowerVa
) -> ApparentPowerVa:
    """The largest difference of apparent power between two lines."""
    powers = (line_1_va, line_2_va, line_3_va)
    return max(powers) - min(powers)


@formula(
    "line_to_neutral_v * sqrt(3 * (second_w**2 + third_w**2 + second_w * third_w))"
    " / (own_w + second_w + third_w)"
)
def voltage_with_lost_neutral(
    *, own_w: PowerW, second_w: PowerW, third_w: PowerW, line_to_neutral_v: VoltageV
) -> VoltageV:
    """Voltage across one of three resistive loads in star whose neutral is broken.

    Loads by their power at `line_to_neutral_v`; the lightest one gets the highest voltage. Millman's theorem
    for a balanced supply. Raises `ZeroDivisionError` without any load.
    """
    return (
        line_to_neutral_v
        * math.sqrt(3 * (second_w**2 + third_w**2 + second_w * third_w))
        / (own_w + second_w + third_w)
    )


@formula("line_to_line_v * other_w / (own_w + other_w)")
def voltage_with_lost_neutral_split_phase(
    *, own_w: PowerW, other_w: PowerW, line_to_line_v: VoltageV
) -> VoltageV:
    """Voltage across one of two resistive loads of a split phase whose neutral is broken: they are in series.

    Loads by their power at half of `line_to_line_v`.
    """
    return line_to_line_v * other_w / (own_w + other_w)


def _phasor(size: float, angle_deg: float) -> complex:
    return cmath.rect(size, math.radians(angle_deg))
