"""What a survey finds of a roof plane, and how modules lie on it.

Positions on a plane are seen by a person who faces the house: from its left edge, from the eaves up.
"""

from typing import Annotated, Any, Literal

from pydantic import Field, ValidationInfo, field_validator

from ferrule.document import Record
from ferrule.fact import Fact, missing
from ferrule.job.places import Spot
from ferrule.parts.mount import Covering, Structure
from ferrule.quantity import LengthMm, Unit

Rows = Annotated[int, Unit("", 1, 20, whole=True)]
Columns = Annotated[int, Unit("", 1, 60, whole=True)]
Year = Annotated[int, Unit("", 1_000, 2_100, whole=True)]
SpacingMm = Annotated[float, Unit("mm", 50, 5_000)]


class Roof(Record):
    """A roof plane as the survey found it, from outside and from inside."""

    width_mm: Fact[LengthMm] = missing("width of the plane along the eaves, measured")
    height_mm: Fact[LengthMm] = missing("height of the plane along the slope, from eaves to ridge")
    structure: Fact[Structure] = missing(
        "what takes the hooks or clamps: rafters, trusses, purlins, sheet-ribs, seams or concrete"
    )
    spacing_mm: Fact[SpacingMm] = missing(
        "spacing of what takes the hooks, middle to middle; on concrete, of the hooks themselves"
    )
    first_mm: Fact[LengthMm] = missing(
        "from the left edge of the plane to the middle of the first of them; on concrete, to the first hook"
    )
    covering: Fact[Covering] = missing("what the roof is covered with")
    laid_year: Fact[Year] = missing("the year in which the covering was laid")
    surveyed_year: Fact[Year] = missing("the year of the survey")
    asbestos: Fact[Literal["none", "suspected", "tested-clear"]] = missing(
        "whether the covering or what lies under it may contain asbestos; a laboratory tells"
    )
    condition: Fact[Literal["sound", "repair"]] = missing(
        "whether timber and covering are sound: no rot, no cracks, no leaks"
    )
    wind_zone: Fact[str] = missing("wind zone of the place, in the words of the mount's table")
    snow_zone: Fact[str] = missing("snow zone of the place, in the words of the mount's table")

    @field_validator("surveyed_year")
    @classmethod
    def _not_before_it_was_laid(cls, given: Any, info: ValidationInfo) -> Any:
        laid = info.data.get("laid_year")
        if isinstance(given, int) and isinstance(laid, int) and given < laid:
            raise ValueError(f"not before laid_year, which is {laid}")
        return given

    services: Fact[Literal["clear", "marked"]] = missing(
        "look under the covering for cables, pipes and membranes before any drilling: clear, or marked"
    )
    keep_clear: list[Spot] = Field(
        default=[],
        description="where cables and pipes run under the covering, from the left edge and from the eaves, "
        "each with a margin for the plate of a hook",
    )
    entry: Fact[Literal["made-for-it", "existing", "none"]] = missing(
        "how the cables enter: through a tile or sleeve made for it, an existing duct, or none found yet"
    )
    access: Fact[Literal["scaffold", "platform", "ladder"]] = missing(
        "how people get up: scaffold, platform or ladder"
    )
    fall_protection: Fact[Literal["scaffold", "edge-guard", "nets", "anchors", "none"]] = missing(
        "what keeps people from falling, also through the roof: scaffold, edge-guard, nets, anchors or none"
    )


class Block(Record):
    """Modules side by side and above each other, on rails along the eaves."""

    id: str
    rows: Rows = Field(description="rows up the slope")
    columns: Columns = Field(description="modules side by side in a row")
    orientation: Literal["portrait", "landscape"]
    left_mm: Fact[LengthMm] = missing("from the left edge of the plane to the block")
    bottom_mm: Fact[LengthMm] = missing("from the eaves to the block")
    low_rail_mm: Fact[LengthMm] = missing("from the lower edge of a module to its lower rail")
    high_rail_mm: Fact[LengthMm] = missing("from the lower edge of a module to its upper rail")
