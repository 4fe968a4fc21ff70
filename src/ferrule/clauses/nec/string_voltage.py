"""Maximum voltage of a PV source circuit (NFPA 70:2023, 690.7)."""

from ferrule.fact import Missing
from ferrule.physics import module, scale, strings
from ferrule.working import Trace


class LowestAmbient:
    """690.7(A): the sum of the modules' voltages at the lowest expected ambient temperature."""

    needs = (
        "cold_voltage_factor",
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
        """690.7: 600 V on one- and two-family dwellings, 1000 V on other buildings."""
        caps = {"dwelling": "array_voltage_dwelling", "other": "array_voltage_building"}
        return t.figure(caps.get(building, "array_voltage_elsewhere"))
