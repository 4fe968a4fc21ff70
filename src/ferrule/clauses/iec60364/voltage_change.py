"""Voltage drop and rise (IEC 60364-5-52:2009 clause 525 and annex G; conventions for the rise)."""

from typing import Literal

from ferrule.physics import conductor, drop, scale
from ferrule.quantity import Size
from ferrule.working import Trace


class AnnexG:
    """The drop along the voltage's own direction, with conductors warm from service.

    A rise is the same with the current turned. There is no international limit for it: the network
    operator's own comes first, national documents give a ceiling, and trade practice stays well below.
    """

    needs = (
        "service_resistivity",
        "reactance",
        "power_factor_inverter",
        "voltage_drop_limit",
        "drop_long_run_from",
        "drop_long_run_addition",
        "drop_long_run_most",
        "utilization_lack_most",
        "voltage_rise_should",
        "voltage_rise_ceiling",
        "supply_voltage_tolerance",
    )

    def drop_v(
        self,
        t: Trace,
        *,
        length_m: float,
        size: Size,
        metal: str,
        balanced_a: float,
        single_a: float,
        cos_phi: float | None,
    ) -> float:
        """Annex G: b = 1 for what flows in three lines alike, b = 2 for what returns by the neutral."""
        resistance = t.calculate(
            conductor.resistance_per_km,
            resistivity_ohm_mm2_per_m=t.read("service_resistivity", metal),
            area_mm2=t.given("area_mm2", size.area_mm2),
        )
        reactance = t.figure("reactance")
        if cos_phi is None:
            cos_phi = t.calculate(
                drop.power_factor_of_largest_drop,
                resistance_ohm_per_km=resistance,
                reactance_ohm_per_km=reactance,
            )
        total = 0.0
        for formula, current_a in ((drop.drop_three_phase, balanced_a), (drop.drop_single_phase, single_a)):
            if current_a:
                total += t.calculate(
                    formula,
                    length_m=length_m,
                    resistance_ohm_per_km=resistance,
                    reactance_ohm_per_km=reactance,
                    cos_phi=cos_phi,
                    current_a=current_a,
                )
        return total

    def rise_v(
        self, t: Trace, *, length_m: float, size: Size, metal: str, balanced_a: float, single_a: float
    ) -> float:
        """As the drop, at the power factor of an inverter's output."""
        return self.drop_v(
            t,
            length_m=length_m,
            size=size,
            metal=metal,
            balanced_a=balanced_a,
            single_a=single_a,
            cos_phi=t.figure("power_factor_inverter"),
        )

    def drop_limit_pct(
        self, t: Trace, *, supply: Literal["public", "private"], lighting: bool, main_m: float
    ) -> float:
        """Table G.52.1 with its addition for main runs beyond 100 m."""
        limit_pct = t.read("voltage_drop_limit", supply, "lighting" if lighting else "other")
        beyond_m = main_m - t.figure("drop_long_run_from")
        if beyond_m <= 0:
            return limit_pct
        addition_pct = min(beyond_m * t.figure("drop_long_run_addition"), t.figure("drop_long_run_most"))
        return limit_pct + t.given("addition_pct", addition_pct, f"{beyond_m:g} m beyond that length")

    def drop_most_pct(self, t: Trace) -> float:
        """IEC 60038: what a network at its lowest and the house together may take, here the house alone."""
        return t.figure("utilization_lack_most")

    def rise_should_pct(self, t: Trace) -> float:
        return t.figure("voltage_rise_should")

    def rise_ceiling_pct(self, t: Trace) -> float:
        """The strictest of the national documents."""
        return t.figure("voltage_rise_ceiling", "low")

    def tolerated_v(self, t: Trace, *, nominal_v: float) -> float:
        """EN 50160: the nominal voltage and a tenth, as mean of ten minutes."""
        share = 1 + t.figure("supply_voltage_tolerance") / 100
        return t.calculate(scale.scaled_voltage, voltage_v=nominal_v, factor=share)
