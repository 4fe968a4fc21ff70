"""The highest voltage of a string (IEC 62548-1 clause 7.2, IEC 60364-7-712)."""

from ferrule.fact import Missing
from ferrule.physics import module, scale, strings
from ferrule.working import Trace


class ColdestMorning:
    """At dawn the cells are as cold as the air and in full open circuit."""

    needs = ("cold_voltage_factor", "array_voltage_building", "array_voltage_elsewhere")

    def highest_v(
        self,
        t: Trace,
        *,
        modules: int,
        voc_v: float,
        coefficient_v_per_k: float | None,
        coldest_c: float,
        technology: str,
    ) -> float:
        """By the module's own coefficient; for crystalline silicon without one, by the table's factor."""
        if coefficient_v_per_k is not None:
            each_v = t.calculate(
                module.voltage_at_cell, stc_v=voc_v, coefficient_v_per_k=coefficient_v_per_k, cell_c=coldest_c
            )
        elif technology in {"mono", "poly"}:
            factor = t.read("cold_voltage_factor", coldest_c)
            each_v = t.calculate(scale.scaled_voltage, voltage_v=voc_v, factor=factor)
        else:
            raise Missing("temperature coefficient of Voc, from the module's sheet")
        return t.calculate(strings.string_voltage, module_v=each_v, count=modules)

    def cap_v(self, t: Trace, *, building: str) -> float:
        """IEC 62548-1: 1000 V on buildings, 1500 V elsewhere."""
        return t.figure("array_voltage_elsewhere" if building == "ground" else "array_voltage_building")
