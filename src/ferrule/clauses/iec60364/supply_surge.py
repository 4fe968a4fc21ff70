"""Surge protection of the supply (IEC 60364-4-44 clause 443, 60364-5-53 clause 534)."""

from collections.abc import Iterator

from ferrule.constraint import Constraint, at_least, at_most, is_so
from ferrule.fact import Missing
from ferrule.physics import scale, surge
from ferrule.working import Tables, Trace


class RiskLevel:
    """Fitted, unless somebody calculated the risk and found it low; and always with lightning protection."""

    needs = (
        "surge_unassessed",
        "surge_risk_environment",
        "surge_risk_weight",
        "surge_risk_limit",
        "surge_risk_length_most",
        "surge_type_separated",
        "surge_type_supply_lightning",
        "surge_type2_current",
        "surge_voltage_factor",
        "surge_reach",
        "surge_ac_voltages",
    )

    def unprotected(
        self,
        tables: Tables,
        *,
        lightning: str,
        flashes_per_km2_year: float | None,
        surroundings: str | None,
        overhead_m: float,
        cable_m: float,
        high_overhead_m: float,
        high_cable_m: float,
    ) -> Iterator[Constraint]:
        """443.4 and 443.5; what is not known of the last kilometre counts as overhead line."""
        t = Trace(tables)
        t.given("lightning_protection", lightning, "site")
        yield is_so(
            "no_lightning_protection",
            "Without a lightning protection system the risk decides"
            if lightning == "none"
            else "The house has a lightning protection system, so its supply needs surge protection",
            t,
            lightning == "none",
        )
        t = Trace(tables)
        if surroundings is None or flashes_per_km2_year is None:
            yield is_so(
                "risk_assessed",
                "Nobody has calculated the risk of surges, so the supply needs surge protection",
                t,
                t.term("surge_unassessed") != "required",
            )
            return
        if not flashes_per_km2_year:
            return
        rest_m = max(
            0.0, t.figure("surge_risk_length_most") - overhead_m - cable_m - high_overhead_m - high_cable_m
        )
        risk_m = t.calculate(
            surge.risk_length,
            overhead_m=overhead_m + rest_m,
            cable_m=cable_m,
            high_overhead_m=high_overhead_m,
            high_cable_m=high_cable_m,
            overhead_weight=t.read("surge_risk_weight", "overhead_lv"),
            cable_weight=t.read("surge_risk_weight", "cable_lv"),
            high_overhead_weight=t.read("surge_risk_weight", "overhead_hv"),
            high_cable_weight=t.read("surge_risk_weight", "cable_hv"),
        )
        level = t.calculate(
            surge.calculated_risk_level,
            environment_factor=t.read("surge_risk_environment", surroundings),
            risk_m=risk_m,
            flashes_per_km2_year=flashes_per_km2_year,
        )
        yield at_least(
            "risk_level",
            "The calculated risk level is {value}; below {limit} the supply needs surge protection",
            t,
            value=level,
            limit=t.figure("surge_risk_limit"),
            unit="",
        )

    def origin_type(self, tables: Tables, *, kind: str, lightning: str) -> Constraint:
        """534.4.1: a device that bears part of the stroke itself where the house has a lightning rod."""
        t = Trace(tables)
        t.given("lightning_protection", lightning, "site")
        if lightning == "none":
            return is_so(
                "surge_type", "Without a lightning protection system type {kind} will do", t, True, kind=kind
            )
        wanted = t.term("surge_type_supply_lightning")
        return is_so(
            "surge_type",
            "The surge device is of type {kind}; beside a lightning protection system it must be {wanted}",
            t,
            wanted in kind.split("+"),
            kind=kind,
            wanted=wanted,
        )

    def device(
        self, tables: Tables, *, earthing: str, nominal_v: float, voltage_max_v: float, nominal_a: float
    ) -> Iterator[Constraint]:
        """534.4.3: it must bear the network's highest voltage for good; 534.4.4: 5 kA for each line."""
        t = Trace(tables)
        yield at_least(
            "surge_voltage",
            "The surge device bears {value} for good; on this network it must bear {limit}",
            t,
            value=voltage_max_v,
            limit=self.least_v(t, earthing=earthing, nominal_v=nominal_v),
            unit="V",
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

    def reach(self, tables: Tables, *, distance_m: float) -> Constraint:
        """534.4.9: the nearer of the distances in print."""
        t = Trace(tables)
        return at_most(
            "surge_reach",
            "A board with an inverter lies {value} of cable behind the nearest surge device; beyond {limit} "
            "it should have one of its own",
            t,
            value=distance_m,
            limit=t.figure("surge_reach", "low"),
            unit="m",
            binding=False,
        )

    def types(self, tables: Tables) -> tuple[str, ...]:
        lesser, greater = (
            str(tables.figure(name, None).value)
            for name in ("surge_type_separated", "surge_type_supply_lightning")
        )
        return lesser, f"{greater}+{lesser}"

    def least_v(self, t: Trace, *, earthing: str, nominal_v: float) -> float:
        """A tenth above line to neutral; in an IT system a first fault lifts the other lines beyond that."""
        if earthing == "IT":
            raise Missing(
                "the continuous voltage to earth a surge device needs in an IT system, from its maker"
            )
        return t.calculate(scale.scaled_voltage, voltage_v=nominal_v, factor=t.figure("surge_voltage_factor"))

    def voltages_v(self, tables: Tables) -> tuple[float, ...]:
        return tables.series("surge_ac_voltages").numbers()

    def nominal_a(self, tables: Tables) -> float:
        return float(tables.figure("surge_type2_current", None).value)
