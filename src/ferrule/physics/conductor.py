"""What a conductor does to the current in it: resistance, steady heating, heating by a fault.

Two constants of a metal recur. `beta_c` is the temperature, sign turned, at which its resistance would fall
to zero on a straight line: 234.5 °C for copper, 228 °C for aluminium, 202 °C for steel (IEC 60364-5-54:2011
table A.54.1). `material_factor` is the K of the same table: 226, 148, 78.
"""

import math

from ferrule.quantity import (
    AreaMm2,
    CurrentA,
    EnergyLetThroughA2s,
    LengthM,
    Ratio,
    ResistanceOhm,
    ResistanceOhmPerKm,
    ResistivityOhmMm2PerM,
    TemperatureC,
    TimeS,
    formula,
)


@formula("1000 * resistivity_ohm_mm2_per_m / area_mm2")
def resistance_per_km(
    *, resistivity_ohm_mm2_per_m: ResistivityOhmMm2PerM, area_mm2: AreaMm2
) -> ResistanceOhmPerKm:
    """Resistance of one kilometre of conductor from its metal's resistivity, at that resistivity's
    temperature. Raises `ZeroDivisionError` for no area.
    """
    return 1000 * resistivity_ohm_mm2_per_m / area_mm2


@formula("resistance_ohm_per_km * length_m / 1000")
def cable_resistance(*, resistance_ohm_per_km: ResistanceOhmPerKm, length_m: LengthM) -> ResistanceOhm:
    """Resistance of one conductor along its length; a two-way loop has twice this."""
    return resistance_ohm_per_km * length_m / 1000


@formula("(beta_c + to_c) / (beta_c + from_c)")
def temperature_factor(*, beta_c: TemperatureC, from_c: TemperatureC, to_c: TemperatureC) -> Ratio:
    """Ratio of a conductor's resistance at one temperature to that at another.

    IEC 60228:2004 annex A and IEC 60287-1-1:2006 clause 2.1.1; copper from 20 to 70 °C is 1.196.
    """
    return (beta_c + to_c) / (beta_c + from_c)


@formula("resistance_ohm_per_km * (beta_c + to_c) / (beta_c + from_c)")
def resistance_at(
    *,
    resistance_ohm_per_km: ResistanceOhmPerKm,
    beta_c: TemperatureC,
    from_c: TemperatureC,
    to_c: TemperatureC,
) -> ResistanceOhmPerKm:
    """Resistance known at one conductor temperature (tables: 20 °C or 75 °C), taken to another.

    IEC 60228:2004 annex A.
    """
    return resistance_ohm_per_km * (beta_c + to_c) / (beta_c + from_c)


@formula("sqrt(max(0, limit_c - ambient_c) / (limit_c - reference_c))")
def ambient_factor(*, limit_c: TemperatureC, ambient_c: TemperatureC, reference_c: TemperatureC) -> Ratio:
    """Share of its tabulated current a conductor may carry at another ambient temperature.

    Heat given off grows with the temperature difference to the surroundings, heat made with the square of
    the current. IEC 60364-5-52:2009 tables B.52.14 and B.52.15 are this formula rounded to two places.
    Zero at or above the limit; raises `ValueError` for a limit below the table's own ambient temperature.
    """
    return math.sqrt(max(0, limit_c - ambient_c) / (limit_c - reference_c))


@formula("tabulated_a * temperature_factor * grouping_factor * soil_factor")
def capacity_as_laid(
    *, tabulated_a: CurrentA, temperature_factor: Ratio, grouping_factor: Ratio, soil_factor: Ratio
) -> CurrentA:
    """Current a conductor carries as it is laid: the tabulated one times every factor that applies.

    IEC 60364-5-52:2009 clause 523; NFPA 70:2023 310.15 has the same product.
    """
    return tabulated_a * temperature_factor * grouping_factor * soil_factor


@formula("ambient_c + (limit_c - ambient_c) * (current_a / capacity_a)**2")
def conductor_temperature(
    *, ambient_c: TemperatureC, limit_c: TemperatureC, current_a: CurrentA, capacity_a: CurrentA
) -> TemperatureC:
    """Temperature a conductor settles at under a steady current.

    `capacity_a` is its capacity at this ambient temperature, which brings it to `limit_c`. The growth of
    resistance with temperature is left out, so below the capacity the result is on the warm side.
    """
    return ambient_c + (limit_c - ambient_c) * (current_a / capacity_a) ** 2


@formula("current_a**2 * time_s")
def let_through(*, current_a: CurrentA, time_s: TimeS) -> EnergyLetThroughA2s:
    """The I²t a fault current of steady size lets through, for times from 0.1 s; below, it is the device's
    own figure that counts (IEC 60364-4-43:2008 clause 434.5.2).
    """
    return current_a**2 * time_s


@formula("k_factor**2 * area_mm2**2")
def withstand(*, k_factor: Ratio, area_mm2: AreaMm2) -> EnergyLetThroughA2s:
    """The I²t a conductor survives with all heat kept inside it, up to 5 s.

    k in A·√s/mm² (IEC 60364-4-43:2008 clause 434.5.2, table 43A).
    """
    return k_factor**2 * area_mm2**2


@formula("sqrt(let_through_a2s) / k_factor")
def smallest_area(*, let_through_a2s: EnergyLetThroughA2s, k_factor: Ratio) -> AreaMm2:
    """The smallest area that survives an I²t, up to 5 s; k in A·√s/mm².

    IEC 60364-5-54:2011 clause 543.1.2. The next larger size is to be taken.
    """
    return math.sqrt(let_through_a2s) / k_factor


@formula("(k_factor * area_mm2 / current_a)**2")
def longest_time(*, k_factor: Ratio, area_mm2: AreaMm2, current_a: CurrentA) -> TimeS:
    """How long a conductor stands a fault current; above 5 s no longer true, since heat leaves it.

    IEC 60364-4-43:2008 clause 434.5.2. Raises `ZeroDivisionError` for no current.
    """
    return (k_factor * area_mm2 / current_a) ** 2


@formula("material_factor * sqrt(ln((beta_c + final_c) / (beta_c + initial_c)))")
def adiabatic_k(
    *, material_factor: Ratio, beta_c: TemperatureC, initial_c: TemperatureC, final_c: TemperatureC
) -> Ratio:
    """The factor k of a conductor heated by a fault from one temperature to another, in A·√s/mm².

    IEC 60364-5-54:2011 annex A. Raises `ValueError` where the end is colder than the start.
    """
    return material_factor * math.sqrt(math.log((beta_c + final_c) / (beta_c + initial_c)))


@formula("area_mm2 * line_k_factor / protective_k_factor")
def area_in_other_metal(*, area_mm2: AreaMm2, line_k_factor: Ratio, protective_k_factor: Ratio) -> AreaMm2:
    """The area of a protective conductor of another metal that stands the same fault.

    IEC 60364-5-54:2011 table 54.2, where k1 and k2 are the two factors.
    """
    return area_mm2 * line_k_factor / protective_k_factor
