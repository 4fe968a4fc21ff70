"""The battery circuit (IEC 60364-5-57:2022, IEC 60364-4-43:2008, IEC 60269-7:2021, and practice)."""

from collections.abc import Iterator, Sequence

from ferrule.clauses.iec60364.dc_conductor import HotRoof
from ferrule.clauses.values import CableKind, Laid
from ferrule.constraint import Constraint, at_least, at_most, is_so
from ferrule.fact import Missing
from ferrule.physics import conductor, drop, scale
from ferrule.quantity import Size
from ferrule.working import NotPrinted, Tables, Trace

#: the factor k of a line conductor by its insulation; a photovoltaic cable may be at 120 °C when it begins
_K_ROW = {"pvc": "line_pvc", "xlpe": "line_xlpe", "pv": "pv_120"}
_POLES = {"both": "both poles", "one": "one pole"}


class ShortAndFused:
    """A fuse beside the battery, a cable that bears what the fuse lets through, a switch for all poles.

    IEC 60364-5-57 was read through texts on its national forms only. The size of the fuse, its place and the
    drop are practice.
    """

    needs = (
        "battery_fuse_factor",
        "battery_fuse_distance",
        "battery_protection_poles",
        "battery_isolation_poles",
        "battery_isolation_lock",
        "battery_device_direction",
        "battery_device_current",
        "battery_pole_earthed",
        "battery_cable_insulation",
        "battery_drop_should",
        "touch_voltage_dc",
        "lithium_charge_temperature_least",
        "lithium_charge_temperature_most",
        "fuse_partial_range",
        "overload_device_also_short_circuit",
        "adiabatic_k",
        "fuse_battery_classes",
        "fuse_battery_ratings",
        "fuse_battery_voltages",
        "fuse_battery_breaking_capacities",
        "conductor_sizes",
        *HotRoof.needs,
    )

    # The protective device

    def rating(self, tables: Tables, *, rating_a: float, design_a: float) -> Iterator[Constraint]:
        """I_B ≤ I_n (IEC 60364-4-43 clause 433.1); by practice with a quarter to spare, for a warm holder."""
        yield at_most(
            "device_rating",
            "Design current {value}; the device is rated {limit}",
            Trace(tables),
            value=design_a,
            limit=rating_a,
            unit="A",
        )
        t = Trace(tables)
        yield at_least(
            "device_spare",
            "The device is rated {value}; from {limit} on it stays cool under steady load",
            t,
            value=rating_a,
            limit=t.calculate(
                scale.scaled_current, current_a=design_a, factor=t.figure("battery_fuse_factor")
            ),
            unit="A",
            binding=False,
        )

    def device(
        self, tables: Tables, *, kind: str, polarised: bool, poles: str, earthed_pole: str
    ) -> Iterator[Constraint]:
        """Made for direct current both ways, in every pole that is not earthed (IEC 60364-5-57)."""
        t = Trace(tables)
        t.term("battery_device_current")
        yield is_so(
            "device_class",
            "The device is a {kind}; a battery's circuit wants a fuse of class gBat, gR or T, or a breaker "
            "made for direct current",
            t,
            kind == "breaker-dc" or self._fuse_class(kind) in tables.series("fuse_battery_classes").words(),
            mend="take a fuse of class gBat",
            kind=_named(kind),
        )
        t = Trace(tables)
        partial = self._fuse_class(kind).startswith(t.term("fuse_partial_range"))
        if partial:
            yield is_so(
                "device_range",
                "A fuse of class {fuse} breaks short circuits only; an overload is left to the battery's own "
                "electronics",
                t,
                False,
                binding=False,
                mend="take a fuse of class gBat, which breaks overloads as well",
                fuse=self._fuse_class(kind),
            )
        t = Trace(tables)
        t.term("battery_device_direction")
        yield is_so(
            "device_direction",
            "The device is marked plus and minus, and current flows both ways here"
            if polarised
            else "Current flows both ways here, and the device has no polarity",
            t,
            not polarised,
            mend="take a device without polarity",
        )
        t = Trace(tables)
        t.term("battery_protection_poles")
        wanted = "both" if earthed_pole == "none" else "one"
        yield is_so(
            "device_poles",
            "The device protects: {poles}. It is wanted in: {wanted}",
            t,
            poles == "both" or poles == wanted,
            mend="protect both poles",
            poles=_POLES[poles],
            wanted=_POLES[wanted],
        )

    def earthed_pole(self, tables: Tables, *, separated: bool) -> Iterator[Constraint]:
        """Clause 570.6.1.2: without simple separation the network would be earthed through the battery."""
        t = Trace(tables)
        t.term("battery_pole_earthed")
        yield is_so(
            "earthed_pole",
            "A pole of the battery is earthed; its inverter separates it from the network: {separated}",
            t,
            separated,
            mend="leave both poles unearthed",
            separated=separated,
        )

    def distance(self, tables: Tables, *, distance_m: float) -> Iterator[Constraint]:
        """Nothing protects the lead before the device; how short it should be is convention."""
        t = Trace(tables)
        yield at_most(
            "device_distance",
            "{value} of cable lie between the battery's pole and its device; {limit} is the usual most",
            t,
            value=distance_m,
            limit=t.figure("battery_fuse_distance", "low"),
            unit="m",
            binding=False,
            mend="move the device beside the battery's pole",
        )

    # The cable

    def insulation(self, tables: Tables, *, doubled: bool, voltage_v: float) -> Iterator[Constraint]:
        """Proof against short circuit and earth fault (clause 570.6.4), the more so above touch voltage."""
        t = Trace(tables)
        t.term("battery_cable_insulation")
        t.given("voltage_v", voltage_v, "highest of the battery")
        deadly = voltage_v > t.figure("touch_voltage_dc")
        text = "Insulation of the cable: {fitted}; on this battery it must be double or reinforced"
        if deadly:
            text += ", and its voltage can kill"
        yield is_so(
            "insulation", text, t, doubled,
            mend="take a cable with double insulation", fitted="double" if doubled else "single",
        )  # fmt: skip

    def carries(
        self, tables: Tables, *, rating_a: float, size: Size, cable: CableKind, stretches: Sequence[Laid]
    ) -> Iterator[Constraint]:
        """I_n ≤ I_z (IEC 60364-4-43 clause 433.1), plus and minus as two loaded conductors."""
        t, carries_a = HotRoof().weakest(tables, size, cable, stretches)
        yield at_least(
            "conductor_capacity",
            "The cable carries {value} as laid; its device is rated {limit}",
            t,
            value=carries_a,
            limit=rating_a,
            unit="A",
        )

    def withstands(
        self,
        tables: Tables,
        *,
        kind: str,
        rating_a: float,
        let_through_a2s: float | None,
        size: Size,
        cable: CableKind,
        stretches: Sequence[Laid],
        fault_a: float,
    ) -> Iterator[Constraint]:
        """k²S² ≥ I²t (clause 434.5.2) by the device's sheet; where that is silent, clause 435.1 serves for a
        fuse of full range, which limits the current, but not for a breaker. Raises `Missing`.
        """
        t = Trace(tables)
        area_mm2 = t.given("area_mm2", size.area_mm2)
        k_factor = t.read("adiabatic_k", _K_ROW[cable.insulation], cable.conductor)
        if let_through_a2s is not None:
            yield at_most(
                "short_circuit",
                "In a short circuit of {fault_a} the device lets {value} through; the cable bears {limit}",
                t,
                value=let_through_a2s,
                limit=t.calculate(conductor.withstand, k_factor=k_factor, area_mm2=area_mm2),
                unit="A²s",
                fault_a=fault_a,
            )
            return
        fuse = self._fuse_class(kind)
        if not fuse or fuse.startswith(t.term("fuse_partial_range")):
            raise Missing("I²t that the battery's protective device lets through, from its sheet")
        t.term("overload_device_also_short_circuit")
        carries_a = HotRoof().weakest(tables, size, cable, stretches)[1]
        yield is_so(
            "short_circuit",
            "A fuse rated no higher than the cable carries guards it from a short circuit too; {fault_a} it "
            "bears for {bears_s}",
            t,
            rating_a <= carries_a,
            fault_a=fault_a,
            bears_s=t.calculate(
                conductor.longest_time, k_factor=k_factor, area_mm2=area_mm2, current_a=fault_a
            ),
        )

    def drops(
        self,
        tables: Tables,
        *,
        length_m: float,
        current_a: float,
        voltage_v: float,
        size: Size,
        cable: CableKind,
    ) -> Iterator[Constraint]:
        """A convention; no standard limits it."""
        t = Trace(tables)
        drop_v = t.calculate(
            drop.drop_dc,
            length_m=length_m,
            resistance_ohm_per_km=self.resistance_ohm_per_km(t, size, cable),
            current_a=current_a,
        )
        yield at_most(
            "drop",
            "At {current_a} the cable loses {value}; {limit} is good practice",
            t,
            value=t.calculate(drop.drop_pct, drop_v=drop_v, base_v=voltage_v),
            limit=t.figure("battery_drop_should"),
            unit="%",
            binding=False,
            current_a=current_a,
        )

    def resistance_ohm_per_km(self, t: Trace, size: Size, cable: CableKind) -> float:
        return HotRoof().resistance_ohm_per_km(t, size, cable)

    # Switching off, and the cold

    def isolates(self, tables: Tables, *, poles: str) -> Iterator[Constraint]:
        """Clause 570.6.5."""
        t = Trace(tables)
        t.term("battery_isolation_poles")
        yield is_so(
            "isolated_poles",
            "The switch at the battery opens: {poles}. It must open all poles",
            t,
            poles == "all-poles",
            mend="fit a switch for all poles beside the battery",
            poles=poles.replace("-", " "),
        )

    def locks(self, tables: Tables, *, lockable: bool) -> Iterator[Constraint]:
        """Clause 570.6.5, which leads to IEC 60364-4-46: isolation has to stay what it is."""
        t = Trace(tables)
        t.term("battery_isolation_lock")
        yield is_so(
            "locked_off",
            "The switch at the battery can be locked in its open position: {lockable}",
            t,
            lockable,
            mend="fit a switch that takes a padlock, or a device that locks the one there is",
            lockable=lockable,
        )

    def charged_cold(
        self, tables: Tables, *, chemistry: str, coldest_c: float, hottest_c: float
    ) -> Iterator[Constraint]:
        """Cells of lithium iron phosphate plate metal when charged in frost; a sheet that allows it has to
        say how the battery warms itself.
        """
        if chemistry != "lfp":
            return
        t = Trace(tables)
        yield at_least(
            "cells_cold",
            "Down to {value} where the battery stands; such cells are commonly not charged below {limit}",
            t,
            value=coldest_c,
            limit=t.figure("lithium_charge_temperature_least"),
            unit="°C",
            binding=False,
            mend="find out how the battery warms its cells before it charges them",
        )
        t = Trace(tables)
        yield at_most(
            "cells_hot",
            "Up to {value} where the battery stands; such cells are commonly not charged above {limit}",
            t,
            value=hottest_c,
            limit=t.figure("lithium_charge_temperature_most", "low"),
            unit="°C",
            binding=False,
        )

    # What is on offer

    def class_of_fuse(self, tables: Tables) -> str:
        return f"fuse-{tables.series('fuse_battery_classes').words()[0]}"

    def ratings_a(self, tables: Tables) -> tuple[float, ...]:
        return tables.series("fuse_battery_ratings").numbers()

    def voltages_v(self, tables: Tables) -> tuple[float, ...]:
        return tables.series("fuse_battery_voltages").numbers()

    def breaking_capacities_a(self, tables: Tables) -> tuple[float, ...]:
        return tables.series("fuse_battery_breaking_capacities").numbers()

    def sizes(self, tables: Tables, *, cable: CableKind, stretches: Sequence[Laid]) -> tuple[Size, ...]:
        """Those for which a capacity is printed, laid like this; all where none is, so that this is told."""
        series = "pv_cable_sizes" if cable.insulation == "pv" else "conductor_sizes"
        sizes = tuple(Size.parse(name) for name in tables.series(series).words())
        return tuple(size for size in sizes if self._printed(tables, size, cable, stretches)) or sizes

    def _printed(self, tables: Tables, size: Size, cable: CableKind, stretches: Sequence[Laid]) -> bool:
        try:
            HotRoof().weakest(tables, size, cable, stretches)
        except NotPrinted:
            return False
        return True

    @staticmethod
    def _fuse_class(kind: str) -> str:
        """The class of a fuse; empty for a breaker."""
        return kind.removeprefix("fuse-") if kind.startswith("fuse-") else ""


def _named(kind: str) -> str:
    """A kind as a sentence names it."""
    breakers = {"breaker-dc": "breaker for direct current", "breaker-ac": "breaker for alternating current"}
    return breakers.get(kind, f"fuse of class {kind.removeprefix('fuse-')}")
