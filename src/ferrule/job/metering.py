"""Current transformers of a meter or a site controller, and how an adapter reaches the internet."""

from typing import Annotated, Any, Literal

from pydantic import Field, ValidationInfo, field_validator

from ferrule.document import Record
from ferrule.fact import Fact, assumed, missing
from ferrule.parts.metering import AccuracyClass, RatioA
from ferrule.quantity import ApparentPowerVa, LengthM, LevelDb, LossDb, Size, Unit

Turns = Annotated[int, Unit("", 1, 20, whole=True)]

# Nothing that is received reaches 1 mW, and no share of a whole is more than it: a sign was lost on the way.
ReceivedDbm = Annotated[float, Unit("dBm", -200, 0)]
QualityDb = Annotated[float, Unit("dB", -50, 3)]  # RSRQ is reported up to 2.5 dB (3GPP TS 36.133, 9.1.7)


class Clamp(Record):
    """One current transformer round one line conductor."""

    channel: str = Field(description="the channel of the meter, named after the line its voltage tap is on")
    line: Fact[str] = missing("on which line conductor the transformer sits")
    arrow: Fact[Literal["network", "house"]] = missing("which way the arrow on the transformer points")


class Transformers(Record):
    """The current transformers of one meter, all alike."""

    run: Fact[str] = missing("round which run's conductors the transformers sit, by its id")
    primary_a: Fact[RatioA] = missing("rated primary current of the transformers, from their plate")
    turns: Turns = assumed(1, "each line conductor leads once through its current transformer")
    secondary_a: Fact[RatioA] = missing("rated secondary current of the transformers, from their plate")
    accuracy: Fact[AccuracyClass] = missing("accuracy class of the transformers, from their plate")
    burden_va: Fact[ApparentPowerVa] = missing("rated burden of the transformers, from their plate")
    lead_m: Fact[LengthM] = missing("length of their leads to the meter, one way")
    lead_size: Fact[Size] = missing("size of their leads, copper")
    clamps: Fact[list[Clamp]] = missing("on which line each transformer sits, channel by channel")


class Levels(Record):
    """What a meter of signals shows, doors and covers closed. Of each technology other levels decide."""

    technology: Literal["lte", "umts", "gsm", "wlan"]
    rsrp_dbm: Fact[ReceivedDbm] = missing("RSRP of LTE, doors and covers closed")
    rsrq_db: Fact[QualityDb] = missing("RSRQ of LTE, doors and covers closed")
    sinr_db: Fact[LevelDb] = missing("SINR of LTE, doors and covers closed")
    rscp_dbm: Fact[ReceivedDbm] = missing("RSCP of UMTS, doors and covers closed")
    ecio_db: Fact[QualityDb] = missing("Ec/Io of UMTS, doors and covers closed")
    rssi_dbm: Fact[ReceivedDbm] = missing("RSSI of GSM or WLAN, doors and covers closed")
    measured: Literal["adapter", "aerial"] = assumed(
        "adapter", "signal levels were measured at the adapter, with its own aerial"
    )
    lead_loss_db: Fact[LossDb] = missing(
        "loss of the lead between aerial and adapter, from its sheet; not asked where the levels were "
        "measured at the adapter"
    )

    @field_validator("rsrp_dbm", "rsrq_db", "sinr_db", "rscp_dbm", "ecio_db")
    @classmethod
    def _of_its_technology(cls, given: Any, info: ValidationInfo) -> Any:
        """A level of another technology decides nothing here, and would be passed over."""
        technology = info.data.get("technology")
        known_to = "umts" if info.field_name in {"rscp_dbm", "ecio_db"} else "lte"
        if isinstance(given, float) and technology is not None and technology != known_to:
            raise ValueError(f"none for {technology}: {known_to} has it; one entry for each technology")
        return given
