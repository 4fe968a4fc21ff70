"""Residual current devices (IEC 60364-4-41 clauses 411 and 415, 5-53 clause 531.3, 7-712, 7-722)."""

from collections.abc import Collection, Iterator

from ferrule.constraint import Constraint, at_most, is_so
from ferrule.physics import scale
from ferrule.working import Tables, Trace

_MIXED = frozenset({"lighting", "sockets", "electronic", "motor", "charger"})


class TypeByWaveform:
    """The type follows what residual current can flow, the rating what the device is there for."""

    needs = (
        "rcd_types",
        "rcd_type_transformerless",
        "rcd_type_smooth_dc_excluded",
        "rcd_type_separated",
        "rcd_type_upstream_of_b",
        "rcd_type_mixed_loads",
        "rcd_type_fixed_resistive",
        "rcd_type_charger",
        "rcd_type_charger_dc_excluded",
        "rcd_charger",
        "additional_protection_current",
        "additional_socket_upto",
        "additional_lighting",
        "island_rcd",
        "rcd_no_trip_share",
        "rcd_leakage_share",
        "rcd_selective_ratio",
        "rcd_source_poles",
        "rcd_ratings_distribution",
        "rcd_currents",
    )

    def inverter_type(self, t: Trace, *, separated: bool, smooth_dc_excluded: bool) -> str:
        """712.531.3.5.1: B, unless windings separate it or the maker excludes smooth direct current."""
        if separated:
            return t.term("rcd_type_separated")
        return t.term("rcd_type_smooth_dc_excluded" if smooth_dc_excluded else "rcd_type_transformerless")

    def load_type(self, t: Trace, *, kinds: Collection[str], smooth_dc_excluded: bool) -> str:
        """531.3.3; for a charging point 722.531.2.101."""
        if "charger" in kinds:
            return t.term("rcd_type_charger_dc_excluded" if smooth_dc_excluded else "rcd_type_charger")
        return t.term("rcd_type_mixed_loads" if _MIXED & set(kinds) else "rcd_type_fixed_resistive")

    def upstream_type(self, t: Trace, *, wanted: str) -> str:
        """531.3.3: smooth direct current blinds a device that is not made for it, wherever it stands."""
        return t.term("rcd_type_upstream_of_b") if wanted == "B" else wanted

    def strictest(self, tables: Tables, types: Collection[str]) -> str:
        """Each type covers those before it in the series."""
        return max(types, key=tables.series("rcd_types").words().index)

    def additional_a(
        self, t: Trace, *, kinds: Collection[str], rating_a: float, dwelling: bool
    ) -> float | None:
        """411.3.3 for socket-outlets, 411.3.4 for luminaires in dwellings, 722 for a charging point."""
        asked = (
            ("sockets" in kinds and rating_a <= t.figure("additional_socket_upto"))
            or ("lighting" in kinds and dwelling and t.term("additional_lighting") == "required")
            or ("charger" in kinds and t.term("rcd_charger") == "required")
        )
        return t.figure("additional_protection_current") if asked else None

    def required(self, t: Trace, *, earthing: str, position: str) -> bool:
        """411.5.2 for TT systems; in island mode an inverter cannot be trusted to trip a breaker."""
        if position == "island":
            return t.term("island_rcd") == "every_circuit"
        return earthing == "TT"

    def leakage(self, tables: Tables, *, leakage_a: float, residual_a: float) -> Iterator[Constraint]:
        """A device may trip from half of its rated current on; 531.3.2 asks to stay well below."""
        t = Trace(tables)
        yield at_most(
            "leakage",
            "The inverters behind the RCD of {residual_a} leak {value}; above {limit} it may trip",
            t,
            value=leakage_a,
            limit=self._multiple_a(t, residual_a, "rcd_no_trip_share"),
            unit="A",
            residual_a=residual_a,
        )
        t = Trace(tables)
        yield at_most(
            "leakage_should",
            "The inverters behind the RCD of {residual_a} leak {value}; it should see {limit} at most",
            t,
            value=leakage_a,
            limit=self._multiple_a(t, residual_a, "rcd_leakage_share"),
            unit="A",
            binding=False,
            residual_a=residual_a,
        )

    @staticmethod
    def _multiple_a(t: Trace, residual_a: float, figure: str) -> float:
        return t.calculate(scale.scaled_current, current_a=residual_a, factor=t.figure(figure))

    def selective(self, tables: Tables, *, upstream_a: float, delayed: bool, residual_a: float) -> Constraint:
        """536.4.1.4: the one nearer to the source is delayed (type S) and at least three times as large."""
        t = Trace(tables)
        least_a = self._multiple_a(t, residual_a, "rcd_selective_ratio")
        return is_so(
            "selective",
            "The RCD of {upstream_a} nearer to the source leaves a fault to the one of {residual_a}"
            if delayed and upstream_a >= least_a
            else "The RCD of {upstream_a} nearer to the source may trip together with the one of "
            "{residual_a}; it should be a delayed one (S) of at least {least_a}",
            t,
            delayed and upstream_a >= least_a,
            binding=False,
            mend="fit a delayed RCD (S) of at least {least_a} nearer to the source",
            upstream_a=upstream_a,
            residual_a=residual_a,
            least_a=least_a,
        )

    def opens_all(self, t: Trace) -> bool:
        """551.7: else a fault stays fed through the neutral by the source behind the device."""
        return t.term("rcd_source_poles") == "all"

    def types(self, tables: Tables) -> tuple[str, ...]:
        """From type A up: what hangs on a circuit changes, and type AC then no longer serves."""
        order = tables.series("rcd_types").words()
        return order[order.index("A") :]

    def residuals_a(self, tables: Tables, *, final: bool) -> tuple[float, ...]:
        """Where people use what hangs on it, the device that adds protection; elsewhere the largest first,
        so that leakage does not trip it.
        """
        if final:
            return (float(tables.figure("additional_protection_current", None).value),)
        return tables.series("rcd_ratings_distribution").numbers()[::-1]

    def currents_a(self, tables: Tables) -> tuple[float, ...]:
        return tables.series("rcd_currents").numbers()
