"""Leads of current transformers (IEC 60228), and radio levels as makers of modems plan them."""

from collections.abc import Iterator

from ferrule.constraint import Constraint, at_least
from ferrule.quantity import Size, unit_of_name
from ferrule.working import NotPrinted, Tables, Trace


class CopperLead:
    """A lead is taken to be of fine strands, which have the higher resistance."""

    needs = ("ct_lead_resistance",)

    def lead_ohm_per_km(self, t: Trace, *, size: Size) -> float:
        if size.system != "mm²":
            raise NotPrinted(f"the resistance of a lead of {size}")
        return t.read("ct_lead_resistance", float(size.name))


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
