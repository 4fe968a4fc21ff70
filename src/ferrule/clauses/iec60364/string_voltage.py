"""The highest voltage of a string (IEC 62548-1 clause 7.2, IEC 60364-7-712)."""

from ferrule.clauses import cold_string
from ferrule.working import Trace


class ColdestMorning:
    """At dawn the cells are as cold as the air and in full open circuit."""

    needs = (
        "cold_voltage_factor",
        "cold_line_shortfall",
        "array_voltage_building",
        "array_voltage_elsewhere",
    )

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
        return cold_string.highest_v(
            t,
            modules=modules,
            voc_v=voc_v,
            coefficient_v_per_k=coefficient_v_per_k,
            coldest_c=coldest_c,
            technology=technology,
        )

    def shortfall_pct(self, t: Trace, *, coldest_c: float) -> float:
        return cold_string.shortfall_pct(t, coldest_c)

    def cap_v(self, t: Trace, *, building: str) -> float:
        """IEC 62548-1: 1000 V on buildings, 1500 V elsewhere."""
        return t.figure("array_voltage_elsewhere" if building == "ground" else "array_voltage_building")
