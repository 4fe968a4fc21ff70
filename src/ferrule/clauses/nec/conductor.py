"""A conductor with its overcurrent device (NFPA 70:2023, 210.19, 215.2, 240.4, 110.14(C), 310.15)."""

from collections.abc import Iterator, Sequence

from ferrule.clauses.values import CableKind, Laid
from ferrule.constraint import Constraint, at_least, at_most
from ferrule.physics import conductor, scale
from ferrule.quantity import Size
from ferrule.working import NotPrinted, Tables, Trace

#: insulation -> temperature column of table 310.16
_COLUMNS = {"pvc": "75", "xlpe": "90"}


class AmpacityTwice:
    """The conductor is judged twice: with the continuous factor before correction at its terminals, and
    without it after correction by its insulation; the larger size counts.
    """

    needs = (
        "capacity_copper",
        "air_temperature_factor",
        "conductor_count_factor",
        "small_conductor_limit",
        "breaker_ratings",
        "continuous_factor",
        "terminal_small_upto",
        "terminal_column_small",
        "terminal_column_large",
        "conductor_sizes",
    )

    def device(self, t: Trace, *, design_a: float, kind: str, rating_a: float) -> Constraint:
        """Rated for 125 % of the continuous load (210.20(A), 690.9(B))."""
        least_a = t.calculate(scale.scaled_current, current_a=design_a, factor=t.figure("continuous_factor"))
        return at_least(
            "device_rating",
            "The device is rated {value}; the continuous load asks for {limit}",
            t,
            value=rating_a,
            limit=least_a,
            unit="A",
        )

    def conductor(
        self,
        t: Trace,
        *,
        design_a: float,
        kind: str,
        rating_a: float,
        size: Size,
        cable: CableKind,
        stretches: Sequence[Laid],
        loaded: int,
    ) -> Iterator[Constraint]:
        tables, design = t.tables, t
        t = design.branch()
        yield at_least(
            "terminal_ampacity",
            "Its terminals let the conductor carry {value}; the continuous load asks for {limit}",
            t,
            value=t.read("capacity_copper", size.name, self._terminal_column(t, rating_a)),
            limit=t.calculate(scale.scaled_current, current_a=design_a, factor=t.figure("continuous_factor")),
            unit="A",
        )
        weakest, carries_a = self._weakest(tables, size, cable, stretches, loaded)
        t = design.branch()
        t.steps.extend(weakest.steps)
        yield at_least(
            "corrected_ampacity",
            "The conductor carries {value} as laid; the load draws {limit}",
            t,
            value=carries_a,
            limit=design_a,
            unit="A",
        )
        t, carries_a = self._weakest(tables, size, cable, stretches, loaded)
        allowed_a = self._next_rating(t, carries_a)
        yield at_most(
            "device_protects",
            "The device is rated {value}; the conductor allows {limit}",
            t,
            value=rating_a,
            limit=allowed_a,
            unit="A",
        )
        yield from self._small_conductor(tables, size, rating_a)

    def limited(
        self,
        t: Trace,
        *,
        source_a: float,
        size: Size,
        cable: CableKind,
        stretches: Sequence[Laid],
        loaded: int,
    ) -> Constraint:
        """705.28: the corrected ampacity carries the largest current of the source."""
        weakest, carries_a = self._weakest(t.tables, size, cable, stretches, loaded)
        t.steps.extend(weakest.steps)
        return at_most(
            "source_limit",
            "The source gives {value} at most for good; the conductor carries {limit} as laid",
            t,
            value=source_a,
            limit=carries_a,
            unit="A",
        )

    def sizes(self, tables: Tables) -> tuple[Size, ...]:
        return tuple(Size.parse(name) for name in tables.series("conductor_sizes").words())

    def ratings_a(self, tables: Tables, kind: str) -> tuple[float, ...]:
        return tables.series("breaker_ratings").numbers()

    @staticmethod
    def _terminal_column(t: Trace, rating_a: float) -> str:
        """110.14(C)(1): 60 °C up to 100 A unless marked otherwise, 75 °C above."""
        small = rating_a <= t.figure("terminal_small_upto")
        return f"{t.figure('terminal_column_small' if small else 'terminal_column_large'):g}"

    @staticmethod
    def _next_rating(t: Trace, carries_a: float) -> float:
        """240.4(B): where no rating matches the ampacity, the next one up protects it."""
        ratings = t.tables.series("breaker_ratings").numbers()
        return min((rating for rating in ratings if rating >= carries_a), default=ratings[-1])

    @staticmethod
    def _small_conductor(tables: Tables, size: Size, rating_a: float) -> Iterator[Constraint]:
        """240.4(D): copper of 14, 12 and 10 AWG has a largest device whatever its ampacity."""
        t = Trace(tables)
        try:
            most_a = t.read("small_conductor_limit", size.name)
        except NotPrinted:
            return
        yield at_most(
            "small_conductor",
            "The device is rated {value}; a conductor this small may have {limit}",
            t,
            value=rating_a,
            limit=most_a,
            unit="A",
        )

    def _weakest(
        self, tables: Tables, size: Size, cable: CableKind, stretches: Sequence[Laid], loaded: int
    ) -> tuple[Trace, float]:
        judged = []
        for stretch in stretches:
            t = Trace(tables)
            judged.append((self.capacity_a(t, size=size, cable=cable, stretch=stretch, loaded=loaded), t))
        carries_a, t = min(judged, key=lambda pair: pair[0])
        return t, carries_a

    def capacity_a(self, t: Trace, *, size: Size, cable: CableKind, stretch: Laid, loaded: int) -> float:
        """310.15(B) ambient and 310.15(C) count, on the insulation's own column."""
        if size.system not in {"AWG", "kcmil"} or cable.conductor != "cu":
            raise NotPrinted(f"ampacities are tabulated for copper in AWG, not for {cable.conductor} {size}")
        column = _COLUMNS.get(cable.insulation)
        if column is None:
            raise NotPrinted(f"no ampacity column for {cable.insulation} insulation")
        return t.calculate(
            conductor.capacity_as_laid,
            tabulated_a=t.read("capacity_copper", size.name, column),
            temperature_factor=t.read("air_temperature_factor", stretch.ambient_c, column),
            grouping_factor=t.read("conductor_count_factor", loaded * stretch.circuits),
            soil_factor=1.0,
        )
