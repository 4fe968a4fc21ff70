"""The datasheet of an anchor: what it holds in which base, in the one safety style its sheet uses."""

from typing import Annotated, Any, Literal

from pydantic import Field, ValidationInfo, field_validator

from ferrule.document import Record, refused
from ferrule.fact import Fact, assumed, missing
from ferrule.quantity import LengthMm, TemperatureC, TimeS, Unit

Base = Literal[
    "concrete", "solid-brick", "perforated-brick", "hollow-block", "aerated-concrete", "timber", "plywood",
    "metal-frame",
]  # fmt: skip
Interaction = Literal["sum", "linear", "concrete", "steel", "timber"]
Style = Literal["characteristic", "design", "permissible", "mean_failure"]

SizeMm = Annotated[float, Unit("mm", 1, 1_000)]
# A nought is a gap in the sheet; more than 1 MN is a slip of the unit.
HeldN = Annotated[float, Unit("N", 1, 1e6)]
TightenedNM = Annotated[float, Unit("N·m", 0.1, 1_000)]
Partial = Annotated[float, Unit("", 1, 5)]

_MAY_GO_THROUGH = frozenset({"plywood", "metal-frame"})

STYLES: tuple[Style, ...] = ("characteristic", "design", "permissible", "mean_failure")


class Held(Record):
    """What one anchor holds."""

    tension_n: HeldN
    shear_n: HeldN


class Curing(Record):
    """How long resin cures in a dry hole at a temperature of the base and above."""

    from_c: TemperatureC
    time_s: TimeS


class InBase(Record):
    """An anchor in one base material. Just one of the four styles states what it holds."""

    base: Base
    characteristic: Held | None = Field(
        default=None, description="reached by 95 of 100 anchors, no factor in it"
    )
    design: Held | None = Field(default=None, description="with the partial factor of the material in it")
    permissible: Held | None = Field(default=None, description="recommended load, all factors in it")
    mean_failure: Held | None = Field(default=None, description="mean load at failure in tests")
    partial_factor: Partial | None = Field(
        default=None, description="what a characteristic resistance is divided by, where the sheet states it"
    )
    hole_mm: SizeMm = Field(description="diameter of the hole")
    depth_mm: SizeMm = Field(
        description="depth of the hole in the base itself; of a screw, its thread in the wood"
    )
    torque_n_m: TightenedNM | None = Field(default=None, description="left out where nothing is tightened")
    edge_mm: SizeMm | None = Field(default=None, description="distance to an edge for what it holds")
    spacing_mm: SizeMm | None = Field(default=None, description="distance to a neighbour for what it holds")
    edge_least_mm: SizeMm | None = Field(default=None, description="least distance to an edge, held in part")
    spacing_least_mm: SizeMm | None = Field(
        default=None, description="least distance to a neighbour, held in part"
    )
    thickness_least_mm: Fact[SizeMm] = missing("least thickness of the base, from the anchor's sheet")

    @field_validator("edge_least_mm", "spacing_least_mm")
    @classmethod
    def _not_above_the_full(cls, given: float | None, info: ValidationInfo) -> float | None:
        full_mm = info.data.get(str(info.field_name).replace("_least", ""))
        if given is not None and full_mm is not None and given > full_mm:
            raise ValueError(f"not above that for what it holds, which is {full_mm:g} mm")
        return given

    @field_validator("thickness_least_mm")
    @classmethod
    def _not_less_than_the_hole(cls, given: Any, info: ValidationInfo) -> Any:
        """A screw may go through a plate; a hole that goes through a wall holds nothing."""
        depth_mm = info.data.get("depth_mm")
        in_plate = info.data.get("base") in _MAY_GO_THROUGH
        if isinstance(given, float) and depth_mm is not None and given < depth_mm and not in_plate:
            raise ValueError(f"not below the depth of the hole, which is {depth_mm:g} mm")
        return given

    @property
    def styles(self) -> list[Style]:
        """The styles in which it states what it holds."""
        return [style for style in STYLES if getattr(self, style) is not None]

    @property
    def held(self) -> Held:
        """What it holds, in its own style."""
        held: Held = getattr(self, self.styles[0])
        return held


class Anchor(Record):
    """An anchor, or a screw for timber, of one size."""

    id: str
    kind: Literal["anchor"]
    name: str
    source: str
    family: Literal["metal", "plastic"]
    holds_by: Literal["expansion", "plug", "resin", "thread"] = Field(
        description="what keeps it in its hole; a plug is long and of plastic, a thread cuts wood"
    )
    diameter_mm: SizeMm = Field(description="of its bolt or screw")
    clamps_mm: LengthMm = Field(
        description="most that may lie between its head and the base: bracket and lining"
    )
    interaction: Interaction = assumed(
        "sum", "where an anchor's sheet does not say, the shares of pull and shear may add up to 1"
    )
    cleaning: str | None = Field(default=None, description="how its hole is cleaned, where the sheet says")
    curing: Fact[list[Curing]] = missing("curing times of the resin by temperature, from the cartridge")
    sets_upto_c: Fact[TemperatureC] = missing("hottest wall the resin may be set in, from the cartridge")
    bases: list[InBase] = Field(min_length=1)

    @field_validator("sets_upto_c")
    @classmethod
    def _above_the_coldest(cls, given: Any, info: ValidationInfo) -> Any:
        curing = info.data.get("curing")
        if isinstance(given, float) and isinstance(curing, list):
            hottest_c = max((row.from_c for row in curing), default=given)
            if given < hottest_c:
                raise ValueError(f"not below the last of its curing times, which is from {hottest_c:g} °C on")
        return given

    @field_validator("bases")
    @classmethod
    def _hole_for_its_screw(cls, bases: list[InBase], info: ValidationInfo) -> list[InBase]:
        """What expands or is set in resin goes into its hole; a thread bites beside a smaller one alone."""
        diameter_mm, holds_by = info.data.get("diameter_mm"), info.data.get("holds_by")
        if diameter_mm is None or holds_by is None:
            return bases
        for at, base in enumerate(bases):
            if holds_by != "thread" and base.hole_mm < diameter_mm:
                raise refused(
                    "Anchor", f"not below its diameter, which is {diameter_mm:g} mm", f"{base.hole_mm:g} mm",
                    at, "hole",
                )  # fmt: skip
            if holds_by == "thread" and base.hole_mm > diameter_mm:
                raise refused(
                    "Anchor", f"not above its diameter, which is {diameter_mm:g} mm", f"{base.hole_mm:g} mm",
                    at, "hole",
                )  # fmt: skip
        return bases

    @field_validator("bases")
    @classmethod
    def _one_style(cls, bases: list[InBase]) -> list[InBase]:
        """A sheet in two styles would sooner or later be read in the wrong one."""
        given = [(at, style) for at, base in enumerate(bases) for style in base.styles]
        first = given[0][1] if given else None
        for at, base in enumerate(bases):
            if not base.styles:
                raise refused("Anchor", "one of " + ", ".join(STYLES), None, at)
        for at, style in given:
            if style != first:
                raise refused(
                    "Anchor", f"'{first}' alone, the style of {bases[given[0][0]].base}", style, at, style
                )
        return bases

    @field_validator("bases")
    @classmethod
    def _each_base_once(cls, bases: list[InBase]) -> list[InBase]:
        names = [base.base for base in bases]
        for at, name in enumerate(names):
            if name in names[:at]:
                raise refused("Anchor", "each base once", name, at, "base")
        return bases

    def in_base(self, base: str) -> InBase | None:
        """What its sheet says of a base material; None where it does not know it."""
        return next((each for each in self.bases if each.base == base), None)
