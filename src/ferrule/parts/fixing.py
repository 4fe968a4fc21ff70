"""What a device's sheet says of its weight on the wall: centre of gravity, fixing holes, what secures it."""

from typing import Annotated, Literal

from pydantic import Field

from ferrule.document import Record
from ferrule.fact import Fact, missing
from ferrule.quantity import LengthMm, Unit

HoleMm = Annotated[float, Unit("mm", 1, 100)]
GravityMm = Annotated[float, Unit("mm", 1, 5_000)]


class FixingHole(Record):
    """A fixing hole of a device or of its bracket, as a person sees it who faces the wall."""

    x_mm: LengthMm = Field(description="from the left edge of the device")
    y_mm: LengthMm = Field(description="above the lower edge of the device")


Holes = Annotated[list[FixingHole], Field(min_length=1)]


class Mounting(Record):
    """How a device is held to the wall, and where its weight lies."""

    gravity_out_mm: Fact[GravityMm] = missing(
        "how far its centre of gravity lies off the wall, from its sheet; else ask its maker"
    )
    gravity_across_mm: Fact[GravityMm] = missing("its centre of gravity from its left edge, from its sheet")
    gravity_up_mm: Fact[GravityMm] = missing("its centre of gravity above its lower edge, from its sheet")
    holes: Fact[Holes] = missing("where its fixing holes are, from its sheet")
    hole_mm: Fact[HoleMm] = missing("diameter of its fixing holes")
    presses_mm: Fact[LengthMm] = missing(
        "height above its lower edge at which bracket or case presses on the wall, lowest point"
    )
    bracket_mm: Fact[LengthMm] = missing("thickness of bracket and washer under the anchor's head")
    securing: Fact[str] = missing("the screws that secure it on its bracket, such as '2 × M5'; or 'none'")
    theft_lock: Fact[Literal["fits", "none"]] = missing("whether a lock against theft can be fitted")
