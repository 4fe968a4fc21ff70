"""Cell temperature from air temperature, sun, wind and mounting."""

import math
from typing import Annotated

from ferrule.quantity import (
    DifferenceK,
    HeatLossByWindWSPerM3K,
    HeatLossWPerM2K,
    IrradianceWPerM2,
    SpeedMPerS,
    TemperatureC,
    Unit,
    formula,
)

MountingConstant = Annotated[float, Unit("", -20, 1)]


@formula("air_c + rise_k * irradiance_w_per_m2 / 1000")
def cell_by_rise(
    *, air_c: TemperatureC, rise_k: DifferenceK, irradiance_w_per_m2: IrradianceWPerM2
) -> TemperatureC:
    """Cell temperature from the rise above air in full sun that a mounting is known for."""
    return air_c + rise_k * irradiance_w_per_m2 / 1000


@formula("air_c + (noct_c - 20) / 800 * irradiance_w_per_m2")
def cell_by_noct(
    *, air_c: TemperatureC, noct_c: TemperatureC, irradiance_w_per_m2: IrradianceWPerM2
) -> TemperatureC:
    """Cell temperature from the datasheet's nominal operating cell temperature.

    NOCT is defined on an open rack at 20 °C air, 800 W/m² and 1 m/s wind (IEC 61215), so the result is too
    low for modules close to a roof. Ross, IEEE PVSC 1980.
    """
    return air_c + (noct_c - 20) / 800 * irradiance_w_per_m2


@formula("air_c + irradiance_w_per_m2 * exp(a + b * wind_m_per_s) + rise_k * irradiance_w_per_m2 / 1000")
def cell_by_sapm(
    *,
    air_c: TemperatureC,
    irradiance_w_per_m2: IrradianceWPerM2,
    wind_m_per_s: SpeedMPerS,
    a: MountingConstant,
    b: MountingConstant,
    rise_k: DifferenceK,
) -> TemperatureC:
    """Cell temperature with wind, by mounting: a, b and the cell's rise above the back of the module.

    The wind is that at 10 m height. King, Boyson, Kratochvil: Sandia report SAND2004-3535, equations 11, 12.
    """
    return air_c + irradiance_w_per_m2 * math.exp(a + b * wind_m_per_s) + rise_k * irradiance_w_per_m2 / 1000


@formula("air_c + irradiance_w_per_m2 / (still_w_per_m2_k + by_wind_w_s_per_m3_k * wind_m_per_s)")
def cell_by_faiman(
    *,
    air_c: TemperatureC,
    irradiance_w_per_m2: IrradianceWPerM2,
    wind_m_per_s: SpeedMPerS,
    still_w_per_m2_k: HeatLossWPerM2K,
    by_wind_w_s_per_m3_k: HeatLossByWindWSPerM3K,
) -> TemperatureC:
    """Module temperature with wind, from heat lost in still air and what wind adds (U0 and U1).

    Faiman, Progress in Photovoltaics 16 (2008) 307; IEC 61853-2. Raises `ZeroDivisionError` for no heat loss.
    """
    return air_c + irradiance_w_per_m2 / (still_w_per_m2_k + by_wind_w_s_per_m3_k * wind_m_per_s)
