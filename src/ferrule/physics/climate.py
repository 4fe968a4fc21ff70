"""What heat and thin air leave of a converter's power."""

from typing import Annotated

from ferrule.quantity import AltitudeM, SharePct, TemperatureC, Unit, formula

DeratingPctPerK = Annotated[float, Unit("%/K", 0, 20)]


@formula("max(100 - derating_pct_per_k * max(air_c - full_power_c, 0), 0)")
def power_left_in_heat(
    *, air_c: TemperatureC, full_power_c: TemperatureC, derating_pct_per_k: DeratingPctPerK
) -> SharePct:
    """Share of the rated power that is left in hot air, by the figures of the device's sheet."""
    return max(100 - derating_pct_per_k * max(air_c - full_power_c, 0.0), 0.0)


@formula("max(100 - max(altitude_m - start_m, 0) / 100 * per_100_m_pct, 0)")
def power_left_in_thin_air(*, altitude_m: AltitudeM, start_m: AltitudeM, per_100_m_pct: SharePct) -> SharePct:
    """Share of the rated power left at a height, where some is lost for every 100 m above `start_m`."""
    return max(100 - max(altitude_m - start_m, 0.0) / 100 * per_100_m_pct, 0.0)
