"""Maximum voltage of a PV source circuit (NFPA 70:2023, 690.7)."""

from ferrule.clauses import cold_string
from ferrule.working import Trace


class LowestAmbient:
    """690.7(A): the sum of the modules' voltages at the lowest expected ambient temperature."""

    needs = (
        "cold_voltage_factor",
        "cold_line_shortfall",
        "array_voltage_dwelling",
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
        """690.7(A)(1) by coefficient; without one, table 690.7(A) for crystalline silicon only."""
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
        """690.7: 600 V on one- and two-family dwellings, 1000 V on other buildings."""
        caps = {"dwelling": "array_voltage_dwelling", "other": "array_voltage_building"}
        return t.figure(caps.get(building, "array_voltage_elsewhere"))
