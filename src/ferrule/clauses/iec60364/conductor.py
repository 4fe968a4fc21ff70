"""Protection against overload (IEC 60364-4-43 clause 433) with currents and factors of IEC 60364-5-52."""

from collections.abc import Iterator, Sequence
from functools import cache

from ferrule.clauses.values import CableKind, Laid
from ferrule.constraint import Constraint, at_least, at_most
from ferrule.physics import conductor, scale
from ferrule.quantity import Size
from ferrule.working import NotPrinted, Tables, Trace

_INSULATIONS = frozenset({"pvc", "xlpe"})
_AIR = frozenset({"A1", "A2", "B1", "B2", "C"})
_GROUND = frozenset({"D1", "D2"})

#: in free air the least of the tabulated layings; of two conductors only touching ones are printed
_FREE_AIR = {
    ("E", 2): "E_2",
    ("E", 3): "E_3",
    ("F", 2): "F_2",
    ("F", 3): "F_3_trefoil",
    ("G", 2): "F_2",
    ("G", 3): "G_3_vertical",
}

#: methods that suppose a build, and what the other build is called there
_BUILDS = {
    "A1": ("single-core", "A2"),
    "A2": ("multicore", "A1"),
    "B1": ("single-core", "B2"),
    "B2": ("multicore", "B1"),
    "E": ("multicore", "F"),
    "F": ("single-core", "E"),
    "G": ("single-core", "E"),
}

#: arrangements of cables side by side, and the methods they go with; bunched may be any (table B.52.17)
_ARRANGED = {"wall": "C", "ceiling": "C", "perforated_tray": "EFG", "ladder": "EFG"}


class OverloadProtection:
    """I_B ≤ I_n ≤ I_z and I_2 ≤ 1.45 I_z."""

    needs = (
        "capacity_pvc_2",
        "capacity_pvc_3",
        "capacity_xlpe_2",
        "capacity_xlpe_3",
        "capacity_air_pvc",
        "capacity_air_xlpe",
        "air_temperature_factor",
        "ground_temperature_factor",
        "soil_resistivity_factor",
        "grouping_factor",
        "grouping_factor_ground",
        "overload_multiple",
        "conventional_current",
        "fuse_gg_small_below",
        "conductor_sizes",
        "breaker_ratings",
        "fuse_gg_ratings",
    )

    def device(self, t: Trace, *, design_a: float, kind: str, rating_a: float) -> Constraint:
        """I_B ≤ I_n (433.1, first half)."""
        return at_most(
            "device_rating",
            "Design current {value}; the device is rated {limit}",
            t,
            value=design_a,
            limit=rating_a,
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
        """I_n ≤ I_z and I_2 ≤ 1.45 I_z on the stretch that carries least (433.1)."""
        t, carries_a = self._weakest(t.tables, size, cable, stretches, loaded)
        yield at_least(
            "conductor_capacity",
            "The conductor carries {value} as laid; its device is rated {limit}",
            t,
            value=carries_a,
            limit=rating_a,
            unit="A",
        )
        sure_a = t.calculate(
            scale.scaled_current, current_a=rating_a, factor=self._trip_multiple(t, kind, rating_a)
        )
        bears_a = t.calculate(scale.scaled_current, current_a=carries_a, factor=t.figure("overload_multiple"))
        yield at_most(
            "overload_trip",
            "The device surely trips at {value} within its time; the conductor bears {limit} for as long",
            t,
            value=sure_a,
            limit=bears_a,
            unit="A",
        )

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
        """A source that cannot give more than the conductor carries protects it (clause 436)."""
        weakest, carries_a = self._weakest(t.tables, size, cable, stretches, loaded)
        t.steps.extend(weakest.steps)
        return at_most(
            "source_limit",
            "The source gives {value} for hours; the conductor carries {limit} as laid",
            t,
            value=source_a,
            limit=carries_a,
            unit="A",
        )

    def sizes(self, tables: Tables) -> tuple[Size, ...]:
        return _sizes(tables.series("conductor_sizes").words())

    def ratings_a(self, tables: Tables, kind: str) -> tuple[float, ...]:
        series = "fuse_gg_ratings" if kind == "fuse-gG" else "breaker_ratings"
        return tables.series(series).numbers()

    def _weakest(
        self, tables: Tables, size: Size, cable: CableKind, stretches: Sequence[Laid], loaded: int
    ) -> tuple[Trace, float]:
        """The working and the capacity of the stretch that carries least."""
        judged = []
        for stretch in stretches:
            t = Trace(tables)
            judged.append((self.capacity_a(t, size=size, cable=cable, stretch=stretch, loaded=loaded), t))
        carries_a, t = min(judged, key=lambda pair: pair[0])
        return t, carries_a

    def capacity_a(self, t: Trace, *, size: Size, cable: CableKind, stretch: Laid, loaded: int) -> float:
        """I_z of one stretch: the tabulated current times every factor that applies, in A."""
        tabulated_a = self._tabulated_a(t, size, cable, stretch, loaded)
        ground = stretch.method in _GROUND
        temperature = t.read(
            "ground_temperature_factor" if ground else "air_temperature_factor",
            stretch.ambient_c,
            cable.insulation,
        )
        soil = 1.0
        if ground and stretch.soil_km_per_w is not None:
            column = "duct" if stretch.method == "D1" else "direct"
            soil = t.read("soil_resistivity_factor", stretch.soil_km_per_w, column)
        return t.calculate(
            conductor.capacity_as_laid,
            tabulated_a=tabulated_a,
            temperature_factor=temperature,
            grouping_factor=self.grouping(t, cable, stretch),
            soil_factor=soil,
        )

    @staticmethod
    def grouping(t: Trace, cable: CableKind, stretch: Laid) -> float:
        """What neighbours leave; in the ground they heat more than in air, and count as touching."""
        if stretch.method not in _GROUND:
            if stretch.method not in _ARRANGED.get(stretch.grouping, stretch.method):
                arranged = stretch.grouping.replace("_", " ")
                raise NotPrinted(f"cables grouped by '{arranged}' are not laid by method {stretch.method}")
            return t.read("grouping_factor", stretch.circuits, stretch.grouping)
        column = "direct" if stretch.method == "D2" else f"duct_{cable.build.replace('-', '_')}"
        return t.read("grouping_factor_ground", stretch.circuits, column)

    @staticmethod
    def _tabulated_a(t: Trace, size: Size, cable: CableKind, stretch: Laid, loaded: int) -> float:
        if size.system != "mm²" or cable.conductor != "cu":
            raise NotPrinted(f"currents are tabulated for copper in mm², not for {cable.conductor} {size}")
        if cable.insulation not in _INSULATIONS:
            raise NotPrinted(f"currents of a {cable.insulation} cable are tabulated for direct current only")
        build, other = _BUILDS.get(stretch.method, (cable.build, ""))
        if build != cable.build:
            raise NotPrinted(f"method {stretch.method} is for {build} cables; laid like this, {other}")
        if stretch.method in _AIR | _GROUND:
            return t.read(f"capacity_{cable.insulation}_{loaded}", size.name, stretch.method)
        column = _FREE_AIR.get((stretch.method, loaded))
        if column is None:
            raise NotPrinted(
                f"no tabulated current for method {stretch.method} with {loaded} loaded conductors"
            )
        return t.read(f"capacity_air_{cable.insulation}", size.name, column)

    @staticmethod
    def _trip_multiple(t: Trace, kind: str, rating_a: float) -> float:
        if kind == "mcb":
            return t.read("conventional_current", "mcb", "trip")
        small = rating_a < t.figure("fuse_gg_small_below")
        return t.read("conventional_current", "fuse_gg_small" if small else "fuse_gg", "trip")


@cache
def _sizes(names: tuple[str, ...]) -> tuple[Size, ...]:
    return tuple(Size.parse(name) for name in names)
