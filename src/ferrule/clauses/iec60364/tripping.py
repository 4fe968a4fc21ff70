"""What an overcurrent device does with a fault: when it trips, and how much energy it lets through.

Breakers by IEC 60898-1, fuses by the gates of IEC 60269-1.
"""

from ferrule.clauses.values import Device
from ferrule.physics import conductor, scale
from ferrule.working import NotPrinted, Trace

#: what the functions here read
NEEDS = (
    "breaker_trip",
    "breaker_trip_time",
    "breaker_let_through_class_3",
    "breaker_let_through_ratings",
    "breaker_class_deemed",
    "fuse_gg_gate",
    "adiabatic_time_least",
    "adiabatic_time_most",
)


def trips_a(t: Trace, device: Device, within_s: float) -> float:
    """The current at which a device has surely opened within a time, in A.

    A breaker at the upper end of its instantaneous band. Raises `NotPrinted` for a time too short for either.
    """
    if device.kind == "mcb":
        if within_s < t.figure("breaker_trip_time"):
            raise NotPrinted(f"a breaker is not sure to open within {within_s:g} s")
        return t.calculate(
            scale.scaled_current,
            current_a=device.rating_a,
            factor=t.read("breaker_trip", device.curve, "trip"),
        )
    if within_s >= t.figure("adiabatic_time_most"):
        return t.read("fuse_gg_gate", device.rating_a, "5_s")
    if within_s >= t.figure("adiabatic_time_least"):
        return t.read("fuse_gg_gate", device.rating_a, "0.1_s")
    raise NotPrinted(f"a fuse has no gate for {within_s:g} s")


def longest_a2s(t: Trace, device: Device, fault_a: float) -> float:
    """The most a device lets through of a fault, from its longest time, in A²s.

    A fuse lets most through at the smallest current, that of its gate for 5 s. A breaker's own figure is far
    lower where the current is high.
    """
    if device.kind == "mcb":
        return t.calculate(conductor.let_through, current_a=fault_a, time_s=t.figure("breaker_trip_time"))
    time_s = t.figure("adiabatic_time_most")
    return t.calculate(conductor.let_through, current_a=trips_a(t, device, time_s), time_s=time_s)


def class_a2s(t: Trace, device: Device, fault_a: float) -> float | None:
    """The most a breaker of energy limiting class 3 lets through, in A²s; None where no limit is printed."""
    if device.kind != "mcb" or device.energy_class != t.term("breaker_class_deemed"):
        return None
    ratings_a = t.tables.series("breaker_let_through_ratings").numbers()
    upto = next((f"{upto_a:g}" for upto_a in ratings_a if device.rating_a <= upto_a), None)
    try:
        return t.read("breaker_let_through_class_3", fault_a, f"{device.curve}_{upto}")
    except NotPrinted:
        return None
