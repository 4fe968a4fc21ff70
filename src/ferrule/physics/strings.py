"""Modules in series and strings in parallel: lengths, sums, reverse current, the place of an earth fault."""

from ferrule.physics.count import count_at_least, count_at_most, count_below
from ferrule.quantity import Count, CurrentA, PowerW, Ratio, VoltageV, formula


@formula("module_v * count")
def string_voltage(*, module_v: VoltageV, count: Count) -> VoltageV:
    """Voltage of like modules in series."""
    return module_v * count


@formula("max(0, ceil(limit_v / module_v - 1e-9) - 1)")
def longest_string_below(*, limit_v: VoltageV, module_v: VoltageV) -> Count:
    """The most modules whose voltage stays below a limit that must not be reached (rounded down).

    `module_v` is one module's voltage in the worst case, cold. Raises `ZeroDivisionError` for no voltage.
    """
    return count_below(limit=limit_v, each=module_v)


@formula("floor(limit_v / module_v + 1e-9)")
def longest_string_within(*, limit_v: VoltageV, module_v: VoltageV) -> Count:
    """The most modules whose voltage does not exceed the top of a window (rounded down)."""
    return count_at_most(limit=limit_v, each=module_v)


@formula("ceil(needed_v / module_v - 1e-9)")
def shortest_string(*, needed_v: VoltageV, module_v: VoltageV) -> Count:
    """The fewest modules whose voltage reaches the bottom of a window or a start voltage (rounded up).

    `module_v` is one module's operating voltage in the worst case, hot.
    """
    return count_at_least(needed=needed_v, each=module_v)


@formula("string_a * strings")
def parallel_current(*, string_a: CurrentA, strings: Count) -> CurrentA:
    """Current of like strings in parallel."""
    return string_a * strings


@formula("floor(input_a / string_a + 1e-9)")
def most_strings_on_input(*, input_a: CurrentA, string_a: CurrentA) -> Count:
    """The most parallel strings whose current does not exceed an input's limit (rounded down)."""
    return count_at_most(limit=input_a, each=string_a)


@formula("max(0, strings - 1) * string_a + backfeed_a")
def reverse_current(*, string_a: CurrentA, strings: Count, backfeed_a: CurrentA) -> CurrentA:
    """Current that the other parallel strings, and whatever the input can feed back, drive into a faulted
    string. `strings` counts all that are tied together, the faulted one included.

    IEC 62548-1:2023 clause on overcurrent protection of strings.
    """
    return max(0, strings - 1) * string_a + backfeed_a


@formula("1 + floor(module_limit_a / string_a + 1e-9)")
def most_strings_without_fuse(*, module_limit_a: CurrentA, string_a: CurrentA) -> Count:
    """The most parallel strings whose reverse current no module minds: its overcurrent rating bears that of
    all the others. Nothing else may feed back.
    """
    return 1 + count_at_most(limit=module_limit_a, each=string_a)


@formula("count * positive_v / (positive_v + negative_v)")
def modules_to_earth_fault(*, count: Count, positive_v: VoltageV, negative_v: VoltageV) -> Ratio:
    """How many modules, counted from the positive end, lie before a string's one earth fault.

    From the two pole-to-earth readings (both without sign) on an isolated string. A whole number is the
    joint after that module, a fraction the inside of the next. A meter that loads the fault lowers both
    readings alike, which leaves the place as it is. Raises `ZeroDivisionError` where both read zero, as
    they do without a fault.
    """
    return count * positive_v / (positive_v + negative_v)


@formula("array_w / inverter_w")
def dc_ac_ratio(*, array_w: PowerW, inverter_w: PowerW) -> Ratio:
    """Array power at STC over the inverter's rated alternating-current power."""
    return array_w / inverter_w
