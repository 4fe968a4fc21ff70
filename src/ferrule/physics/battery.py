"""Battery circuits: load current, fault current, packs in parallel, energy and time."""

from ferrule.quantity import (
    Count,
    CurrentA,
    EnergyWh,
    PowerW,
    ResistanceOhm,
    SharePct,
    TimeS,
    VoltageV,
    formula,
)


@formula("power_w / (efficiency_pct / 100 * voltage_v)")
def battery_current(*, power_w: PowerW, efficiency_pct: SharePct, voltage_v: VoltageV) -> CurrentA:
    """Current an inverter draws from its battery; highest at the battery's lowest voltage.

    Raises `ZeroDivisionError` for no voltage or efficiency.
    """
    return power_w / (efficiency_pct / 100 * voltage_v)


@formula("voltage_v / (internal_ohm + cable_ohm)")
def battery_fault_current(
    *, voltage_v: VoltageV, internal_ohm: ResistanceOhm, cable_ohm: ResistanceOhm
) -> CurrentA:
    """Current of a short circuit across a battery, or behind a cable's two conductors.

    Highest at the battery's highest voltage and, at its terminals, with no cable. Raises
    `ZeroDivisionError` for no resistance.
    """
    return voltage_v / (internal_ohm + cable_ohm)


@formula("each_ohm / count")
def parallel_resistance(*, each_ohm: ResistanceOhm, count: Count) -> ResistanceOhm:
    """Resistance of like packs, each with its own leads, in parallel."""
    return each_ohm / count


@formula("internal_ohm + lead_ohm")
def branch_resistance(*, internal_ohm: ResistanceOhm, lead_ohm: ResistanceOhm) -> ResistanceOhm:
    """Resistance of a pack with its own leads, plus and minus."""
    return internal_ohm + lead_ohm


@formula("100 / (1 + others * own_ohm / other_ohm)")
def pack_share(*, own_ohm: ResistanceOhm, other_ohm: ResistanceOhm, others: Count) -> SharePct:
    """Share of the current that one pack carries beside `others` like packs with branches of `other_ohm`.

    A branch is a pack with its own leads: the shorter lead carries more.
    """
    return 100 / (1 + others * own_ohm / other_ohm)


@formula("difference_v / loop_ohm")
def equalising_current(*, difference_v: VoltageV, loop_ohm: ResistanceOhm) -> CurrentA:
    """Current that flows at first when two packs of unlike voltage are joined; the loop is both packs and
    their leads.
    """
    return difference_v / loop_ohm


@formula("rated_wh * depth_pct / 100 * health_pct / 100 * efficiency_pct / 100")
def usable_energy(
    *, rated_wh: EnergyWh, depth_pct: SharePct, health_pct: SharePct, efficiency_pct: SharePct
) -> EnergyWh:
    """Energy a battery gives to its loads: depth of discharge allowed, state of health, efficiency."""
    return rated_wh * depth_pct / 100 * health_pct / 100 * efficiency_pct / 100


@formula("3600 * usable_wh / load_w")
def run_time(*, usable_wh: EnergyWh, load_w: PowerW) -> TimeS:
    """How long a steady load runs. Raises `ZeroDivisionError` for no load."""
    return 3600 * usable_wh / load_w
