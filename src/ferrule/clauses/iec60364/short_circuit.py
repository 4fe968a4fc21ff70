"""Protection against short circuit (IEC 60364-4-43:2008 clauses 434 and 435, IEC 60909-0)."""

import math
from collections.abc import Iterator, Sequence

from ferrule.clauses.iec60364 import loop, tripping
from ferrule.clauses.values import CableKind, Device, LoopPart
from ferrule.constraint import Constraint, at_least, at_most, is_so
from ferrule.fact import Missing
from ferrule.physics import conductor, fault, scale
from ferrule.quantity import Size
from ferrule.working import Tables, Trace

#: rows of the table of k for the cores of a cable, by insulation
CORES = {"pvc": "line_pvc", "xlpe": "line_xlpe", "pv": "pv_90"}


class FaultEnergy:
    """The highest fault is reckoned with cold conductors, the lowest with warm ones (IEC 60909-0)."""

    needs = (
        *loop.NEEDS,
        *tripping.NEEDS,
        "adiabatic_k",
        "source_fault_multiple",
        "supply_voltage_tolerance",
        "breaker_breaking_capacities",
        "fuse_gg_breaking_capacities",
    )

    def highest_a(
        self,
        t: Trace,
        *,
        origin_a: float,
        line_to_neutral_v: float,
        parts: Sequence[LoopPart],
        lines: int,
        inverters_a: float,
    ) -> float:
        """At the network's highest voltage, with the supply's impedance taken as all reactance, which leaves
        most current behind a cable. Inverters add the most that is printed for them, as if they stood at the
        fault.
        """
        network_a = self._behind_a(t, origin_a, line_to_neutral_v, parts, lines) if parts else origin_a
        if not inverters_a:
            return network_a
        return t.calculate(
            fault.fault_current_together,
            network_a=network_a,
            inverters_a=t.calculate(
                scale.scaled_current,
                current_a=t.given("inverters_a", inverters_a, "all inverters in service"),
                factor=t.read("source_fault_multiple", "grid_inverter", "high"),
            ),
        )

    def _behind_a(
        self, t: Trace, origin_a: float, line_to_neutral_v: float, parts: Sequence[LoopPart], lines: int
    ) -> float:
        highest = 1 + t.figure("supply_voltage_tolerance") / 100
        supply_ohm = t.calculate(
            fault.impedance_behind, voltage_v=line_to_neutral_v, voltage_factor=highest, fault_a=origin_a
        )
        line_ohm = math.fsum(self._cold_ohm(t, part, part.line) for part in parts)
        if lines > 2:
            return t.calculate(
                fault.fault_current_three_phase,
                line_to_neutral_v=line_to_neutral_v,
                voltage_factor=highest,
                source_r_ohm=0.0,
                source_x_ohm=supply_ohm,
                cable_r_ohm=line_ohm,
                cable_x_ohm=0.0,
            )
        return t.calculate(
            fault.fault_current_single_phase,
            line_to_neutral_v=line_to_neutral_v,
            voltage_factor=highest,
            source_r_ohm=0.0,
            source_x_ohm=supply_ohm,
            line_r_ohm=line_ohm,
            line_x_ohm=0.0,
            return_r_ohm=math.fsum(self._cold_ohm(t, part, part.protective) for part in parts),
            return_x_ohm=0.0,
        )

    @staticmethod
    def _cold_ohm(t: Trace, part: LoopPart, size: Size) -> float:
        return t.calculate(
            conductor.cable_resistance,
            resistance_ohm_per_km=loop.cold_ohm_per_km(t, part, size),
            length_m=part.length_m,
        )

    def lowest_a(
        self, t: Trace, *, origin_ohm: float, line_to_neutral_v: float, parts: Sequence[LoopPart]
    ) -> float:
        """At the network's lowest voltage, with warm conductors."""
        return t.calculate(
            fault.fault_current,
            voltage_v=line_to_neutral_v,
            voltage_factor=1 - t.figure("supply_voltage_tolerance") / 100,
            loop_ohm=loop.warm_loop_ohm(t, t.given("origin_ohm", origin_ohm, "loop at the origin"), parts),
        )

    def breaks(self, t: Trace, *, fault_a: float, breaking_capacity_a: float) -> Constraint:
        """434.5.1: not less than the prospective current at its place."""
        return at_least(
            "breaking_capacity",
            "A fault at its place drives {limit}; the device breaks {value}",
            t,
            value=breaking_capacity_a,
            limit=fault_a,
            unit="A",
            mend="fit a device that breaks more, or one before it whose maker states the pair",
        )

    def withstand(
        self, t: Trace, *, conductor: str, fault_a: float, device: Device, size: Size, cable: CableKind
    ) -> Iterator[Constraint]:
        """434.5.2: I²t ≤ k²S².

        By the maker's figure; without one by the device's longest time. Where that is too crude for a
        breaker, 435.1 takes one that limits current and protects the conductor in an overload to protect it
        here as well; the figure of its class is then only a look.
        """
        start = t.branch()
        bears_a2s = self._bears_a2s(t, size, cable)
        if device.let_through_a2s is not None:
            origin = "maker's figure at this fault current"
            passed_a2s = t.given("let_through_a2s", device.let_through_a2s, origin)
        else:
            passed_a2s = tripping.longest_a2s(t, device, fault_a)
        if device.let_through_a2s is not None or device.kind != "mcb" or passed_a2s <= bears_a2s:
            yield at_most(
                f"{conductor}_withstand",
                "A fault lets {value} through; the {conductor} bears {limit}",
                t,
                value=passed_a2s,
                limit=bears_a2s,
                unit="A²s",
                conductor=conductor,
            )
            return
        deemed = start.term("breaker_class_deemed")
        if device.energy_class != deemed:
            raise Missing("let-through energy of the device at its fault current, from its maker")
        yield is_so(
            f"{conductor}_withstand",
            "A breaker of energy limiting class {deemed} protects the {conductor} in a fault as in an "
            "overload",
            start,
            True,
            conductor=conductor,
            deemed=deemed,
        )
        t = Trace(t.tables, list(start.steps))
        class_a2s = tripping.class_a2s(t, device, fault_a)
        if class_a2s is not None:
            yield at_most(
                f"{conductor}_class",
                "A breaker of its class may let {value} through here; the {conductor} bears {limit}",
                t,
                value=class_a2s,
                limit=self._bears_a2s(t, size, cable),
                unit="A²s",
                binding=False,
                mend="state the breaker's own let-through energy from its maker, or take a thicker cable",
                conductor=conductor,
            )

    @staticmethod
    def _bears_a2s(t: Trace, size: Size, cable: CableKind) -> float:
        return t.calculate(
            conductor.withstand,
            k_factor=t.read("adiabatic_k", CORES[cable.insulation], cable.conductor),
            area_mm2=t.given("area_mm2", size.area_mm2, "conductor"),
        )

    def far_end(self, t: Trace, *, fault_a: float, device: Device) -> Constraint:
        """What protects against overload ends a smaller fault as well, only later (435.1): a look."""
        time = "adiabatic_time_least" if device.kind == "mcb" else "adiabatic_time_most"
        return at_least(
            "far_end",
            "A short circuit at the far end drives {value}; the device trips in time from {limit}",
            t,
            value=fault_a,
            limit=tripping.trips_a(t, device, t.figure(time)),
            unit="A",
            binding=False,
        )

    def starting(self, t: Trace, *, start_a: float, device: Device) -> Constraint | None:
        """IEC 60364-5-53 clause 533.2.1: peaks of the loads must not trip it. Fuses bear a start."""
        if device.kind != "mcb":
            return None
        return at_most(
            "starting",
            "A start draws {value}; the device surely holds {limit}",
            t,
            value=start_a,
            limit=t.calculate(
                scale.scaled_current,
                current_a=device.rating_a,
                factor=t.read("breaker_trip", device.curve, "no_trip"),
            ),
            unit="A",
        )

    def curves(self, tables: Tables, kind: str) -> tuple[str, ...]:
        """IEC 60898-1 names three types; a fuse has none."""
        return ("B", "C", "D") if kind == "mcb" else ()

    def breaking_capacities_a(self, tables: Tables, kind: str) -> tuple[float, ...]:
        series = "fuse_gg_breaking_capacities" if kind == "fuse-gG" else "breaker_breaking_capacities"
        return tables.series(series).numbers()
