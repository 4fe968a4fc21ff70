"""Leads of current transformers (IEC 60228), and radio levels as makers of modems plan them."""

from collections.abc import Iterator

from ferrule.constraint import Constraint, at_least
from ferrule.physics import instrument
from ferrule.quantity import Size, unit_of_name
from ferrule.working import NotPrinted, Tables, Trace


class MeasuringTransformer:
    """The limits of error of a class hold from a share of the primary current on (IEC 61869-2:2012, 5.6.201).
    A lead is taken to be of fine strands, which have the higher resistance.
    """

    needs = ("ct_lead_resistance", "ct_full_share_least", "ct_low_share")

    def lead_ohm_per_km(self, t: Trace, *, size: Size) -> float:
        if size.system != "mm²":
            raise NotPrinted(f"the resistance of a lead of {size}")
        return t.read("ct_lead_resistance", float(size.name))

    def used(self, tables: Tables, *, main_fuse_a: float, primary_a: float) -> Constraint:
        """A house seldom draws a tenth of what its main fuse lets through, and that should still be read."""
        t = Trace(tables)
        return at_least(
            "low_share",
            "All that the main fuse lets through is {value} of the primary current; with less than {limit} "
            "what the house mostly draws is misread, surely below {unsure_a}",
            t,
            value=t.calculate(
                instrument.share_of_primary,
                load_a=t.given("load_a", main_fuse_a, "the main fuse"),
                primary_a=primary_a,
            ),
            limit=t.figure("ct_full_share_least"),
            unit="%",
            mend="take transformers of a smaller primary current, or lead each conductor through again",
            unsure_a=primary_a * t.figure("ct_low_share") / 100,
        )


_LEVELS = {"lte": ("rsrp_dbm", "rsrq_db", "sinr_db"), "umts": ("rssi_dbm",), "wlan": ("rssi_dbm",)}


class PlannedLevels:
    """RSRP and quality decide for LTE; RSSI alone says nothing there, for it counts the noise as well."""

    needs = (
        "data_cable_longest",
        *(f"{tech}_{level}" for tech, levels in _LEVELS.items() for level in levels),
    )

    def wired_m(self, t: Trace) -> float:
        return t.figure("data_cable_longest")

    def asks(self, technology: str) -> tuple[str, ...]:
        return _LEVELS[technology]

    def judged(self, tables: Tables, *, technology: str, level: str, value: float) -> Iterator[Constraint]:
        t = Trace(tables)
        name = level.rpartition("_")[0]
        yield at_least(
            name,
            "{what} is {value} with everything closed; data flow steadily from {limit} on",
            t,
            value=value,
            limit=t.figure(f"{technology}_{level}"),
            unit=unit_of_name(level) or "",
            binding=False,
            mend="use a cable, an aerial outside, or another network",
            what=name.upper(),
        )
