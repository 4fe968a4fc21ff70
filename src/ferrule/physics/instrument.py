"""Current transformers in front of a meter: ratio, burden, and how much of its range a load uses."""

from ferrule.quantity import (
    ApparentPowerVa,
    Count,
    CurrentA,
    LengthM,
    Ratio,
    ResistanceOhmPerKm,
    SharePct,
    formula,
)


@formula("primary_a / secondary_a")
def transformer_ratio(*, primary_a: CurrentA, secondary_a: CurrentA) -> Ratio:
    """How many amperes in the conductor are one in the lead, to be set in the meter."""
    return primary_a / secondary_a


@formula("plate_a / turns")
def effective_primary(*, plate_a: CurrentA, turns: Count) -> CurrentA:
    """Primary current of a transformer whose conductor leads several times through its window."""
    return plate_a / turns


@formula("meter_va + secondary_a**2 * 2 * length_m / 1000 * resistance_ohm_per_km")
def connected_burden(
    *,
    meter_va: ApparentPowerVa,
    secondary_a: CurrentA,
    length_m: LengthM,
    resistance_ohm_per_km: ResistanceOhmPerKm,
) -> ApparentPowerVa:
    """Burden of a transformer's meter and two-way lead at rated secondary current.

    Not to exceed its rated burden (IEC 61869-2:2012 clause 5.5).
    """
    return meter_va + secondary_a**2 * 2 * length_m / 1000 * resistance_ohm_per_km


@formula("100 * load_a / primary_a")
def share_of_primary(*, load_a: CurrentA, primary_a: CurrentA) -> SharePct:
    """A load as a share of the transformer's rated primary current."""
    return 100 * load_a / primary_a
