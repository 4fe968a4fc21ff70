"""Current transformers and their leads, and the radio levels at which data flow."""

from collections.abc import Iterator

from ferrule.constraint import Constraint, Verdict, at_least
from ferrule.physics import instrument, radio
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


_LEVELS = {
    "lte": ("rsrp_dbm", "rsrq_db", "sinr_db"),
    "umts": ("rscp_dbm", "ecio_db"),
    "gsm": ("rssi_dbm",),
    "wlan": ("rssi_dbm",),
}
_WORDS = {"ecio": "Ec/Io"}


class PlannedLevels:
    """Power and quality decide for LTE and UMTS; RSSI alone says nothing there, for it counts the noise as
    well. Below one level a technology does not work, from another on data flow steadily.
    """

    needs = (
        "data_cable_longest",
        *(f"{kind}{tech}_{level}" for tech in _LEVELS for level in _LEVELS[tech] for kind in ("", "least_")),
    )

    def wired_m(self, t: Trace) -> float:
        return t.figure("data_cable_longest")

    def asks(self, technology: str) -> tuple[str, ...]:
        return _LEVELS[technology]

    def judged(
        self, tables: Tables, *, technology: str, level: str, value: float, lead_loss_db: float
    ) -> Iterator[Constraint]:
        """A lead takes from the signal and from what disturbs it alike: it lowers power, not quality."""
        name, _, unit = level.rpartition("_")
        what, word = _WORDS.get(name, name.upper()), technology.upper()
        unit_there = unit_of_name(level) or ""
        mend = "use a cable, an aerial outside, or another network"

        def here(t: Trace) -> float:
            if unit != "dbm" or not lead_loss_db:
                return value
            return t.calculate(radio.level_behind_lead, level_dbm=value, loss_db=lead_loss_db)

        t = Trace(tables)
        least = at_least(
            f"{name}_least", "{what} is {value} with everything closed; below {limit} {word} does not work",
            t, value=here(t), limit=t.figure(f"least_{technology}_{level}", "high"), unit=unit_there,
            mend=mend, what=what, word=word,
        )  # fmt: skip
        yield least
        if least.verdict is Verdict.PASS:
            t = Trace(tables)
            yield at_least(
                name, "{what} is {value} with everything closed; data flow steadily from {limit} on", t,
                value=here(t), limit=t.figure(f"{technology}_{level}"), unit=unit_there, binding=False,
                mend=mend, what=what,
            )  # fmt: skip
