"""Voltage lost along a cable. With current flowing towards the supply the same figure is the voltage rise.

The form is that of IEC 60364-5-52:2009 annex G: the drop along the voltage's own direction, which the
cross component changes by far less than one part in a thousand at house currents. `resistance_ohm_per_km`
is that of one conductor, hot; reactive current is taken as lagging, the unfavourable side for both.
"""

import math

from ferrule.quantity import (
    CurrentA,
    LengthM,
    PowerFactor,
    ResistanceOhmPerKm,
    SharePct,
    VoltageV,
    formula,
)


@formula("2 * length_m / 1000 * resistance_ohm_per_km * current_a")
def drop_dc(*, length_m: LengthM, resistance_ohm_per_km: ResistanceOhmPerKm, current_a: CurrentA) -> VoltageV:
    """Drop of a direct-current run, out and back; `length_m` is the length of the route."""
    return 2 * length_m / 1000 * resistance_ohm_per_km * current_a


@formula(
    "2 * length_m / 1000 * (resistance_ohm_per_km * cos_phi"
    " + reactance_ohm_per_km * sqrt(1 - cos_phi**2)) * current_a"
)
def drop_single_phase(
    *,
    length_m: LengthM,
    resistance_ohm_per_km: ResistanceOhmPerKm,
    reactance_ohm_per_km: ResistanceOhmPerKm,
    cos_phi: PowerFactor,
    current_a: CurrentA,
) -> VoltageV:
    """Drop of a single-phase run, out and back, line to neutral or line to line as it is connected.

    IEC 60364-5-52:2009 annex G with b = 2. A three-phase run loaded on one phase only counts as single-phase.
    """
    return 2 * _drop_one_way(length_m, resistance_ohm_per_km, reactance_ohm_per_km, cos_phi, current_a)


@formula(
    "length_m / 1000 * (resistance_ohm_per_km * cos_phi"
    " + reactance_ohm_per_km * sqrt(1 - cos_phi**2)) * current_a"
)
def drop_three_phase(
    *,
    length_m: LengthM,
    resistance_ohm_per_km: ResistanceOhmPerKm,
    reactance_ohm_per_km: ResistanceOhmPerKm,
    cos_phi: PowerFactor,
    current_a: CurrentA,
) -> VoltageV:
    """Drop of a balanced three-phase run, LINE TO NEUTRAL: to be compared with 230 V, not with 400 V.

    IEC 60364-5-52:2009 annex G with b = 1.
    """
    return _drop_one_way(length_m, resistance_ohm_per_km, reactance_ohm_per_km, cos_phi, current_a)


@formula("resistance_ohm_per_km / sqrt(resistance_ohm_per_km**2 + reactance_ohm_per_km**2)")
def power_factor_of_largest_drop(
    *, resistance_ohm_per_km: ResistanceOhmPerKm, reactance_ohm_per_km: ResistanceOhmPerKm
) -> PowerFactor:
    """The lagging power factor at which a conductor loses most voltage: the cosine of its own impedance's
    angle. For currents whose power factor nobody knows. Raises `ZeroDivisionError` without impedance.
    """
    return resistance_ohm_per_km / math.sqrt(resistance_ohm_per_km**2 + reactance_ohm_per_km**2)


@formula("100 * drop_v / base_v")
def drop_pct(*, drop_v: VoltageV, base_v: VoltageV) -> SharePct:
    """Drop or rise as a share of the voltage it belongs to. Raises `ZeroDivisionError` for no voltage."""
    return 100 * drop_v / base_v


@formula("supply_v + rise_v")
def raised_voltage(*, supply_v: VoltageV, rise_v: VoltageV) -> VoltageV:
    """The voltage an inverter sees at its own terminals while it feeds in, which is what it trips on."""
    return supply_v + rise_v


def _drop_one_way(
    length_m: float,
    resistance_ohm_per_km: float,
    reactance_ohm_per_km: float,
    cos_phi: float,
    current_a: float,
) -> float:
    sin_phi = math.sqrt(1 - cos_phi**2)
    return length_m / 1000 * (resistance_ohm_per_km * cos_phi + reactance_ohm_per_km * sin_phi) * current_a
