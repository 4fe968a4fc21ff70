"""The array: faces, strings, and the direct-current gear between them and the inverter."""

from typing import Annotated, Literal

from pydantic import Field

from ferrule.document import Record
from ferrule.fact import Decision, Fact, missing, to_choose
from ferrule.job.roof import Block, Roof
from ferrule.parts.devices import RatedA, RatedV
from ferrule.quantity import AngleDeg, LengthM, Unit

Category = Literal["DC-20", "DC-21B", "DC-22B", "DC-PV0", "DC-PV1", "DC-PV2"]
SurgeType = Literal["1", "2", "1+2"]


Modules = Annotated[int, Unit("", 1, 100, whole=True)]
Every = Annotated[int, Unit("", 1, 10, whole=True)]


class Face(Record):
    """One roof plane or ground frame."""

    id: str
    tilt_deg: Fact[AngleDeg] = missing("tilt of the face")
    azimuth_deg: Fact[AngleDeg] = missing("azimuth of the face, from north clockwise")
    mounting: Fact[Literal["close-roof", "raised-roof", "rack"]] = missing(
        "how the modules are mounted: close to the roof, raised above it, or on an open rack"
    )
    roof: Fact[Roof | Literal["none"]] = missing(
        "what the survey found of the roof, or 'none' for a frame on the ground"
    )
    mount: Fact[str] = missing("the mounting system, by the id of its part")
    blocks: Fact[list[Block]] = missing("how the modules lie on the face: rows, columns, positions")
    hooks_every: Decision[Every] = to_choose("a hook on every how manyeth rafter: 1 for each of them")


class StringFuse(Record):
    """The fuses of one string, of one rating."""

    rating_a: RatedA
    voltage_max_v: Fact[RatedV] = missing("rated DC voltage of the string fuse")
    breaking_capacity_a: Fact[RatedA] = missing("DC breaking capacity of the string fuse")
    poles: Fact[Literal["both", "one"]] = missing("in how many poles of the string the fuses sit")


class Isolator(Record):
    """A direct-current switch for isolation under load."""

    voltage_max_v: Fact[RatedV] = missing("rated DC voltage of the isolator")
    current_max_a: Fact[RatedA] = missing("rated DC current of the isolator at that voltage")
    category: Fact[Category] = missing("utilisation category of the isolator")
    all_poles: Fact[bool] = missing("whether the isolator opens all poles together")
    lockable: Fact[bool] = missing("whether the isolator can be locked when it is open")


class SurgeDevice(Record):
    """A surge protective device."""

    type: SurgeType
    voltage_max_v: Fact[RatedV] = missing("highest continuous operating voltage of the surge device")
    nominal_a: Fact[RatedA] = missing("nominal discharge current (8/20) of the surge device")


class DcSurgeDevice(SurgeDevice):
    """Surge protection of an array's lines: one device, or the same at each end of the cable."""

    places: Fact[Literal["inverter", "both-ends"]] = missing(
        "whether the DC surge protection sits beside the inverter only or at both ends of the cable"
    )


class PvString(Record):
    """Modules in series, on one face, landed on one input."""

    id: str
    module: str
    modules: Modules = Field(description="how many modules in series")
    face: str
    input: str
    fuse: Decision[StringFuse | Literal["none"]] = to_choose("string fuses")


class InputGear(Record):
    """What sits between the strings of one inverter input and its terminals."""

    id: str
    isolator: Decision[Isolator | Literal["built-in"]] = to_choose(
        "DC isolator, or 'built-in' for the inverter's own"
    )
    surge: Decision[DcSurgeDevice | Literal["none"]] = to_choose("DC surge protection")
    leads_m: Fact[LengthM] = missing("length of the leads from the enclosure of that gear to the inverter")
