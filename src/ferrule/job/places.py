"""The places of a house: rooms and spots outdoors, their walls, and where on a wall a device hangs.

Positions on a wall are seen by a person who faces it: from its left end, and from the floor up.
"""

from typing import Annotated, Any, Literal

from pydantic import Field, StringConstraints, ValidationInfo, field_validator

from ferrule.document import Record
from ferrule.fact import Fact, missing
from ferrule.quantity import LengthMm, TemperatureC, Unit

CornerDeg = Annotated[float, Unit("°", 1, 359)]

Use = Literal[
    "habitable", "sleeping", "bathroom", "utility", "cellar", "garage", "plant-room", "outbuilding",
    "cupboard", "under-stairs", "escape-route", "loft", "outdoors",
]  # fmt: skip
Water = Literal["dry", "drips", "spray", "splash", "jets"]
WallMaterial = Literal[
    "concrete", "solid-brick", "perforated-brick", "hollow-block", "aerated-concrete", "timber",
    "timber-frame", "metal-frame",
]  # fmt: skip

# Higher than any wall of a house is a slip of the unit.
HungMm = Annotated[float, Unit("mm", 0, 15_000)]
WallMm = Annotated[float, Unit("mm", 100, 100_000)]
ThickMm = Annotated[float, Unit("mm", 10, 2_000)]
LiningMm = Annotated[float, Unit("mm", 1, 300)]
StudStepMm = Annotated[float, Unit("mm", 100, 2_000)]
ThingName = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1)]
StudMm = Annotated[float, Unit("mm", 20, 300)]


class Spot(Record):
    """A rectangle on a wall, or on a roof from its left edge and from the eaves."""

    left_mm: LengthMm = Field(description="from the left end of the wall to its left edge")
    bottom_mm: LengthMm = Field(
        description="from the floor to its lower edge; 0 where it stands on the floor"
    )
    width_mm: LengthMm
    height_mm: LengthMm


class Opening(Spot):
    """A door, a window or a vent in a wall."""

    kind: Literal["door", "window", "vent"]
    to: Fact[Use] = missing("what kind of place the opening leads to")
    swings_mm: Fact[LengthMm] = missing(
        "how far its leaf swings out before this wall; 0 for one that opens away, slides or stays shut"
    )
    hinges: Fact[Literal["left", "right", "both"]] = missing(
        "at which edge its leaf hangs, seen from this wall: left, right or both"
    )


class Thing(Spot):
    """Something else at a wall: a board, a boiler, a shelf, a pipe."""

    name: ThingName
    kind: Literal["board", "appliance", "heater", "pipe", "store", "other"] = Field(
        description="store: fuel, paint, gas or other things that burn"
    )
    depth_mm: Fact[LengthMm] = missing("how far it stands out from the wall")


class Studs(Record):
    """The uprights of a framed wall."""

    first_mm: Fact[LengthMm] = missing("from the left end of the wall to the middle of its first stud")
    spacing_mm: Fact[StudStepMm] = missing("spacing of the studs, middle to middle")
    width_mm: Fact[StudMm] = missing("width of a stud, seen from the front")


class Corner(Record):
    """Where another wall of the same place joins the end of a wall."""

    wall: str = Field(description="id of the wall that joins it")
    angle_deg: Fact[CornerDeg] = missing(
        "angle between the two walls, on the side where a person stands: 90° in the corner of a room, 270° "
        "round that of a house"
    )


class Wall(Record):
    """One face of a wall, as a person stands before it."""

    id: str
    width_mm: Fact[WallMm] = missing("width of the wall")
    height_mm: Fact[WallMm] = missing("height of the wall")
    left_end: Fact[Corner | Literal["bare", "free"]] = missing(
        "what joins the wall at its left end: a wall of this place, 'bare' for one with nothing on it, "
        "'free' for none"
    )
    right_end: Fact[Corner | Literal["bare", "free"]] = missing(
        "what joins the wall at its right end: a wall of this place, 'bare' for one with nothing on it, "
        "'free' for none"
    )
    material: Fact[WallMaterial] = missing(
        "what the wall is built of, found by a trial hole or from drawings"
    )
    thickness_mm: Fact[ThickMm] = missing("thickness of the wall without its lining")
    lining: Fact[Literal["none", "render", "plasterboard"]] = missing("what covers the wall")
    lining_depth_mm: LiningMm | None = Field(default=None, description="thickness of what covers the wall")
    studs: Studs = Studs()
    combustible: Fact[bool] = missing("whether the surface of the wall burns")
    behind: Fact[Use] = missing("what kind of place is behind the wall")
    services: Fact[Literal["clear", "marked"]] = missing(
        "search the wall for hidden cables and pipes before any drilling: clear, or marked where they run"
    )
    keep_clear: list[Spot] = Field(default=[], description="where hidden services run, each with its margin")
    openings: Fact[list[Opening]] = missing("doors, windows and vents in the wall, measured; [] if none")
    things: Fact[list[Thing]] = missing("what else hangs or stands at the wall, measured; [] if nothing")

    @field_validator("lining_depth_mm")
    @classmethod
    def _of_a_lining(cls, given: Any, info: ValidationInfo) -> Any:
        if given is not None and info.data.get("lining") == "none":
            raise ValueError("no depth where nothing covers the wall")
        return given


class Place(Record):
    """A room, or a spot outdoors."""

    id: str
    use: Use
    opens_to: Fact[list[Use]] = missing("which kinds of rooms its doors lead to; [] if none")
    fire_separated: Fact[bool] = missing(
        "whether fire-resisting walls, ceiling and doors part it from rooms lived in and from escape routes"
    )
    finished: Fact[bool] = missing(
        "whether its walls and ceiling are lined or do not burn; bare wooden studs and joists are neither"
    )
    alarm: Fact[Literal["linked", "single", "none"]] = missing(
        "its smoke or heat alarm: linked, single or none"
    )
    cars: Fact[Literal["none", "guarded", "unguarded"]] = missing(
        "whether a car can reach the devices: none, guarded (by posts or the like) or unguarded"
    )
    flood_mm: Fact[LengthMm | Literal["none"]] = missing(
        "highest water known or expected above its floor, or 'none'"
    )
    water: Fact[Water] = missing("what water meets a device there: dry, drips, spray, splash or jets")
    dusty: Fact[bool] = missing("whether its air is dusty: sawdust, straw, flour, cement")
    headroom_mm: Fact[LengthMm | Literal["open"]] = missing(
        "height from floor to ceiling, or 'open' to the sky"
    )
    coldest_c: Fact[TemperatureC] = missing("coldest air there")
    hottest_c: Fact[TemperatureC] = missing("hottest air there")
    walls: list[Wall] = []

    @field_validator("hottest_c")
    @classmethod
    def _above_the_coldest(cls, given: Any, info: ValidationInfo) -> Any:
        coldest_c = info.data.get("coldest_c")
        if isinstance(given, float) and isinstance(coldest_c, float) and given < coldest_c:
            raise ValueError(f"not below coldest, which is {coldest_c:g} °C")
        return given


class Siting(Record):
    """Where a device hangs or stands, and what was measured around it. What follows from the positions on the
    wall is not asked again.
    """

    wall: str = Field(description="id of the wall")
    left_mm: Fact[LengthMm] = missing("from the left end of the wall to the left edge of the device")
    bottom_mm: Fact[HungMm] = missing("from the floor to the lower edge of the device; 0 where it stands")
    pack_gap_mm: LengthMm | None = Field(default=None, description="free space between packs side by side")
    front_mm: Fact[LengthMm | Literal["open"]] = missing("free depth before the device, or 'open'")
    opposite: Fact[Literal["clear", "earthed", "live"]] = missing(
        "what faces it across that space: earthed (brick, concrete and tile are), live for what is worked on "
        "live, or clear for neither"
    )
    sun: Fact[Literal["shade", "direct"]] = missing("whether the sun shines on the device at any hour")
    opening_mm: Fact[LengthMm | Literal["none"]] = missing(
        "distance to the nearest door, window or vent that is not in this wall, or 'none'"
    )
    entries_plugged: Fact[bool] = missing(
        "whether each cable entry it does not use gets a plug of its IP code"
    )
    escape_mm: Fact[LengthMm | Literal["none"]] = missing("distance to the nearest escape route, or 'none'")
    flammables_mm: Fact[LengthMm | Literal["none"]] = missing(
        "distance to the nearest stored fuel, paint, gas or the like, or 'none'"
    )
    bedroom_window_mm: Fact[LengthMm | Literal["none"]] = missing(
        "distance to the household's nearest bedroom window, or 'none'"
    )
    neighbour_window_mm: Fact[LengthMm | Literal["none"]] = missing(
        "distance to the nearest bedroom window of a neighbour, or 'none'"
    )
