"""A quantity times or over a stated factor: safety factors, trip multiples, derating."""

from ferrule.quantity import CurrentA, PowerW, Ratio, VoltageV, formula


@formula("current_a * factor")
def scaled_current(*, current_a: CurrentA, factor: Ratio) -> CurrentA:
    """A current times a factor: a design current, the current that surely trips, a derated capacity."""
    return current_a * factor


@formula("current_a / factor")
def current_before_factor(*, current_a: CurrentA, factor: Ratio) -> CurrentA:
    """The current that becomes `current_a` once the factor is applied: the capacity a table must show,
    the largest rating that a fault current still trips.
    """
    return current_a / factor


@formula("voltage_v * factor")
def scaled_voltage(*, voltage_v: VoltageV, factor: Ratio) -> VoltageV:
    """A voltage times a factor: a cold correction from a table, the highest network voltage."""
    return voltage_v * factor


@formula("power_w * factor")
def scaled_power(*, power_w: PowerW, factor: Ratio) -> PowerW:
    """A power times a factor: a simultaneity factor, an allowance."""
    return power_w * factor
