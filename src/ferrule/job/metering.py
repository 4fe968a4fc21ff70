"""Current transformers of a meter or a site controller, and how an adapter reaches the internet."""

from typing import Annotated, Literal

from pydantic import Field

from ferrule.document import Record
from ferrule.fact import Fact, assumed, missing
from ferrule.parts.metering import AccuracyClass, RatioA
from ferrule.quantity import ApparentPowerVa, LengthM, LevelDb, LossDb, PowerLevelDbm, Size, Unit

Turns = Annotated[int, Unit("", 1, 20, whole=True)]


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
    rsrp_dbm: Fact[PowerLevelDbm] = missing("RSRP of LTE, doors and covers closed")
    rsrq_db: Fact[LevelDb] = missing("RSRQ of LTE, doors and covers closed")
    sinr_db: Fact[LevelDb] = missing("SINR of LTE, doors and covers closed")
    rscp_dbm: Fact[PowerLevelDbm] = missing("RSCP of UMTS, doors and covers closed")
    ecio_db: Fact[LevelDb] = missing("Ec/Io of UMTS, doors and covers closed")
    rssi_dbm: Fact[PowerLevelDbm] = missing("RSSI of GSM or WLAN, doors and covers closed")
    measured: Literal["adapter", "aerial"] = assumed(
        "adapter", "signal levels were measured at the adapter, with its own aerial"
    )
    lead_loss_db: Fact[LossDb] = missing(
        "loss of the lead between aerial and adapter, from its sheet; not asked where the levels were "
        "measured at the adapter"
    )
