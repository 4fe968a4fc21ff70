"""Lightning exposure: when surge protection is asked for."""

import math
from typing import Annotated

from ferrule.quantity import FlashDensityPerKm2Year, LengthM, Ratio, Unit, formula

StormDays = Annotated[float, Unit("", 0, 366)]
Exponent = Annotated[float, Unit("", 0, 5)]


@formula("constant / flashes_per_km2_year")
def critical_length(*, constant: Ratio, flashes_per_km2_year: FlashDensityPerKm2Year) -> LengthM:
    """The length of direct-current route from which an array wants surge protection.

    `constant` is the rulebook's, by kind of site (IEC 60364-7-712:2017 clause 712.443). Raises
    `ZeroDivisionError` where there is no lightning.
    """
    return constant / flashes_per_km2_year


@formula(
    "overhead_weight * overhead_m + cable_weight * cable_m + high_overhead_weight * high_overhead_m"
    " + high_cable_weight * high_cable_m"
)
def risk_length(
    *,
    overhead_m: LengthM,
    cable_m: LengthM,
    high_overhead_m: LengthM,
    high_cable_m: LengthM,
    overhead_weight: Ratio,
    cable_weight: Ratio,
    high_overhead_weight: Ratio,
    high_cable_weight: Ratio,
) -> LengthM:
    """Length of supply line that counts for surges: low-voltage overhead line and cable, high-voltage
    overhead line and cable, each with its weight (IEC 60364-4-44:2015 clause 443.5).
    """
    return (
        overhead_weight * overhead_m
        + cable_weight * cable_m
        + high_overhead_weight * high_overhead_m
        + high_cable_weight * high_cable_m
    )


@formula("environment_factor / (risk_m / 1000 * flashes_per_km2_year)")
def calculated_risk_level(
    *, environment_factor: Ratio, risk_m: LengthM, flashes_per_km2_year: FlashDensityPerKm2Year
) -> Ratio:
    """Calculated risk level CRL of a supply; the lower, the more it wants protection.

    IEC 60364-4-44:2015 clause 443.5. Raises `ZeroDivisionError` without line or lightning.
    """
    return environment_factor / (risk_m / 1000 * flashes_per_km2_year)


@formula("coefficient * storm_days**exponent")
def flash_density(*, storm_days: StormDays, coefficient: Ratio, exponent: Exponent) -> FlashDensityPerKm2Year:
    """Flashes to ground from the thunderstorm days a year that older maps show.

    Two published pairs: 0.1 and 1; 0.04 and 1.25 (IEC 61024-1-1:1993).
    """
    return coefficient * math.pow(storm_days, exponent)
