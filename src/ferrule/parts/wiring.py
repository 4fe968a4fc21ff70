"""The datasheets of cables."""

from typing import Literal

from ferrule.document import Record
from ferrule.fact import Fact, assumed, missing
from ferrule.quantity import VoltageV

Insulation = Literal["pvc", "xlpe", "pv"]


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
    voltage_max_v: Fact[VoltageV] = missing("rated voltage of the cable")
