"""What the questions about a battery have in common: its inverters, its currents, its fault current."""

from typing import NamedTuple

from ferrule.design import Design
from ferrule.fact import Missing, Unknown, all_known, known
from ferrule.job.runs import Run
from ferrule.parts import Inverter
from ferrule.parts.devices import BatteryPort
from ferrule.physics import battery as physics
from ferrule.physics import scale
from ferrule.working import Trace


class Feed(NamedTuple):
    """One inverter on a battery, by which run."""

    run: Run
    inverter: str


def feeds(design: Design, battery: str) -> tuple[Feed, ...]:
    """The inverters on a battery. Raises `Missing` where the job has no run between them."""
    found = []
    for run_id, owner in design.house.battery_runs.items():
        run = design.house.runs[run_id]
        other = run.end if run.start == owner else run.start
        if owner == battery and other.endswith(".battery"):
            found.append(Feed(run, other.partition(".")[0]))
    if not found:
        raise Missing(
            f"the cable run between {battery} and its inverter: its cable, length and way of laying"
        )
    return tuple(found)


def port(design: Design, inverter: str) -> BatteryPort:
    """The battery port of an inverter. Raises `Missing` where its sheet has none."""
    part = design.inverter(inverter)
    if part.battery is None:
        raise Missing(f"the limits of the battery port of {inverter}, from its sheet")
    return part.battery


def charge_a(design: Design, battery: str, t: Trace) -> float:
    """What the inverters on a battery charge it with, in A."""
    total_a = 0.0
    for feed in feeds(design, battery):
        set_a = design.inverter_device(feed.inverter).charge_set_a
        if set_a is not None:
            total_a += t.given("charge_a", set_a, f"set in {feed.inverter}")
        else:
            limit_a = known(port(design, feed.inverter).charge_max_a)
            total_a += t.given("charge_a", limit_a, design.inverter(feed.inverter).source)
    return total_a


def discharge_a(design: Design, battery: str, t: Trace) -> float:
    """What the inverters on a battery draw from it, in A."""
    return sum(_drawn_a(design, battery, feed.inverter, t) for feed in feeds(design, battery))


def _drawn_a(design: Design, battery: str, inverter: str, t: Trace) -> float:
    """What is set in the inverter, else what its sheet states or its power takes, whichever is more.

    A steady power takes most current from a battery that is nearly empty.
    """
    set_a = design.inverter_device(inverter).discharge_set_a
    if set_a is not None:
        return t.given("discharge_a", set_a, f"set in {inverter}")
    part, limits, cells = design.inverter(inverter), port(design, inverter), design.battery(battery)
    backup = (part.backup.power_va,) if part.backup else ()
    all_known(
        limits.discharge_max_a, limits.efficiency_pct, limits.voltage_low_v, cells.voltage_low_v,
        part.grid.power_w, *backup,
    )  # fmt: skip
    stated_a = t.given("discharge_a", known(limits.discharge_max_a), part.source)
    by_power_a = t.calculate(
        physics.battery_current,
        power_w=_power_w(part),
        efficiency_pct=known(limits.efficiency_pct),
        voltage_v=max(known(limits.voltage_low_v), known(cells.voltage_low_v)),
    )
    return max(stated_a, by_power_a)


def _power_w(part: Inverter) -> float:
    """The most a battery has to feed for hours, to the network or to the house."""
    grid_w = known(part.grid.power_w)
    return max(grid_w, known(part.backup.power_va)) if part.backup else grid_w


def design_a(design: Design, battery: str, t: Trace) -> float:
    """Design current of the battery's circuit, either way, in A."""
    return max(charge_a(design, battery, t), discharge_a(design, battery, t))


def fault_a(design: Design, battery: str, t: Trace) -> float:
    """Prospective short-circuit current at the poles, all packs together, in A.

    Where the maker states both the current and the resistance, the higher result counts. Nothing typical
    stands in for a maker who states neither: published figures for like batteries differ by ten.
    """
    part, packs = design.battery(battery), design.battery_device(battery).packs
    found = []
    if not isinstance(part.short_circuit_a, Unknown):
        stated_a = t.given("short_circuit_a", part.short_circuit_a, f"{part.source}, each pack")
        found.append(t.calculate(scale.scaled_current, current_a=stated_a, factor=packs))
    if not isinstance(part.internal_ohm, Unknown) and not isinstance(part.voltage_high_v, Unknown):
        each_ohm = t.given("internal_ohm", part.internal_ohm, f"{part.source}, each pack")
        found.append(
            t.calculate(
                physics.battery_fault_current,
                voltage_v=part.voltage_high_v,
                internal_ohm=t.calculate(physics.parallel_resistance, each_ohm=each_ohm, count=packs),
                cable_ohm=0.0,
            )
        )
    if not found:
        raise Missing(
            "prospective short-circuit current of the battery, or its internal resistance: ask the maker"
        )
    return max(found)
