"""How a device is held in its place."""

from typing import Annotated

from pydantic import Field

from ferrule.document import Record
from ferrule.fact import Decision, Fact, missing, to_choose
from ferrule.quantity import LengthMm, Unit

PlateMm = Annotated[float, Unit("mm", 6, 60)]
PlateSideMm = Annotated[float, Unit("mm", 100, 5_000)]
PlinthMm = Annotated[float, Unit("mm", 1, 1_500)]


class PlateScrew(Record):
    """A screw of a plate, as a person sees it who faces the wall."""

    x_mm: LengthMm = Field(description="from the left edge of the plate")
    y_mm: LengthMm = Field(description="above the lower edge of the plate")


PlateScrews = Annotated[list[PlateScrew], Field(min_length=2, max_length=100)]


class Backing(Record):
    """A plate of plywood that is screwed to the studs of a framed wall, and the device to it."""

    thickness_mm: PlateMm
    left_mm: Fact[LengthMm] = missing("from the left end of the wall to the left edge of the plate")
    bottom_mm: Fact[LengthMm] = missing("from the floor to the lower edge of the plate")
    width_mm: Fact[PlateSideMm] = missing("width of the plate behind the device")
    height_mm: Fact[PlateSideMm] = missing("height of the plate behind the device")
    screw: Fact[str] = missing("the screws that hold the plate to the studs, by the id of their part")
    screws: Fact[PlateScrews] = missing("where the screws that hold the plate to the studs go")


class Tie(Record):
    """A screw that ties a standing device to its wall."""

    left_mm: LengthMm = Field(description="from the left end of the wall")
    bottom_mm: LengthMm = Field(description="from the floor")


class Fixing(Record):
    """How a device is held in its place."""

    anchor: Decision[str] = to_choose("the type and size of its anchors, by the id of their part")
    backing: Backing | None = Field(default=None, description="a plate between a framed wall and the device")
    tied: bool = Field(
        default=False, description="whether a device on the floor is tied to the wall or bolted to the floor"
    )
    ties: Fact[list[Tie]] = missing(
        "where the screws that tie it go into the wall; [] where it is bolted to the floor"
    )
    plinth_mm: PlinthMm | None = Field(
        default=None,
        description="height of the plinth or frame under a device that is made to stand on the floor",
    )
