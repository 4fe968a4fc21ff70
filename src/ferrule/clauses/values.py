"""The plain values that procedures take and give: a cable as it is laid, a device, a source."""

from typing import NamedTuple

from ferrule.quantity import Size


class Laid(NamedTuple):
    """One stretch of a cable as it is laid."""

    length_m: float
    method: str
    ambient_c: float
    circuits: int
    grouping: str
    soil_km_per_w: float | None = None
    on_roof: bool = False


class LoopPart(NamedTuple):
    """One cable of a fault loop: out by the line conductor, back by the protective one."""

    line: Size
    protective: Size
    metal: str
    strands: str
    insulation: str
    length_m: float


class CableKind(NamedTuple):
    """What decides a cable's current apart from its size."""

    insulation: str
    conductor: str
    strands: str
    build: str


class Device(NamedTuple):
    """An overcurrent device; a fuse has no curve. `let_through_a2s` is its maker's figure at the fault."""

    kind: str
    rating_a: float
    curve: str = ""
    energy_class: str = ""
    let_through_a2s: float | None = None


class Hands(NamedTuple):
    """Where the hands are at one end of a lift: above the floor that the feet stand on, out before the
    ankles, and turned aside.
    """

    height_mm: float
    reach_mm: float
    twist_deg: float = 0.0


class LiftingAid(NamedTuple):
    """What lifts in place of people: its rated load, and how high it sets down the lower edge of a load."""

    name: str
    load_kg: float
    reach_mm: float


class Lift(NamedTuple):
    """One lift: from where to where, how the load is held, how often and for how long such lifts go on."""

    start: Hands
    end: Hands
    grip: str
    per_min: float = 0.0
    duration: str = "short"
