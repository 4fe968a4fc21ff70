"""Fault currents and loop impedances of a supply and the cables behind it.

A `voltage_factor` is the c of IEC 60909-0: above one for the highest current (breaking capacity), below one
for the lowest (disconnection). Resistance (R) and reactance (X) are kept apart where both are known; adding
plain impedances instead gives a larger sum, thus a smaller current.
"""

import math

from ferrule.quantity import (
    CurrentA,
    LengthM,
    Ratio,
    ResistanceOhm,
    ResistanceOhmPerKm,
    VoltageV,
    formula,
)


@formula("(line_ohm_per_km + return_ohm_per_km) * length_m / 1000")
def loop_of_cable(
    *,
    line_ohm_per_km: ResistanceOhmPerKm,
    return_ohm_per_km: ResistanceOhmPerKm,
    length_m: LengthM,
) -> ResistanceOhm:
    """Resistance out along the line conductor and back along the neutral or protective conductor: R1 + R2."""
    return (line_ohm_per_km + return_ohm_per_km) * length_m / 1000


@formula("external_ohm + cable_ohm")
def loop_at_end(*, external_ohm: ResistanceOhm, cable_ohm: ResistanceOhm) -> ResistanceOhm:
    """Fault-loop impedance at the end of a cable: that of the supply and the cable's own, Zs = Ze + R1 + R2.

    The plain sum is never below the true impedance.
    """
    return external_ohm + cable_ohm


@formula("external_ohm + (measured_ohm - external_ohm) * hot_factor")
def hot_loop(*, measured_ohm: ResistanceOhm, external_ohm: ResistanceOhm, hot_factor: Ratio) -> ResistanceOhm:
    """Loop impedance with the installation's own conductors hot, from a reading taken cold.

    `external_ohm` is the part of the supply, which is not warmed; zero warms the whole reading, as
    IEC 60364-6:2016 annex D does with one factor for all.
    """
    return external_ohm + (measured_ohm - external_ohm) * hot_factor


@formula("voltage_factor * voltage_v / trip_a")
def loop_limit(*, voltage_v: VoltageV, voltage_factor: Ratio, trip_a: CurrentA) -> ResistanceOhm:
    """The largest loop impedance at which a fault still drives the current that trips the device in time.

    IEC 60364-4-41:2005 clause 411.4.4 (there without a factor). Raises `ZeroDivisionError` for no current.
    """
    return voltage_factor * voltage_v / trip_a


@formula("voltage_factor * voltage_v / loop_ohm")
def fault_current(*, voltage_v: VoltageV, voltage_factor: Ratio, loop_ohm: ResistanceOhm) -> CurrentA:
    """Current into a fault of no impedance from the impedance of its loop."""
    return voltage_factor * voltage_v / loop_ohm


@formula("network_a + inverters_a")
def fault_current_together(*, network_a: CurrentA, inverters_a: CurrentA) -> CurrentA:
    """Current into a fault that the network and inverters feed together, their angles taken as equal."""
    return network_a + inverters_a


@formula("voltage_factor * voltage_v / fault_a")
def impedance_behind(*, voltage_v: VoltageV, voltage_factor: Ratio, fault_a: CurrentA) -> ResistanceOhm:
    """Impedance of a supply from the fault current it can drive."""
    return voltage_factor * voltage_v / fault_a


@formula("impedance_ohm / sqrt(1 + r_over_x**2)")
def reactive_part(*, impedance_ohm: ResistanceOhm, r_over_x: Ratio) -> ResistanceOhm:
    """X of an impedance from its size and its ratio R/X (IEC 60909-0:2016 clause 6.2)."""
    return impedance_ohm / math.sqrt(1 + r_over_x**2)


@formula("reactance_ohm * r_over_x")
def resistive_part(*, reactance_ohm: ResistanceOhm, r_over_x: Ratio) -> ResistanceOhm:
    """R of an impedance from its X and its ratio R/X."""
    return reactance_ohm * r_over_x


@formula(
    "voltage_factor * line_to_neutral_v"
    " / sqrt((source_r_ohm + cable_r_ohm)**2 + (source_x_ohm + cable_x_ohm)**2)"
)
def fault_current_three_phase(
    *,
    line_to_neutral_v: VoltageV,
    voltage_factor: Ratio,
    source_r_ohm: ResistanceOhm,
    source_x_ohm: ResistanceOhm,
    cable_r_ohm: ResistanceOhm,
    cable_x_ohm: ResistanceOhm,
) -> CurrentA:
    """Current of a fault between all three lines at the end of a cable; R and X of one line.

    IEC 60909-0:2016 clause 7.2, initial symmetrical current. Raises `ZeroDivisionError` for no impedance.
    """
    return (
        voltage_factor
        * line_to_neutral_v
        / math.hypot(source_r_ohm + cable_r_ohm, source_x_ohm + cable_x_ohm)
    )


@formula(
    "voltage_factor * line_to_neutral_v / sqrt((source_r_ohm + line_r_ohm + return_r_ohm)**2"
    " + (source_x_ohm + line_x_ohm + return_x_ohm)**2)"
)
def fault_current_single_phase(
    *,
    line_to_neutral_v: VoltageV,
    voltage_factor: Ratio,
    source_r_ohm: ResistanceOhm,
    source_x_ohm: ResistanceOhm,
    line_r_ohm: ResistanceOhm,
    line_x_ohm: ResistanceOhm,
    return_r_ohm: ResistanceOhm,
    return_x_ohm: ResistanceOhm,
) -> CurrentA:
    """Current of a fault from one line to neutral or earth at the end of a cable.

    R and X of the supply's whole loop, of the cable's line conductor and of the conductor that leads back.
    IEC 60909-0:2016 clause 7.5 written as a loop: (2·Z1 + Z0)/3 is line plus return.
    """
    return (
        voltage_factor
        * line_to_neutral_v
        / math.hypot(source_r_ohm + line_r_ohm + return_r_ohm, source_x_ohm + line_x_ohm + return_x_ohm)
    )
