"""The devices of this house: which part each is, and what only this house decides about it."""

from typing import Annotated, Literal

from pydantic import Field

from ferrule.document import Record
from ferrule.fact import Decision, Fact, assumed, missing, to_choose
from ferrule.job.array import InputGear
from ferrule.job.fixing import Fixing
from ferrule.job.lifting import Lifting
from ferrule.job.metering import Levels, Transformers
from ferrule.job.places import Siting
from ferrule.parts.devices import LetThroughA2s, Link, RatedA, RatedV
from ferrule.parts.metering import AccuracyClass
from ferrule.quantity import CurrentA, LengthM, Size, Unit

Packs = Annotated[int, Unit("", 1, 32, whole=True)]

_WHERE = "the wall it hangs on or stands at, with its position there"


class InverterDevice(Record):
    """An inverter on the wall."""

    id: str
    kind: Literal["inverter"]
    part: str
    link: Fact[Literal["enabled", "disabled"]] = missing(
        "whether the inverter's neutral-earth link is enabled by its country setting"
    )
    phase_locked: Fact[bool] = missing(
        "whether the single-phase inverters are locked together to form three phases"
    )
    at: Fact[Siting] = missing(_WHERE)
    fixing: Fixing = Fixing()
    lift: Lifting = Lifting()
    inputs: list[InputGear] = []
    charge_set_a: CurrentA | None = Field(
        default=None, description="charge current set in the inverter, where less than its own limit"
    )
    discharge_set_a: CurrentA | None = Field(
        default=None, description="discharge current set in the inverter, where less than its own limit"
    )


class BatteryProtection(Record):
    """The overcurrent device of a battery circuit."""

    kind: Literal["fuse-gBat", "fuse-gR", "fuse-aR", "fuse-T", "fuse-gG", "breaker-dc", "breaker-ac"]
    rating_a: RatedA
    voltage_max_v: Fact[RatedV] = missing("rated DC voltage of the battery's protective device")
    breaking_capacity_a: Fact[RatedA] = missing("DC breaking capacity of the battery's protective device")
    poles: Fact[Literal["both", "one"]] = missing("in how many poles the battery's protective device sits")
    polarised: Fact[bool] = missing("whether the battery's protective device is marked with a polarity")
    let_through_a2s: LetThroughA2s | None = Field(
        default=None,
        description="I²t it lets through in a short circuit, from its sheet; a breaker's must be known",
    )


class BatteryDevice(Record):
    """A battery, of one or more packs in parallel."""

    id: str
    kind: Literal["battery"]
    part: str
    at: Fact[Siting] = missing(_WHERE)
    fixing: Fixing = Fixing()
    lift: Lifting = Lifting()
    packs: Packs = Field(default=1, description="how many packs in parallel")
    protection: Decision[BatteryProtection] = to_choose("battery protective device")
    protection_distance_m: Fact[LengthM] = missing("cable length from battery pole to protective device")
    pack_leads_m: list[LengthM] = Field(
        default=[], alias="pack_leads", description="length of each pack's leads, plus and minus together"
    )
    pack_lead_size: Fact[Size] = missing("size of the leads of each pack")
    earthed_pole: Literal["none", "plus", "minus"] = assumed("none", "no pole of the battery is earthed")
    isolator: Fact[Literal["all-poles", "one-pole", "none"]] = missing(
        "which poles the switch beside the battery isolates"
    )
    isolator_lockable: Fact[bool] = missing("whether the switch at the battery can be locked when it is open")


class ChangeoverDevice(Record):
    """A changeover unit."""

    id: str
    kind: Literal["changeover"]
    part: str
    at: Fact[Siting] = missing(_WHERE)
    fixing: Fixing = Fixing()
    lift: Lifting = Lifting()


class MeterDevice(Record):
    """An energy meter, a terminal on the way of the current it measures."""

    id: str
    kind: Literal["meter"]
    part: str
    accuracy: Fact[AccuracyClass] = missing(
        "accuracy class that network operator and inverter maker ask of the meter; class B is 1"
    )
    transformers: Transformers | None = Field(
        default=None, description="the current transformers, where the meter has some"
    )


class ControllerDevice(Record):
    """A site controller."""

    id: str
    kind: Literal["controller"]
    part: str
    transformers: Transformers | None = Field(
        default=None, description="the current transformers of its own metering"
    )
    at: Fact[Siting] = missing(_WHERE)
    fixing: Fixing = Fixing()
    lift: Lifting = Lifting()


class AdapterDevice(Record):
    """A network adapter."""

    id: str
    kind: Literal["adapter"]
    part: str
    into: Fact[str] = missing("the port it plugs into, such as INV1.ACC")
    link: Fact[Link] = missing("how the adapter is to be linked: wired, wireless or mobile")
    router_m: Fact[LengthM] = missing("length of the cable to the router")
    levels: list[Levels] = Field(
        default=[], description="signal levels where it sits, one entry for each technology"
    )
    cover: Fact[Literal["closed", "open"]] = missing("whether the port's cover closes over the adapter")
    held: Fact[bool] = missing("whether the adapter's plug is screwed or latched")


class GeneratorDevice(Record):
    """A generator set."""

    id: str
    kind: Literal["generator"]
    part: str
    transfer: Fact[Literal["all-live", "lines", "none"]] = missing(
        "what the interlocked switch between network and generator opens: all live conductors, the lines "
        "only, or none where there is no interlock"
    )
    interlock: Fact[Literal["mechanical", "electrical"]] = missing(
        "whether the two sides of the generator's transfer switch bar each other mechanically, or only by "
        "their coils, which a welded contact defeats"
    )


Device = Annotated[
    InverterDevice
    | BatteryDevice
    | ChangeoverDevice
    | MeterDevice
    | ControllerDevice
    | AdapterDevice
    | GeneratorDevice,
    Field(discriminator="kind"),
]
