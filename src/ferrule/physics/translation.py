"""Module and string readings carried from one irradiance and cell temperature to another.

A `light_factor` is the a of IEC 60891:2021 procedure 2: how far the open-circuit voltage falls with the
logarithm of the light. Published values for crystalline silicon lie between 0.04 and 0.06.
"""

import math

from ferrule.quantity import (
    CoefficientAPerK,
    CoefficientPctPerK,
    CoefficientVPerK,
    CurrentA,
    IrradianceWPerM2,
    Ratio,
    ResistanceOhm,
    TemperatureC,
    VoltageV,
    formula,
)


@formula(
    "stc_v"
    " * (1 + coefficient_pct_per_k / 100 * (cell_c - 25) + light_factor * ln(irradiance_w_per_m2 / 1000))"
)
def open_voltage_in_light(
    *,
    stc_v: VoltageV,
    coefficient_pct_per_k: CoefficientPctPerK,
    cell_c: TemperatureC,
    light_factor: Ratio,
    irradiance_w_per_m2: IrradianceWPerM2,
) -> VoltageV:
    """Open-circuit voltage at a cell temperature and an irradiance, from that at STC.

    IEC 60891:2021 procedure 2 at no current, started from STC. Raises `ValueError` in the dark.
    """
    return stc_v * _open_voltage_share(coefficient_pct_per_k, cell_c, light_factor, irradiance_w_per_m2)


@formula(
    "measured_v"
    " / (1 + coefficient_pct_per_k / 100 * (cell_c - 25) + light_factor * ln(irradiance_w_per_m2 / 1000))"
)
def open_voltage_to_stc(
    *,
    measured_v: VoltageV,
    coefficient_pct_per_k: CoefficientPctPerK,
    cell_c: TemperatureC,
    light_factor: Ratio,
    irradiance_w_per_m2: IrradianceWPerM2,
) -> VoltageV:
    """Open-circuit voltage at STC from a reading on the roof: the way back of `open_voltage_in_light`."""
    return measured_v / _open_voltage_share(coefficient_pct_per_k, cell_c, light_factor, irradiance_w_per_m2)


@formula("measured_a * 1000 / irradiance_w_per_m2 / (1 + coefficient_pct_per_k / 100 * (cell_c - 25))")
def short_current_to_stc(
    *,
    measured_a: CurrentA,
    coefficient_pct_per_k: CoefficientPctPerK,
    cell_c: TemperatureC,
    irradiance_w_per_m2: IrradianceWPerM2,
) -> CurrentA:
    """Short-circuit current at STC from a reading on the roof. Raises `ZeroDivisionError` in the dark."""
    return measured_a * 1000 / irradiance_w_per_m2 / (1 + coefficient_pct_per_k / 100 * (cell_c - 25))


@formula(
    "current_a + short_circuit_a * (to_w_per_m2 / from_w_per_m2 - 1) + coefficient_a_per_k * (to_c - from_c)"
)
def current_by_procedure_1(
    *,
    current_a: CurrentA,
    short_circuit_a: CurrentA,
    coefficient_a_per_k: CoefficientAPerK,
    from_w_per_m2: IrradianceWPerM2,
    to_w_per_m2: IrradianceWPerM2,
    from_c: TemperatureC,
    to_c: TemperatureC,
) -> CurrentA:
    """Current of a point of the I-V curve, carried to other conditions.

    `short_circuit_a` was measured together with it. IEC 60891:2021 procedure 1, for small steps of
    irradiance.
    """
    return (
        current_a
        + short_circuit_a * (to_w_per_m2 / from_w_per_m2 - 1)
        + coefficient_a_per_k * (to_c - from_c)
    )


@formula("voltage_v - series_ohm * (to_a - from_a) + coefficient_v_per_k * (to_c - from_c)")
def voltage_by_procedure_1(
    *,
    voltage_v: VoltageV,
    series_ohm: ResistanceOhm,
    coefficient_v_per_k: CoefficientVPerK,
    from_a: CurrentA,
    to_a: CurrentA,
    from_c: TemperatureC,
    to_c: TemperatureC,
) -> VoltageV:
    """Voltage of a point of the I-V curve, carried to other conditions together with its current.

    IEC 60891:2021 procedure 1 without its curve correction κ, which only a laboratory knows. Light moves
    the voltage through the series resistance alone.
    """
    return voltage_v - series_ohm * (to_a - from_a) + coefficient_v_per_k * (to_c - from_c)


@formula("current_a * (1 + coefficient_pct_per_k / 100 * (to_c - from_c)) * to_w_per_m2 / from_w_per_m2")
def current_by_procedure_2(
    *,
    current_a: CurrentA,
    coefficient_pct_per_k: CoefficientPctPerK,
    from_w_per_m2: IrradianceWPerM2,
    to_w_per_m2: IrradianceWPerM2,
    from_c: TemperatureC,
    to_c: TemperatureC,
) -> CurrentA:
    """Current of a point of the I-V curve, carried to other conditions.

    IEC 60891:2009 procedure 2, the better one for large steps of irradiance.
    """
    return current_a * (1 + coefficient_pct_per_k / 100 * (to_c - from_c)) * to_w_per_m2 / from_w_per_m2


@formula(
    "voltage_v + open_circuit_v * (coefficient_pct_per_k / 100 * (to_c - from_c)"
    " + light_factor * ln(to_w_per_m2 / from_w_per_m2)) - series_ohm * (to_a - from_a)"
)
def voltage_by_procedure_2(
    *,
    voltage_v: VoltageV,
    open_circuit_v: VoltageV,
    series_ohm: ResistanceOhm,
    coefficient_pct_per_k: CoefficientPctPerK,
    light_factor: Ratio,
    from_w_per_m2: IrradianceWPerM2,
    to_w_per_m2: IrradianceWPerM2,
    from_a: CurrentA,
    to_a: CurrentA,
    from_c: TemperatureC,
    to_c: TemperatureC,
) -> VoltageV:
    """Voltage of a point of the I-V curve, carried to other conditions together with its current.

    `open_circuit_v` was measured together with it. IEC 60891:2009 procedure 2 without its curve correction κ.
    Raises `ValueError` where one of the two is in the dark.
    """
    return (
        voltage_v
        + open_circuit_v
        * (
            coefficient_pct_per_k / 100 * (to_c - from_c)
            + light_factor * math.log(to_w_per_m2 / from_w_per_m2)
        )
        - series_ohm * (to_a - from_a)
    )


def _open_voltage_share(
    coefficient_pct_per_k: float, cell_c: float, light_factor: float, irradiance_w_per_m2: float
) -> float:
    return (
        1 + coefficient_pct_per_k / 100 * (cell_c - 25) + light_factor * math.log(irradiance_w_per_m2 / 1000)
    )
