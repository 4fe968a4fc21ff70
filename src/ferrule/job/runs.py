"""Cable runs: from where to where, along which stretches, in which cable."""

from typing import Annotated, Literal

from pydantic import Field

from ferrule.document import Record
from ferrule.fact import Decision, Fact, assumed, missing, to_choose
from ferrule.quantity import Size, TemperatureC, Unit

Method = Literal["A1", "A2", "B1", "B2", "C", "D1", "D2", "E", "F", "G"]
StretchM = Annotated[float, Unit("m", 0.01, 10_000)]
SoilKmPerW = Annotated[float, Unit("K·m/W", 0.1, 20)]
Together = Annotated[int, Unit("", 1, 100, whole=True)]
Grouping = Literal["bunched", "wall", "ceiling", "perforated_tray", "ladder"]


class Stretch(Record):
    """A part of a run along which nothing changes."""

    length_m: Fact[StretchM] = missing("length of this stretch of cable")
    method: Fact[Method] = missing("installation method of this stretch (IEC 60364-5-52 table A.52.3)")
    ambient_c: Fact[TemperatureC] = missing("ambient (or soil) temperature along this stretch")
    circuits: Fact[Together] = missing("how many loaded circuits lie together here, this one included")
    grouping: Grouping = assumed("bunched", "cables lying together are bunched")
    soil_km_per_w: SoilKmPerW | None = None
    on_roof: bool = False


class Run(Record):
    """One cable from one device to another; ends are written `INV1.grid`, `MB`, `supply`, `S1`."""

    id: str
    start: str = Field(alias="from")
    end: str = Field(alias="to")
    cable: str
    stretches: list[Stretch] = Field(min_length=1)
    size: Decision[Size] = to_choose("size of the line conductors")
    neutral: Decision[Size] = to_choose("size of the neutral conductor")
    protective: Decision[Size] = to_choose("size of the protective conductor")
    second_protective: bool = Field(
        default=False, description="whether a second protective conductor of the same size runs along"
    )
