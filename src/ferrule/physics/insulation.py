"""Insulation of an array: readings of both poles together, what size allows, what a meter hides."""

from ferrule.quantity import (
    CurrentA,
    InsulationOhmM2,
    ResistanceOhm,
    RoofAreaM2,
    VoltageV,
    formula,
)


@formula("positive_ohm * negative_ohm / (positive_ohm + negative_ohm)")
def insulation_of_both_poles(*, positive_ohm: ResistanceOhm, negative_ohm: ResistanceOhm) -> ResistanceOhm:
    """The two pole-to-earth readings in parallel, comparable with one taken with the poles joined.

    Raises `ZeroDivisionError` where both are zero.
    """
    return positive_ohm * negative_ohm / (positive_ohm + negative_ohm)


@formula("insulation_ohm_m2 / area_m2")
def insulation_by_area(*, insulation_ohm_m2: InsulationOhmM2, area_m2: RoofAreaM2) -> ResistanceOhm:
    """The least insulation of modules that just meet their type test, which is resistance times area.

    IEC 61215-2:2021 MQT 03. A healthy array reads far more when dry.
    """
    return insulation_ohm_m2 / area_m2


@formula("voltage_v / leakage_a")
def insulation_by_leakage(*, voltage_v: VoltageV, leakage_a: CurrentA) -> ResistanceOhm:
    """The insulation at which the array's voltage drives the leakage an inverter allows before it starts.

    IEC 62109-2:2011 clause 4.8.2.
    """
    return voltage_v / leakage_a


@formula("meter_ohm * (open_v / (positive_v + negative_v) - 1)")
def earth_fault_resistance(
    *, meter_ohm: ResistanceOhm, open_v: VoltageV, positive_v: VoltageV, negative_v: VoltageV
) -> ResistanceOhm:
    """Resistance of a string's one earth fault, from how far the meter's own load pulls the readings down.

    Both poles read one after the other against earth with the same meter, without sign. Raises
    `ZeroDivisionError` where both read zero.
    """
    return meter_ohm * (open_v / (positive_v + negative_v) - 1)
