"""Cable ends by DIN 46228, DIN 46235, EN 62444 and makers' tables, where the part's own sheet is silent."""

from collections.abc import Iterator

from ferrule.clauses.procedures.ends import CableBend, Gland, Lug, Sleeve
from ferrule.physics import ends
from ferrule.working import NotPrinted, Trace

_SYSTEMS = ("din", "din_other", "older_german", "french")
_CHOICES = ("first", "second", "third", "fourth")
_RINGS = ("red", "blue", "yellow")
_THREADS_MM = (12, 16, 20, 25, 32, 40, 50, 63)  # the threads of EN 62444 up to a house's largest cable


class PreparedEnds:
    """Sizes and colours as printed; a size between two rows is refused."""

    needs = (
        "sleeve_colour",
        "sleeve_lengths",
        "sleeve_strip_collar",
        "sleeve_twin_least",
        "sleeve_twin_most",
        "lug_die",
        "lug_bolts",
        "lug_strip",
        "lug_growth",
        "shrink_overlap",
        "shrink_shortens",
        "stud_hole",
        "ring_size",
        "ring_bolt",
        "gland_range",
        "gland_hole",
        "gland_spare",
        "bend_factor",
        "bend_thick",
    )

    def sleeve_lengths(self, t: Trace, *, area_mm2: float) -> tuple[float, ...]:
        shortest_mm = t.read("sleeve_lengths", area_mm2, _CHOICES[0])
        longer_mm = [
            t.read("sleeve_lengths", area_mm2, choice)
            for choice in _CHOICES[1:]
            if _prints(t, "sleeve_lengths", area_mm2, choice)
        ]
        return (shortest_mm, *longer_mm)

    def sleeve(self, t: Trace, *, area_mm2: float, length_mm: float, insulated: bool) -> Sleeve:
        """Only a collar has a colour."""
        t.tables.cell("sleeve_colour", area_mm2, _SYSTEMS[0])  # refuses a size that sleeves are not made in
        strip_mm = t.calculate(
            ends.strip_for_sleeve,
            sleeve_mm=length_mm,
            collar_mm=t.figure("sleeve_strip_collar") if insulated else 0.0,
        )
        return Sleeve(area_mm2, length_mm, strip_mm, tuple(_colours(t, area_mm2)) if insulated else ())

    def twin_sleeve(self, t: Trace, *, area_mm2: float) -> bool:
        return t.figure("sleeve_twin_least") <= area_mm2 <= t.figure("sleeve_twin_most")

    def lug(self, t: Trace, *, area_mm2: float, bolt_mm: float) -> Lug:
        least_mm = t.read("lug_bolts", area_mm2, "least")
        most_mm = t.read("lug_bolts", area_mm2, "most")
        if not least_mm <= bolt_mm <= most_mm:
            raise NotPrinted(
                f"no lug of {area_mm2:g} mm² for M{bolt_mm:g}; there are those for M{least_mm:g} to "
                f"M{most_mm:g}"
            )
        return Lug(
            area_mm2,
            bolt_mm,
            int(t.read("lug_die", area_mm2)),
            t.read("stud_hole", bolt_mm, "lug"),
            t.read("lug_strip", area_mm2, "least"),
            t.read("lug_strip", area_mm2, "most"),
        )

    def lug_strip_mm(self, t: Trace, *, barrel_mm: float) -> float:
        return t.calculate(ends.strip_for_barrel, barrel_mm=barrel_mm, growth_pct=t.figure("lug_growth"))

    def shrink_mm(self, t: Trace, *, barrel_mm: float) -> float:
        return t.calculate(
            ends.shrink_length,
            barrel_mm=barrel_mm,
            overlap_mm=t.figure("shrink_overlap"),
            shortens_pct=t.figure("shrink_shortens"),
        )

    def ring_colours(self, t: Trace, *, area_mm2: float, bolt_mm: float) -> tuple[str, ...]:
        return tuple(
            colour
            for colour in _RINGS
            if t.read("ring_size", colour, "least") <= area_mm2 <= t.read("ring_size", colour, "most")
            and t.read("ring_bolt", colour, "least") <= bolt_mm <= t.read("ring_bolt", colour, "most")
        )

    def gland(self, t: Trace, *, outer_least_mm: float, outer_most_mm: float) -> Gland:
        """A usual seal of any size before a wide one."""
        spare_mm = t.figure("gland_spare")
        for seal in ("", "wide_"):
            for thread_mm in _THREADS_MM:
                from_mm, to_mm = (
                    float(t.tables.cell("gland_range", thread_mm, f"{seal}{end}").value)
                    for end in ("from", "to")
                )
                if from_mm + spare_mm <= outer_least_mm and outer_most_mm <= to_mm - spare_mm:
                    t.read("gland_range", thread_mm, f"{seal}from")
                    t.read("gland_range", thread_mm, f"{seal}to")
                    return Gland(thread_mm, t.read("gland_hole", thread_mm), from_mm, to_mm, bool(seal))
        wanted = (
            f"{outer_least_mm:g} mm"
            if outer_least_mm == outer_most_mm
            else f"{outer_least_mm:g} to {outer_most_mm:g} mm"
        )
        raise NotPrinted(
            f"no usual gland from M{_THREADS_MM[0]} to M{_THREADS_MM[-1]} holds a cable of {wanted} with "
            f"{spare_mm:g} mm to spare: the range of the gland that will be used"
        )

    def gland_holds(
        self, t: Trace, *, outer_least_mm: float, outer_most_mm: float, from_mm: float, to_mm: float
    ) -> bool:
        spare_mm = t.figure("gland_spare")
        return from_mm + spare_mm <= outer_least_mm and outer_most_mm <= to_mm - spare_mm

    def bend_radius_mm(self, t: Trace, *, cable: CableBend, outer_mm: float, laying: bool) -> float:
        thick = cable == "plain" and outer_mm > t.figure("bend_thick")
        factor = t.read("bend_factor", "plain_thick" if thick else cable, "laying" if laying else "fixed")
        return t.calculate(ends.bend_radius, factor=factor, outer_mm=outer_mm)


def _colours(t: Trace, area_mm2: float) -> Iterator[tuple[str, str]]:
    for system in _SYSTEMS:
        if _prints(t, "sleeve_colour", area_mm2, system):
            yield system, t.term("sleeve_colour", area_mm2, system)


def _prints(t: Trace, table: str, row: float, column: str) -> bool:
    try:
        t.tables.cell(table, row, column)
    except NotPrinted:
        return False
    return True
