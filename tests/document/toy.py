"""A small made-up file format with everything that the reader has to cope with."""

from typing import Annotated, Literal

from pydantic import Field, model_validator

from ferrule.document import Record
from ferrule.fact import Decision, Fact, missing, to_choose
from ferrule.quantity import AltitudeM, CurrentA, LengthM, Size, TemperatureC


class Site(Record):
    """The place."""

    place: str
    altitude_m: Fact[AltitudeM] = missing("altitude of the site")
    coldest_c: Fact[TemperatureC] = missing("coldest design temperature")
    building: Fact[Literal["dwelling", "ground"]] = missing("what kind of building it is")


class Inverter(Record):
    """One member of a union."""

    id: str
    kind: Literal["inverter"]
    phases: Literal["1", "3"]
    current_max_a: Fact[CurrentA] = missing("maximum continuous current")


class Battery(Record):
    """The other member; it has a field of the name of its kind."""

    id: str
    kind: Literal["battery", "stack"]
    packs: int = Field(default=1, ge=1, le=32)
    battery: Site | None = None
    place_coldest_c: Fact[TemperatureC] = missing("coldest temperature of its place")


class Rcd(Record):
    """A device of a circuit."""

    type: Literal["A", "B"]
    rating_a: CurrentA


class Run(Record):
    """A cable."""

    id: str
    start: str = Field(alias="from")
    end: str = Field(alias="to", description="where it ends")
    lengths_m: list[LengthM] = Field(default=[], min_length=1, alias="lengths")
    size: Decision[Size] = to_choose("size of the line conductors")
    rcd: Decision[Rcd | Literal["none"]] = to_choose("residual current device")
    buried: bool = False

    @model_validator(mode="after")
    def _has_two_ends(self) -> "Run":
        if self.start == self.end:
            raise ValueError("two different ends")
        return self


Device = Annotated[Inverter | Battery, Field(discriminator="kind")]


class Toy(Record):
    """The whole file."""

    ferrule: Literal["1"]
    name: str
    site: Site
    devices: tuple[Device, ...] = ()
    runs: tuple[Run, ...] = ()
    loads_a: dict[str, CurrentA] = Field(default={}, alias="loads")
    circuits: Fact[int] = missing("how many circuits there are")


SAMPLE = """\
# A comment, and then everything once.
ferrule: 1
name: "A house: with garage"
site:
  place: Somewhere
  altitude: {value: 98 ft, from: "map", note: sheet 12}
  coldest: {unknown: "ask the weather service"}
  building: unknown
devices:
  - id: INV1
    kind: inverter
    phases: 3
    current_max: 16 A
  - {id: BAT1, kind: battery, packs: 2, place_coldest: -5 °C}
runs:
  - id: R1
    from: INV1
    to: BAT1
    lengths:
      - {value: 30 m, from: measured with a tape}
      - 4 m
    size: open
    rcd: none
    buried: yes
  - id: R2
    from: BAT1
    to: INV1
    lengths: [1 m]
    size: AWG 10
    rcd: {type: A, rating: 40 A}
loads: {C1: 10 A, C2: 0.5 kA}
circuits: 12
"""
