"""The datasheet of a mounting system: what holds rails and modules to a roof."""

from typing import Annotated, Any, Literal

from pydantic import Field, ValidationInfo, field_validator

from ferrule.document import Record
from ferrule.fact import Fact, missing
from ferrule.quantity import AngleDeg, LengthMm, Unit

Structure = Literal["rafters", "trusses", "purlins", "sheet-ribs", "seams", "concrete"]
Covering = Literal[
    "pantiles", "plain-tiles", "slates", "fibre-cement", "trapezoidal-sheet", "standing-seam", "bitumen",
    "membrane",
]  # fmt: skip
RailMm = Annotated[float, Unit("mm", 100, 20_000)]
Screws = Annotated[int, Unit("", 1, 20, whole=True)]


class Span(Record):
    """Largest distance between hooks along a rail, in one pair of zones and on one structure or all."""

    wind: str = Field(description="wind zone, in the words of the sheet")
    snow: str = Field(description="snow zone, in the words of the sheet")
    structure: Structure | None = Field(
        default=None, description="what takes the hooks, where the sheet has a table for each; else for all"
    )
    hooks_mm: RailMm


class Mount(Record):
    """Hooks, rails and clamps that belong together; its maker's engineer has calculated the spans."""

    id: str
    kind: Literal["mount"]
    name: str
    source: str
    coverings: Fact[list[Covering]] = missing("which coverings the mount is made for, from its sheet")
    structures: Fact[list[Structure]] = missing("what its hooks may be fixed to, from its sheet")
    tilt_low_deg: Fact[AngleDeg] = missing("least tilt the mount is made for")
    tilt_high_deg: Fact[AngleDeg] = missing("largest tilt the mount is made for")
    spans: Fact[list[Span]] = missing("largest distance of its hooks by wind and snow zone, from its table")
    overhang_max_mm: Fact[LengthMm] = missing("how far a rail may stick out beyond its last hook")
    edge_min_mm: Fact[LengthMm] = missing("distance the modules keep from the edges of the roof")
    rail_mm: Fact[RailMm] = missing("length of a rail as delivered")
    rail_end_mm: Fact[LengthMm] = missing("how far a rail reaches beyond the last module")
    gap_mm: Fact[LengthMm] = missing("gap between modules, as its clamps make it")
    screws: Fact[Screws] = missing("how many screws hold a hook")

    @field_validator("spans")
    @classmethod
    def _each_once(cls, given: Any) -> Any:
        rows = [(span.wind, span.snow, span.structure) for span in given] if isinstance(given, list) else []
        if len(set(rows)) < len(rows):
            raise ValueError("each pair of wind and snow zone once")
        if any(structure and (wind, snow, None) in rows for wind, snow, structure in rows):
            raise ValueError("in each pair of zones either one row for all structures, or one for each")
        return given

    @field_validator("tilt_high_deg")
    @classmethod
    def _not_below(cls, given: Any, info: ValidationInfo) -> Any:
        low_deg = info.data.get("tilt_low_deg")
        if isinstance(given, float) and isinstance(low_deg, float) and given < low_deg:
            raise ValueError(f"not below tilt_low, which is {low_deg:g}°")
        return given
