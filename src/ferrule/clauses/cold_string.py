"""The highest voltage of a string as both families reckon it: by coefficient, else by a table's factor."""

from ferrule.fact import Missing
from ferrule.physics import module, scale, strings
from ferrule.working import NotPrinted, Trace


def highest_v(
    t: Trace,
    *,
    modules: int,
    voc_v: float,
    coefficient_v_per_k: float | None,
    coldest_c: float,
    technology: str,
) -> float:
    """Open-circuit voltage on the coldest morning, in V: at dawn the cells are as cold as the air.

    Without a coefficient the table serves crystalline silicon, as far down as it is printed. Raises `Missing`
    elsewhere, for then only the module's own sheet can tell.
    """
    if coefficient_v_per_k is not None:
        each_v = t.calculate(
            module.voltage_at_cell, stc_v=voc_v, coefficient_v_per_k=coefficient_v_per_k, cell_c=coldest_c
        )
    else:
        factor = _factor(t, coldest_c, technology)
        each_v = t.calculate(scale.scaled_voltage, voltage_v=voc_v, factor=factor)
    return t.calculate(strings.string_voltage, module_v=each_v, count=modules)


def shortfall_pct(t: Trace, coldest_c: float) -> float:
    """How far the line of a coefficient may lie below crystalline cells as cold as this, in per cent."""
    return t.read("cold_line_shortfall", coldest_c)


def _factor(t: Trace, coldest_c: float, technology: str) -> float:
    try:
        if technology in {"mono", "poly"}:
            return t.read("cold_voltage_factor", coldest_c)
    except NotPrinted:
        pass
    raise Missing("temperature coefficient of Voc, from the module's sheet")
