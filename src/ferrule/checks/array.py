"""What the questions about the array have in common: currents, coefficients, and the run of a string."""

from functools import partial

from ferrule.design import Design
from ferrule.fact import Missing, all_known, known
from ferrule.job.runs import Run
from ferrule.parts import Module
from ferrule.physics import module as modules
from ferrule.working import Trace


def run_of(design: Design, string: str) -> Run:
    """The cable run of a string. Raises `Missing` where the job has none."""
    found = next((run for run, its in design.house.string_runs.items() if its.id == string), None)
    if found is None:
        terminal = design.house.strings[string].input
        raise Missing(f"the cable run from {string} to {terminal}: its cable, length and way of laying")
    return design.house.runs[found]


def short_circuit_a(design: Design, terminal: str, t: Trace) -> float:
    """Rated short-circuit current of the strongest string on an input, its rear side lit, in A."""
    return design.recall_noted((short_circuit_a, terminal), t, partial(_short_circuit_a, design, terminal))


def _short_circuit_a(design: Design, terminal: str, t: Trace) -> float:
    parts = [design.module(string) for string in design.house.inputs[terminal]]
    all_known(*(part.isc_a for part in parts))
    part = max(parts, key=lambda each: known(each.isc_a) * (100 + each.rear_gain_pct))
    return _lit_from_behind(part, t.given("isc_a", known(part.isc_a), part.source), t)


def operating_a(design: Design, terminal: str, t: Trace) -> float:
    """Current at maximum power of the strongest string on an input, its rear side lit, in A."""
    parts = [design.module(string) for string in design.house.inputs[terminal]]
    all_known(*(part.imp_a for part in parts))
    part = max(parts, key=lambda each: known(each.imp_a) * (100 + each.rear_gain_pct))
    return _lit_from_behind(part, t.given("imp_a", known(part.imp_a), part.source), t)


def _lit_from_behind(part: Module, current_a: float, t: Trace) -> float:
    if not part.rear_gain_pct:
        return current_a
    return t.calculate(modules.with_rear_gain, current_a=current_a, rear_gain_pct=part.rear_gain_pct)


def backfeed_a(design: Design, terminal: str) -> float:
    """What the inverter, and the battery where it reaches the array's side, can feed back, in A."""
    inverter = terminal.partition(".")[0]
    part = design.inverter(inverter)
    all_known(part.backfeed_a, part.battery_feeds_pv_bus)
    if not known(part.battery_feeds_pv_bus):
        return known(part.backfeed_a)
    return known(part.backfeed_a) + _battery_a(design, inverter)


def _battery_a(design: Design, inverter: str) -> float:
    """Prospective short-circuit current of the batteries on an inverter, in A."""
    ends = [link.other(f"{inverter}.battery") for link in design.house.topology.at(f"{inverter}.battery")]
    batteries = [design.battery_device(end) for end in ends if end in design.house.devices]
    all_known(*(design.battery(battery.id).short_circuit_a for battery in batteries))
    return sum(battery.packs * known(design.battery(battery.id).short_circuit_a) for battery in batteries)


def operating_coefficient_v_per_k(part: Module, t: Trace) -> float:
    """Temperature coefficient of one module's operating voltage, in V/K.

    Where its sheet has none, the steepest that follows from those of power and of current, which in heat and
    cold is the safe one.
    """
    vmp_v = known(part.vmp_v)
    if part.vmp_coefficient is not None:
        return t.given("coefficient_v_per_k", part.vmp_coefficient.absolute(vmp_v), part.source)
    all_known(part.power_coefficient, part.isc_a, part.isc_coefficient)
    isc_a, of_power = known(part.isc_a), known(part.power_coefficient).value
    return t.calculate(
        modules.operating_coefficient,
        vmp_v=vmp_v,
        power_coefficient_pct_per_k=t.given("power_coefficient_pct_per_k", of_power, _NO_COEFFICIENT),
        isc_a=isc_a,
        isc_coefficient_a_per_k=known(part.isc_coefficient).absolute(isc_a),
    )


_NO_COEFFICIENT = "for the sheet has none of Vmp; the steepest one possible is taken"
