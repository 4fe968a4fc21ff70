"""The datasheets of cables."""

from typing import Annotated, Literal

from pydantic import Field

from ferrule.document import Record
from ferrule.fact import Fact, assumed, missing
from ferrule.quantity import Size, Unit, VoltageV

Insulation = Literal["pvc", "xlpe", "pv"]
OuterMm = Annotated[float, Unit("mm", 1, 150)]
Cores = Annotated[int, Unit("", 1, 100, whole=True)]


class Outer(Record):
    """How thick a cable is over all, with so many cores of one size."""

    cores: Cores = Field(description="how many cores")
    size: Size = Field(description="size of each core")
    outer_mm: OuterMm = Field(description="diameter over all")


class Cable(Record):
    """A type of cable, whatever its size."""

    id: str
    kind: Literal["cable"]
    name: str
    source: str
    insulation: Insulation
    conductor: Literal["cu", "al"] = assumed("cu", "cables have conductors of copper")
    strands: Literal["class2", "class5", "class5-tinned"]
    build: Literal["multicore", "single-core"]
    double_insulated: bool = False
    voltage_max_v: Fact[VoltageV] = missing(
        "rated voltage of the cable from conductor to earth, the lower one where two are printed"
    )
    outers: list[Outer] = Field(default=[], description="outer diameter by number and size of its cores")
