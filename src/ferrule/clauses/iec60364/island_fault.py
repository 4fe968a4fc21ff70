"""Faults fed by a source of limited current (IEC 60364-4-41:2005+AMD1 clauses 411, 419; 5-55 clause 551)."""

from collections.abc import Iterator, Sequence

from ferrule.clauses.values import LoopPart
from ferrule.constraint import Constraint, at_least, at_most
from ferrule.physics import conductor, electrode, fault, scale
from ferrule.quantity import Size
from ferrule.working import NotPrinted, Tables, Trace

#: rows of the table of k for the cores of a cable, by insulation
_CORES = {"pvc": "line_pvc", "xlpe": "line_xlpe", "pv": "pv_90"}


class LimitedSource:
    """A residual current device ends an earth fault if the source can drive it; an overcurrent device only if
    it trips at once with what the source gives for long enough.
    """

    needs = (
        "conductor_resistance",
        "zero_resistance_temperature",
        "insulation_temperature",
        "touch_voltage_ac",
        "rcd_fault_multiple",
        "breaker_trip",
        "breaker_trip_time",
        "adiabatic_k",
    )

    def loop_ohm(self, t: Trace, *, outside_ohm: float, parts: Sequence[LoopPart]) -> float:
        """Conductors as warm as their insulation bears in service, out and back."""
        total_ohm = t.given("outside_ohm", outside_ohm, "what lies outside these cables")
        for part in parts:
            cable_ohm = t.calculate(
                fault.loop_of_cable,
                line_ohm_per_km=self._warm_ohm_per_km(t, part, part.line),
                return_ohm_per_km=self._warm_ohm_per_km(t, part, part.protective),
                length_m=t.given("length_m", part.length_m, "run"),
            )
            total_ohm = t.calculate(fault.loop_at_end, external_ohm=total_ohm, cable_ohm=cable_ohm)
        return total_ohm

    @staticmethod
    def _warm_ohm_per_km(t: Trace, part: LoopPart, size: Size) -> float:
        if size.system != "mm²":
            raise NotPrinted(f"resistances are tabulated for mm², not for {size}")
        return t.calculate(
            conductor.resistance_at,
            resistance_ohm_per_km=t.read(
                "conductor_resistance", size.name, f"{part.metal}_{part.strands.replace('-', '_')}"
            ),
            beta_c=t.read("zero_resistance_temperature", part.metal),
            from_c=20.0,
            to_c=t.read("insulation_temperature", part.insulation, "operating"),
        )

    def residual(
        self, tables: Tables, *, residual_a: float, loop_ohm: float, source_a: float
    ) -> Iterator[Constraint]:
        """R · I_Δn ≤ 50 V (411.5.3), and five times the rated residual current to trip in time."""
        t = Trace(tables)
        t.given("loop_ohm", loop_ohm, "fault loop")
        yield at_most(
            "touch_voltage",
            "Until the RCD of {residual_a} trips, metal may rise to {value}; {limit} may last",
            t,
            value=t.calculate(electrode.touch_voltage, electrode_ohm=loop_ohm, current_a=residual_a),
            limit=t.figure("touch_voltage_ac"),
            unit="V",
            residual_a=residual_a,
        )
        t = Trace(tables)
        t.given("residual_a", residual_a, "rated residual current")
        yield at_least(
            "residual_trip",
            "The source gives {value}; the RCD of {residual_a} surely trips in time at {limit}",
            t,
            value=source_a,
            limit=t.calculate(
                scale.scaled_current, current_a=residual_a, factor=t.figure("rcd_fault_multiple")
            ),
            unit="A",
            residual_a=residual_a,
        )

    def trips_at_a(self, t: Trace, *, kind: str, curve: str, rating_a: float) -> float | None:
        """The upper end of a breaker's instantaneous band (IEC 60898-1); a fuse has none."""
        if kind != "mcb":
            return None
        multiple = t.read("breaker_trip", curve, "trip")
        return t.calculate(scale.scaled_current, current_a=rating_a, factor=multiple)

    def tripped_most_a(self, t: Trace, *, source_a: float) -> float:
        """By curve B, the quickest there is."""
        multiple = t.read("breaker_trip", "B", "trip")
        return t.calculate(scale.current_before_factor, current_a=source_a, factor=multiple)

    def trip_time_s(self, t: Trace) -> float:
        return t.figure("breaker_trip_time")

    def withstand(
        self, tables: Tables, *, size: Size, insulation: str, metal: str, source_a: float, lasts_s: float
    ) -> Iterator[Constraint]:
        """I² t ≤ k² S² (IEC 60364-4-43 clause 434.5.2) with all the source gives, as long as it gives it."""
        t = Trace(tables)
        bears_a2s = t.calculate(
            conductor.withstand,
            k_factor=t.read("adiabatic_k", _CORES[insulation], metal),
            area_mm2=t.given("area_mm2", size.area_mm2, "conductor"),
        )
        yield at_most(
            "withstand",
            "In island mode a fault lets through {value}; the conductor bears {limit}",
            t,
            value=t.calculate(conductor.let_through, current_a=source_a, time_s=lasts_s),
            limit=bears_a2s,
            unit="A²s",
        )
