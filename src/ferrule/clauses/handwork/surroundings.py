"""Water and dust by EN 60529; sun, height and noise by convention."""

from collections.abc import Iterable, Iterator
from functools import reduce

from ferrule.clauses.procedures.base import Uncovered
from ferrule.clauses.procedures.surroundings import Area
from ferrule.constraint import Constraint, at_least, at_most
from ferrule.physics import climate, sound
from ferrule.working import NotPrinted, Tables, Trace


class IpCode:
    """An enclosure holds off what its code says (EN 60529), as long as seals and entries are fitted."""

    needs = ("ip_water", "ip_dust", "wet_floor_gap")

    def water(self, tables: Tables, *, water: str, ip: str) -> Iterator[Constraint]:
        yield self._digit(tables, "water", "ip_water", water, ip)

    def dust(self, tables: Tables, *, dusty: bool, ip: str) -> Iterator[Constraint]:
        yield self._digit(tables, "dust", "ip_dust", "dusty" if dusty else "clean", ip)

    def _digit(self, tables: Tables, name: str, table: str, row: str, ip: str) -> Constraint:
        """An X says that nobody tested it, and counts as nought."""
        t, second = Trace(tables), name == "water"
        digit = ip.removeprefix("IP")[int(second)]
        return at_least(
            name,
            "Against {what} its code {ip} has the digit {value}; the place asks for {limit}",
            t,
            value=t.given("digit", _held_off(digit) if second else float(digit.replace("X", "0")), ip),
            limit=t.read(table, row),
            unit="count",
            mend="take a device of a higher IP code, or a drier and cleaner place",
            what="water" if second else "dust and fingers",
            ip=ip,
        )

    def wet_floor(self, tables: Tables, *, bottom_mm: float) -> Iterator[Constraint]:
        t = Trace(tables)
        yield at_least(
            "wet_floor",
            "It stands {value} above a floor that gets wet; {limit} keep it dry",
            t,
            value=bottom_mm,
            limit=t.figure("wet_floor_gap", "high"),
            unit="mm",
            binding=False,
            mend="set it on a plinth",
        )


def _held_off(digit: str) -> float:
    """Proof against immersion (7, 8) says nothing of jets: it counts as splash (EN 60529)."""
    return 4.0 if digit in "78" else float(digit.replace("X", "0"))


class SunAndHeight:
    """What an industrial converter's table takes off, and what IEC 61439-2 says of insulation."""

    needs = ("sun_rise", "thin_air_cooling_start", "thin_air_cooling_loss", "thin_air_insulation")

    def sun_k(self, t: Trace) -> float:
        return t.figure("sun_rise", "high")

    def cooling(self, tables: Tables, *, altitude_m: float) -> Iterator[Constraint]:
        t = Trace(tables)
        if altitude_m > t.figure("thin_air_cooling_start"):
            yield at_least(
                "thin_air",
                "At {altitude_m} thin air leaves {value} of its power, where its sheet says nothing else",
                t,
                value=t.calculate(
                    climate.power_left_in_thin_air,
                    altitude_m=altitude_m,
                    start_m=t.figure("thin_air_cooling_start"),
                    per_100_m_pct=t.figure("thin_air_cooling_loss"),
                ),
                limit=100.0,
                unit="%",
                binding=False,
                mend="ask its maker what it gives at this height",
                altitude_m=altitude_m,
            )

    def insulation(self, tables: Tables, *, altitude_m: float) -> Iterator[Constraint]:
        t = Trace(tables)
        try:
            left = t.read("thin_air_insulation", altitude_m)
        except NotPrinted as why:
            raise Uncovered("how well air insulates at this height, which is beyond the table") from why
        if left < 1:
            yield at_least(
                "insulation",
                "At {altitude_m} air insulates {value} of the voltage that switchgear is rated for",
                t,
                value=100 * left,
                limit=100.0,
                unit="%",
                binding=False,
                mend="ask the makers of boards and devices for their rated voltages at this height",
                altitude_m=altitude_m,
            )


class NightLimit:
    """The German limits for the night: outdoors before a neighbour's window by the kind of area, indoors for
    what the building carries. A convention elsewhere, and for the household itself.
    """

    needs = ("noise_night", "noise_night_indoors")

    def at_window(
        self, tables: Tables, *, levels: Iterable[tuple[float, float]], area: Area, own: bool
    ) -> Iterator[Constraint]:
        t = Trace(tables)
        heard = [
            t.calculate(sound.level_at_distance, level_dba=level_dba, distance_m=distance_m)
            for level_dba, distance_m in levels
        ]
        yield at_most(
            "at_own_window" if own else "at_window",
            "At the household's own bedroom window {value} arrive; at night a neighbour would have to bear "
            "{limit} in an area that is {area}"
            if own
            else "At a neighbour's bedroom window {value} arrive; {limit} are borne at night in an area that "
            "is {area}",
            t,
            value=reduce(
                lambda one, other: t.calculate(sound.levels_together, one_dba=one, other_dba=other), heard
            ),
            limit=t.read("noise_night", area),
            unit="dB(A)",
            binding=False,
            mend="hang it further away, or on another wall",
            area=area.replace("-", " "),
        )

    def behind_wall(self, tables: Tables, *, level_dba: float) -> Iterator[Constraint]:
        """A wall carries the hum of a fan or a coil into the bed behind it; how much, nobody can say."""
        t = Trace(tables)
        yield at_most(
            "shared_wall",
            "Somebody sleeps behind the wall it hangs on; it hums with {value}, and {limit} may be heard in "
            "a bedroom at night",
            t,
            value=t.given("level_dba", level_dba, "at 1 m, from its sheet"),
            limit=t.figure("noise_night_indoors"),
            unit="dB(A)",
            binding=False,
            mend="hang it on another wall, or on rubber",
        )
