"""Faults fed by a source of limited current (IEC 60364-4-41:2005+AMD1 clauses 411, 419; 5-55 clause 551)."""

from collections.abc import Iterator, Sequence

from ferrule.clauses.iec60364 import loop, tripping
from ferrule.clauses.iec60364.short_circuit import CORES
from ferrule.clauses.values import Device, LoopPart
from ferrule.constraint import Constraint, at_least, at_most
from ferrule.physics import conductor, electrode, scale
from ferrule.quantity import Size
from ferrule.working import Tables, Trace


class LimitedSource:
    """A residual current device ends an earth fault if the source can drive it; an overcurrent device only if
    it trips at once with what the source gives for long enough.
    """

    needs = (
        *loop.NEEDS,
        *tripping.NEEDS,
        "touch_voltage_ac",
        "rcd_fault_multiple",
        "adiabatic_k",
    )

    def loop_ohm(self, t: Trace, *, outside_ohm: float, parts: Sequence[LoopPart]) -> float:
        """Conductors as warm as their insulation bears in service, out and back."""
        return loop.warm_loop_ohm(
            t, t.given("outside_ohm", outside_ohm, "what lies outside these cables"), parts
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

    def trips_at_a(self, t: Trace, *, device: Device, lasts_s: float) -> float | None:
        """As on the network, within the time a breaker takes to trip at once."""
        within_s = t.figure("breaker_trip_time")
        return tripping.trips_a(t, device, within_s) if lasts_s >= within_s else None

    def tripped_most_a(self, t: Trace, *, source_a: float) -> float:
        """By curve B, the quickest there is."""
        multiple = t.read("breaker_trip", "B", "trip")
        return t.calculate(scale.current_before_factor, current_a=source_a, factor=multiple)

    def withstand(
        self, tables: Tables, *, size: Size, insulation: str, metal: str, source_a: float, lasts_s: float
    ) -> Iterator[Constraint]:
        """I² t ≤ k² S² (IEC 60364-4-43 clause 434.5.2) with all the source gives, as long as it gives it."""
        t = Trace(tables)
        bears_a2s = t.calculate(
            conductor.withstand,
            k_factor=t.read("adiabatic_k", CORES[insulation], metal),
            area_mm2=t.given("area_mm2", size.area_mm2, "conductor"),
        )
        yield at_most(
            "withstand",
            "A fault that the source feeds lets through {value}; the conductor bears {limit}",
            t,
            value=t.calculate(conductor.let_through, current_a=source_a, time_s=lasts_s),
            limit=bears_a2s,
            unit="A²s",
        )
