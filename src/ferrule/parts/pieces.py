"""The pieces in which a device is lifted into its place."""

from typing import Annotated, Literal

from pydantic import Field

from ferrule.document import Record
from ferrule.fact import Fact, missing
from ferrule.quantity import Unit

Count = Annotated[int, Unit("", 1, 64, whole=True)]
PieceKg = Annotated[float, Unit("kg", 0.1, 2_000)]
PieceMm = Annotated[float, Unit("mm", 1, 5_000)]
AboveMm = Annotated[float, Unit("mm", 0, 5_000)]


class Piece(Record):
    """One piece of a device, or several alike; what its sheet leaves out is that of the whole device."""

    name: str
    count: Count = Field(default=1, description="how many alike")
    mass_kg: PieceKg | None = Field(default=None, description="mass of one, where not that of the device")
    depth_mm: PieceMm | None = Field(
        default=None, description="depth of one towards whoever lifts it, where not that of the device"
    )
    grip: Fact[Literal["good", "fair", "poor"]] = missing(
        "how it can be held: good (handles or cut-outs), fair (fingers bent under its edge) or poor"
    )
    hold_mm: Fact[AboveMm] = missing("height of the hands above its lower edge, 0 where they are under it")
    seat_mm: AboveMm | None = Field(
        default=None,
        description="lower edge of the highest one in its place, above that of the device; of several alike",
    )
