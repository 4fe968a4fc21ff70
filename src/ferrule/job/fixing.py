"""How a device is held in its place."""

from pydantic import Field

from ferrule.document import Record
from ferrule.fact import Decision, to_choose
from ferrule.quantity import LengthMm


class Backing(Record):
    """A plate of plywood on a framed wall that the device is screwed to."""

    thickness_mm: LengthMm
    studs: int = Field(ge=1, le=20, description="how many studs it is screwed to")


class Fixing(Record):
    """How a device is held in its place."""

    anchor: Decision[str] = to_choose("the type and size of its anchors, by the id of their part")
    backing: Backing | None = Field(default=None, description="a plate between a framed wall and the device")
    tied: bool = Field(
        default=False, description="whether a device on the floor is tied to the wall or bolted to the floor"
    )
