"""Overcurrent protection of strings (IEC 60364-7-712:2017 clauses 712.431 and 712.432, IEC 62548-1:2023)."""

from collections.abc import Iterator

from ferrule.constraint import Constraint, at_least, at_most, is_so
from ferrule.physics import scale, strings
from ferrule.working import Tables, Trace


class ReverseCurrent:
    """A faulted string takes what all the others, and whatever feeds the input from behind, drive back.

    The two standards disagree on when fuses are needed and how small they may be. Each question takes the
    bound that protects: fuses from the lower current on, and no fuse that either standard finds too small
    or too large.
    """

    needs = (
        "string_protection_multiple",
        "string_fuse_least",
        "string_fuse_most",
        "string_fuse_poles",
        "fuse_gpv_ratings",
        "fuse_gpv_voltages",
        "fuse_gpv_breaking_capacity",
    )

    def unfused(
        self, tables: Tables, *, count: int, short_circuit_a: float, backfeed_a: float, module_limit_a: float
    ) -> Iterator[Constraint]:
        """Without fuses the modules themselves must bear it (IEC 62548-1)."""
        t = Trace(tables)
        yield at_most(
            "unfused",
            "Up to {value} can flow back into a faulted string, which has no fuse; its modules bear {limit}",
            t,
            value=self._reverse_a(t, count, short_circuit_a, backfeed_a),
            limit=self._borne_a(t, module_limit_a),
            unit="A",
        )

    def of_use(
        self, tables: Tables, *, count: int, short_circuit_a: float, backfeed_a: float, module_limit_a: float
    ) -> Iterator[Constraint]:
        """A fuse that nothing can ever open is one more joint that may fail; no rule forbids it."""
        t = Trace(tables)
        yield at_least(
            "fuse_of_use",
            "Up to {value} can flow back into a faulted string; fuses are of use above {limit}",
            t,
            value=self._reverse_a(t, count, short_circuit_a, backfeed_a),
            limit=self._borne_a(t, module_limit_a),
            unit="A",
            strict=True,
            binding=False,
        )

    def fused(
        self,
        tables: Tables,
        *,
        rating_a: float,
        poles: str,
        short_circuit_a: float,
        module_limit_a: float,
    ) -> Iterator[Constraint]:
        """More than full sun can drive, less than modules and IEC 62548-1 allow, in both poles."""
        t = Trace(tables)
        yield at_least(
            "fuse_least",
            "The fuse is rated {value}; above {limit} bright sun does not wear it out",
            t,
            value=rating_a,
            limit=t.calculate(
                scale.scaled_current, current_a=short_circuit_a, factor=t.figure("string_fuse_least", "high")
            ),
            unit="A",
            strict=True,
        )
        t = Trace(tables)
        yield at_most(
            "fuse_most",
            "The fuse is rated {value}; below {limit} a reverse current opens it",
            t,
            value=rating_a,
            limit=t.calculate(
                scale.scaled_current, current_a=short_circuit_a, factor=t.figure("string_fuse_most")
            ),
            unit="A",
            strict=True,
        )
        t = Trace(tables)
        yield at_most(
            "fuse_module",
            "The fuse is rated {value}; the modules are marked for {limit} at most",
            t,
            value=rating_a,
            limit=t.given("module_limit_a", module_limit_a),
            unit="A",
        )
        t = Trace(tables)
        wanted = t.term("string_fuse_poles")
        yield is_so(
            "fuse_poles", "Fuses sit in: {poles}. They belong in: {wanted}", t, poles == wanted,
            poles=_POLES[poles], wanted=_POLES[wanted],
        )  # fmt: skip

    def ratings_a(self, tables: Tables) -> tuple[float, ...]:
        return tables.series("fuse_gpv_ratings").numbers()

    def voltages_v(self, tables: Tables) -> tuple[float, ...]:
        return tables.series("fuse_gpv_voltages").numbers()

    def breaking_capacity_a(self, tables: Tables) -> float:
        """What a photovoltaic fuse breaks at least (IEC 60269-6)."""
        return float(tables.figure("fuse_gpv_breaking_capacity", None).value)

    @staticmethod
    def _reverse_a(t: Trace, count: int, short_circuit_a: float, backfeed_a: float) -> float:
        return t.calculate(
            strings.reverse_current, string_a=short_circuit_a, strings=count, backfeed_a=backfeed_a
        )

    @staticmethod
    def _borne_a(t: Trace, module_limit_a: float) -> float:
        return t.calculate(
            scale.scaled_current,
            current_a=module_limit_a,
            factor=t.figure("string_protection_multiple", "low"),
        )


_POLES = {"both": "both poles", "one": "one pole"}
