"""Cables between array and inverter (IEC 60364-7-712:2017 clause 712.433, EN 50618:2014)."""

from collections.abc import Iterator, Sequence

from ferrule.clauses.iec60364.conductor import OverloadProtection
from ferrule.clauses.values import CableKind, Laid
from ferrule.constraint import Constraint, at_least, at_most, is_so
from ferrule.physics import conductor, drop, scale, strings
from ferrule.quantity import Size
from ferrule.working import NotPrinted, Tables, Trace

#: Methods of single cables in free air; with a gap between them (G) each cools by itself, else they touch.
_LAYING = {"C": "touching", "E": "touching", "F": "touching", "G": "free"}


class HotRoof:
    """What a cable carries under modules in the sun, and what it loses.

    On a surface or in air a photovoltaic cable carries what EN 50618 prints. In pipe, wall or ground that
    standard prints nothing; there it counts as a cable of 90 °C, which it bears for its whole life.
    """

    needs = (
        "pv_cable_capacity",
        "pv_cable_temperature_factor",
        "pv_cable_ambient_reference",
        "pv_cable_continuous_temperature",
        "pv_roof_temperature",
        "insulation_temperature",
        "conductor_resistance",
        "zero_resistance_temperature",
        "pv_current_factor",
        "dc_cable_insulation",
        "dc_drop_should",
        "dc_drop_ceiling",
        "pv_cable_sizes",
        *OverloadProtection.needs,
    )

    def insulation(self, tables: Tables, *, doubled: bool) -> Constraint:
        """A first fault to earth or between the poles must not be a matter of one worn sheath."""
        t = Trace(tables)
        wanted = t.term("dc_cable_insulation")
        return is_so(
            "insulation",
            "Insulation of the cable: {fitted}; between array and inverter it must be double or reinforced",
            t,
            doubled or wanted != "double",
            mend="take a cable with double insulation, made for photovoltaics",
            fitted="double" if doubled else "single",
        )

    def carries(
        self,
        tables: Tables,
        *,
        count: int,
        short_circuit_a: float,
        backfeed_a: float,
        fuse_a: float | None,
        size: Size,
        cable: CableKind,
        stretches: Sequence[Laid],
    ) -> Iterator[Constraint]:
        """1.25 times what the string drives; back through it the fuse's rating or what the others drive."""
        t, carries_a = self.weakest(tables, size, cable, stretches)
        yield at_least(
            "string_current",
            "The cable carries {value} as laid; its string drives up to {limit}",
            t,
            value=carries_a,
            limit=self._highest_a(t, short_circuit_a),
            unit="A",
        )
        t, carries_a = self.weakest(tables, size, cable, stretches)
        if fuse_a is not None:
            yield at_least(
                "fuse_rating",
                "The cable carries {value} as laid; the string's fuse is rated {limit}",
                t,
                value=carries_a,
                limit=t.given("fuse_a", fuse_a, "string fuse"),
                unit="A",
            )
        elif count > 1 or backfeed_a:
            yield at_least(
                "reverse_current",
                "The cable carries {value} as laid; up to {limit} can flow back through it",
                t,
                value=carries_a,
                limit=t.calculate(
                    strings.reverse_current,
                    string_a=self._highest_a(t, short_circuit_a),
                    strings=count,
                    backfeed_a=backfeed_a,
                ),
                unit="A",
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
        """At standard conditions; no international limit, so both are conventions (UTE C 15-712-1)."""
        for name, figure, limits in (
            ("drop", "dc_drop_should", "is good practice"),
            ("drop_ceiling", "dc_drop_ceiling", "is the usual ceiling"),
        ):
            t = Trace(tables)
            drop_v = t.calculate(
                drop.drop_dc,
                length_m=length_m,
                resistance_ohm_per_km=self.resistance_ohm_per_km(t, size, cable),
                current_a=current_a,
            )
            yield at_most(
                name,
                f"In full sun {{value}} is lost in the cable; {{limit}} {limits}",
                t,
                value=t.calculate(drop.drop_pct, drop_v=drop_v, base_v=voltage_v),
                limit=t.figure(figure),
                unit="%",
                binding=False,
            )

    def sizes(self, tables: Tables) -> tuple[Size, ...]:
        return tuple(Size.parse(name) for name in tables.series("pv_cable_sizes").words())

    def weakest(
        self, tables: Tables, size: Size, cable: CableKind, stretches: Sequence[Laid]
    ) -> tuple[Trace, float]:
        """The working and the capacity of the stretch that carries least."""
        judged = []
        for stretch in stretches:
            t = Trace(tables)
            judged.append((self.capacity_a(t, size=size, cable=cable, stretch=stretch), t))
        carries_a, t = min(judged, key=lambda pair: pair[0])
        return t, carries_a

    def capacity_a(self, t: Trace, *, size: Size, cable: CableKind, stretch: Laid) -> float:
        """What one stretch carries, in A; plus and minus lie together and count as one circuit."""
        stretch = stretch._replace(ambient_c=self._ambient_c(t, stretch))
        laying = _LAYING.get(stretch.method)
        if cable.insulation != "pv" or laying is None:
            lifelong = cable._replace(insulation="xlpe") if cable.insulation == "pv" else cable
            return OverloadProtection().capacity_a(t, size=size, cable=lifelong, stretch=stretch, loaded=2)
        self._printed_for(size, cable)
        return t.calculate(
            conductor.capacity_as_laid,
            tabulated_a=t.read("pv_cable_capacity", size.name, laying),
            temperature_factor=self._temperature_factor(t, stretch.ambient_c),
            grouping_factor=OverloadProtection.grouping(t, cable, stretch),
            soil_factor=1.0,
        )

    @staticmethod
    def _printed_for(size: Size, cable: CableKind) -> None:
        if size.system != "mm²" or cable.conductor != "cu":
            raise NotPrinted(
                f"cables for direct current are tabulated for copper in mm², not for {cable.conductor} {size}"
            )

    @staticmethod
    def _ambient_c(t: Trace, stretch: Laid) -> float:
        """The stretch's own ambient temperature, on a roof not less than its rule."""
        t.given("ambient_c", stretch.ambient_c, "this stretch")
        if not stretch.on_roof:
            return stretch.ambient_c
        return max(stretch.ambient_c, t.figure("pv_roof_temperature", "high"))

    @staticmethod
    def _temperature_factor(t: Trace, ambient_c: float) -> float:
        """The printed factor or that of heat transfer, whichever leaves less."""
        printed = t.read("pv_cable_temperature_factor", ambient_c, "en50618")
        by_heat = t.calculate(
            conductor.ambient_factor,
            limit_c=t.read("insulation_temperature", "pv", "operating"),
            ambient_c=ambient_c,
            reference_c=t.figure("pv_cable_ambient_reference"),
        )
        return min(printed, by_heat)

    @staticmethod
    def _highest_a(t: Trace, short_circuit_a: float) -> float:
        return t.calculate(
            scale.scaled_current, current_a=short_circuit_a, factor=t.figure("pv_current_factor")
        )

    def resistance_ohm_per_km(self, t: Trace, size: Size, cable: CableKind) -> float:
        """At the temperature a cable may have for its whole life; on a bright day it is hardly cooler."""
        self._printed_for(size, cable)
        column = f"{cable.conductor}_{cable.strands.replace('-', '_')}"
        hot_c = (
            t.figure("pv_cable_continuous_temperature")
            if cable.insulation == "pv"
            else t.read("insulation_temperature", cable.insulation, "operating")
        )
        return t.calculate(
            conductor.resistance_at,
            resistance_ohm_per_km=t.read("conductor_resistance", size.name, column),
            beta_c=t.read("zero_resistance_temperature", cable.conductor),
            from_c=20.0,
            to_c=hot_c,
        )
