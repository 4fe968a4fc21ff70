"""Bonding (IEC 60364-5-54:2011 clause 544; for arrays IEC 62548-1, IEC 60364-7-712 and IEC 62305-3)."""

from collections.abc import Iterator

from ferrule.constraint import Constraint, at_least
from ferrule.physics import scale
from ferrule.quantity import Size
from ferrule.working import Tables, Trace


class HalfTheProtective:
    """Main bonding has half of the largest protective conductor, within bounds; a frame has its own size."""

    needs = (
        "bonding_main_share",
        "bonding_main_minimum",
        "bonding_main_most",
        "bonding_supplementary_share",
        "bonding_supplementary_minimum",
        "array_bonding",
        "array_bonding_lightning",
        "conductor_sizes",
    )

    def main(self, tables: Tables, *, size: Size, largest_protective: Size) -> Iterator[Constraint]:
        """544.1.1: half of the largest protective conductor, 6 mm² at least, 25 mm² at most."""
        t = Trace(tables)
        half_mm2 = self._share(t, largest_protective, "bonding_main_share")
        least_mm2 = min(max(half_mm2, t.read("bonding_main_minimum", "cu")), t.figure("bonding_main_most"))
        yield at_least(
            "main_bonding",
            "The main bonding has {value}; with a protective conductor of {protective_mm2} it needs {limit}",
            t,
            value=size.area_mm2,
            limit=least_mm2,
            unit="mm²",
            protective_mm2=largest_protective.area_mm2,
        )

    def supplementary(
        self, tables: Tables, *, size: Size, protective: Size, protected: bool
    ) -> Iterator[Constraint]:
        """544.2.2 and 544.2.3: half of the exposed part's protective conductor, and strong enough."""
        t = Trace(tables)
        half_mm2 = self._share(t, protective, "bonding_supplementary_share")
        floor_mm2 = t.read("bonding_supplementary_minimum", "protected" if protected else "unprotected")
        yield at_least(
            "supplementary_bonding",
            "The supplementary bonding has {value}; with a protective conductor of {protective_mm2} "
            "it needs {limit}",
            t,
            value=size.area_mm2,
            limit=max(half_mm2, floor_mm2),
            unit="mm²",
            protective_mm2=protective.area_mm2,
        )

    def array(self, tables: Tables, *, size: Size, lightning: str) -> Iterator[Constraint]:
        """The stricter of the documents; tied to a lightning protection it carries part of a stroke."""
        t = Trace(tables)
        tied = lightning == "bonded"
        yield at_least(
            "array_bonding",
            "The array's bonding conductor has {value}; tied to the lightning protection it needs {limit}"
            if tied
            else "The array's bonding conductor has {value}; it needs {limit}",
            t,
            value=size.area_mm2,
            limit=t.figure("array_bonding_lightning") if tied else t.figure("array_bonding", "high"),
            unit="mm²",
        )

    def sizes(self, tables: Tables) -> tuple[Size, ...]:
        return tuple(Size.parse(name) for name in tables.series("conductor_sizes").words())

    @staticmethod
    def _share(t: Trace, protective: Size, figure: str) -> float:
        area_mm2 = t.given("protective_mm2", protective.area_mm2, "protective conductor")
        return t.calculate(scale.scaled_area, area_mm2=area_mm2, factor=t.figure(figure))
