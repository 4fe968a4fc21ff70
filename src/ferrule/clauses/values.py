"""The plain values that procedures take and give: a cable as it is laid, a device, a source."""

from typing import NamedTuple


class Laid(NamedTuple):
    """One stretch of a cable as it is laid."""

    length_m: float
    method: str
    ambient_c: float
    circuits: int
    grouping: str
    soil_km_per_w: float | None = None
    on_roof: bool = False


class CableKind(NamedTuple):
    """What decides a cable's current apart from its size."""

    insulation: str
    conductor: str
    strands: str
    build: str
