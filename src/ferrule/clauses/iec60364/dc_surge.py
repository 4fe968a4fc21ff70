"""Surge protection of the array's lines (IEC 60364-7-712:2017 clauses 712.443 and 712.534)."""

from collections.abc import Iterator

from ferrule.constraint import Constraint, at_least, at_most, is_so
from ferrule.physics import surge
from ferrule.quantity import Size
from ferrule.working import Tables, Trace


class CriticalLength:
    """Needed from a length of route on that shrinks with the lightning of the place, and wherever there is
    a lightning protection system.
    """

    needs = (
        "surge_critical_length",
        "surge_two_places_above",
        "surge_type_separated",
        "surge_type_bonded",
        "surge_type2_current",
        "surge_dc_voltages",
        "surge_earth_type1",
        "surge_earth_type2",
    )

    def unprotected(
        self, tables: Tables, *, route_m: float, flashes_per_km2_year: float, building: str, lightning: str
    ) -> Iterator[Constraint]:
        """Whether the array may go without."""
        t = Trace(tables)
        t.given("lightning_protection", lightning, "site")
        yield is_so(
            "no_lightning_protection",
            "Without a lightning protection system the length of the cables decides"
            if lightning == "none"
            else "The house has a lightning protection system, so the array's lines need surge protection",
            t,
            lightning == "none",
        )
        if not flashes_per_km2_year:
            return
        t = Trace(tables)
        yield at_most(
            "critical_length",
            "The array's cables run {value}; from {limit} on they need surge protection here",
            t,
            value=t.given("route_m", route_m, "cables from one face go the same way and count once"),
            limit=t.calculate(
                surge.critical_length,
                constant=t.read("surge_critical_length", building),
                flashes_per_km2_year=flashes_per_km2_year,
            ),
            unit="m",
            strict=True,
        )

    def protected(
        self,
        tables: Tables,
        *,
        kind: str,
        nominal_a: float,
        places: str,
        farthest_m: float,
        lightning: str,
    ) -> Iterator[Constraint]:
        """Type, nominal current, and one device or one at each end."""
        t = Trace(tables)
        wanted = t.term("surge_type_bonded" if lightning == "bonded" else "surge_type_separated")
        yield is_so(
            "surge_type",
            "The surge device is of type {kind}; it must be of type {wanted}",
            t,
            wanted in kind.split("+"),
            kind=kind,
            wanted=wanted,
        )
        t = Trace(tables)
        yield at_least(
            "surge_current",
            "The surge device is rated {value} for each line; it must be rated {limit}",
            t,
            value=nominal_a,
            limit=t.figure("surge_type2_current"),
            unit="A",
        )
        if places == "inverter":
            t = Trace(tables)
            yield at_most(
                "surge_places",
                "The cable runs {value}; up to {limit} one device beside the inverter serves, "
                "beyond that each end needs one",
                t,
                value=farthest_m,
                limit=t.figure("surge_two_places_above"),
                unit="m",
            )

    def earth_size(self, tables: Tables, *, kind: str) -> Size:
        """Thicker where it carries a part of the lightning itself (IEC 60364-5-53 clause 534.4.10)."""
        figure = "surge_earth_type1" if "1" in kind.split("+") else "surge_earth_type2"
        return Size.parse(str(tables.figure(figure, None).value))

    def types(self, tables: Tables) -> tuple[str, ...]:
        """The types on offer, the lesser first."""
        lesser, greater = (
            str(tables.figure(name, None).value) for name in ("surge_type_separated", "surge_type_bonded")
        )
        return lesser, f"{greater}+{lesser}"

    def nominal_a(self, tables: Tables) -> float:
        """The least nominal discharge current of a device."""
        return float(tables.figure("surge_type2_current", None).value)

    def voltages_v(self, tables: Tables) -> tuple[float, ...]:
        return tables.series("surge_dc_voltages").numbers()
