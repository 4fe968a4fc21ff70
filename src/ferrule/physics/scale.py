"""A quantity times or over a stated factor: safety factors, trip multiples, derating."""

from ferrule.quantity import ApparentPowerVa, AreaMm2, CurrentA, PowerW, Ratio, VoltageV, formula


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


@formula("apparent_va * factor")
def scaled_apparent_power(*, apparent_va: ApparentPowerVa, factor: Ratio) -> ApparentPowerVa:
    """An apparent power times a factor: the share of a three-phase device that one phase may carry."""
    return apparent_va * factor


@formula("area_mm2 * factor")
def scaled_area(*, area_mm2: AreaMm2, factor: Ratio) -> AreaMm2:
    """An area times a factor: the share of a line conductor that a protective conductor must have."""
    return area_mm2 * factor
