"""Automatic disconnection (IEC 60364-4-41:2005+AMD1:2017 clauses 411.3 to 411.5, IEC 60364-6 annex D)."""

from collections.abc import Iterator, Sequence

from ferrule.clauses.iec60364 import loop, tripping
from ferrule.clauses.values import Device, LoopPart
from ferrule.constraint import Constraint, at_most, is_so
from ferrule.physics import conductor, electrode, fault
from ferrule.working import Trace

_MULTIPLES = (5, 2, 1)


class AutomaticDisconnection:
    """TN: the loop lets enough current through to trip a device in time. TT: a residual current device trips,
    and until then the voltage on metal stays harmless.
    """

    needs = (
        *loop.NEEDS,
        *tripping.NEEDS,
        "disconnection_time_ac",
        "disconnection_time_distribution",
        "final_circuit_socket_upto",
        "final_circuit_fixed_upto",
        "loop_measured_share",
        "rcd_trip_time",
        "touch_voltage_ac",
    )

    def longest_s(
        self,
        t: Trace,
        *,
        system: str,
        line_to_neutral_v: float,
        rating_a: float,
        final: bool,
        sockets: bool,
    ) -> float:
        """Table 41.1 for final circuits up to a rating (411.3.2.2), else as for distribution circuits."""
        upto_a = t.figure("final_circuit_socket_upto" if sockets else "final_circuit_fixed_upto")
        if final and rating_a <= upto_a:
            return t.read("disconnection_time_ac", line_to_neutral_v, system)
        return t.read("disconnection_time_distribution", system)

    def loop_ohm(self, t: Trace, *, origin_ohm: float, parts: Sequence[LoopPart]) -> float:
        return loop.warm_loop_ohm(t, origin_ohm, parts)

    def by_device(
        self,
        t: Trace,
        *,
        loop_ohm: float,
        origin_ohm: float,
        parts: Sequence[LoopPart],
        device: Device,
        line_to_neutral_v: float,
        within_s: float,
    ) -> Iterator[Constraint]:
        """411.4.4: Z_s · I_a ≤ U_0; and the reading to expect, against two thirds of that limit."""
        cold = Trace(t.tables)
        yield at_most(
            "loop_impedance",
            "The fault loop has {value} warm; the device disconnects within {within_s} up to {limit}",
            t,
            value=loop_ohm,
            limit=self._limit_ohm(t, device, line_to_neutral_v, within_s, 1.0),
            unit="Ω",
            within_s=within_s,
        )
        share = cold.figure("loop_measured_share")
        yield at_most(
            "cold_reading",
            "Expect to measure {value} cold; a cold reading may show {limit} at most",
            cold,
            value=loop.cold_loop_ohm(cold, origin_ohm, parts),
            limit=self._limit_ohm(cold, device, line_to_neutral_v, within_s, share),
            unit="Ω",
            binding=False,
        )

    @staticmethod
    def _limit_ohm(
        t: Trace, device: Device, line_to_neutral_v: float, within_s: float, share: float
    ) -> float:
        return t.calculate(
            fault.loop_limit,
            voltage_v=line_to_neutral_v,
            voltage_factor=share,
            trip_a=tripping.trips_a(t, device, within_s),
        )

    def by_residual(
        self,
        t: Trace,
        *,
        loop_ohm: float,
        residual_a: float,
        selective: bool,
        line_to_neutral_v: float,
        within_s: float,
    ) -> Constraint:
        """411.4.5 and 411.5.3: the time at the multiple of its rating that the fault drives."""
        fault_a = t.calculate(
            fault.fault_current, voltage_v=line_to_neutral_v, voltage_factor=1.0, loop_ohm=loop_ohm
        )
        multiple = next((each for each in _MULTIPLES if fault_a >= each * residual_a), None)
        if multiple is None:
            return is_so(
                "residual_time",
                "A fault drives {fault_a} only, which the RCD of {residual_a} need not see",
                t,
                False,
                fault_a=fault_a,
                residual_a=residual_a,
            )
        kind = "selective" if selective else "general"
        return at_most(
            "residual_time",
            "A fault drives {fault_a}; the RCD of {residual_a} trips within {value}, and {limit} is allowed",
            t,
            value=t.read("rcd_trip_time", kind, str(multiple)),
            limit=within_s,
            unit="s",
            fault_a=fault_a,
            residual_a=residual_a,
        )

    def touch_voltage(
        self, t: Trace, *, electrode_ohm: float, parts: Sequence[LoopPart], residual_a: float
    ) -> Constraint:
        """411.5.3: R_A · I_Δn ≤ 50 V, R_A being the electrode with the protective conductors behind it."""
        total_ohm = t.given("electrode_ohm", electrode_ohm, "earth electrode")
        for part in parts:
            cable_ohm = t.calculate(
                conductor.cable_resistance,
                resistance_ohm_per_km=loop.warm_ohm_per_km(t, part, part.protective),
                length_m=part.length_m,
            )
            total_ohm = t.calculate(fault.loop_at_end, external_ohm=total_ohm, cable_ohm=cable_ohm)
        return at_most(
            "touch_voltage",
            "Until the RCD of {residual_a} trips, metal may stand at {value}; {limit} may last",
            t,
            value=t.calculate(electrode.touch_voltage, electrode_ohm=total_ohm, current_a=residual_a),
            limit=t.figure("touch_voltage_ac"),
            unit="V",
            mend="lower the electrode's resistance with more or deeper rods, or take an RCD of less residual "
            "current",
            residual_a=residual_a,
        )
