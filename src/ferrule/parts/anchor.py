"""The datasheet of an anchor: what it holds in which base, in the one safety style its sheet uses."""

from typing import Annotated, Literal

from pydantic import Field, ValidationError, ValidationInfo, field_validator
from pydantic_core import InitErrorDetails, PydanticCustomError

from ferrule.document import Record
from ferrule.fact import Fact, assumed, missing
from ferrule.quantity import LengthMm, TemperatureC, TimeS, TorqueNM, Unit

Base = Literal[
    "concrete", "solid-brick", "perforated-brick", "hollow-block", "aerated-concrete", "timber", "plywood",
    "metal-frame",
]  # fmt: skip
Interaction = Literal["sum", "linear", "concrete", "steel", "timber"]
Style = Literal["characteristic", "design", "permissible", "mean_failure"]

SizeMm = Annotated[float, Unit("mm", 1, 1_000)]
# A nought is a gap in the sheet; more than 1 MN is a slip of the unit.
HeldN = Annotated[float, Unit("N", 1, 1e6)]
Partial = Annotated[float, Unit("", 1, 5)]

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
    torque_n_m: TorqueNM | None = None
    edge_mm: LengthMm | None = Field(default=None, description="distance to an edge for what it holds")
    spacing_mm: LengthMm | None = Field(default=None, description="distance to a neighbour for what it holds")
    edge_least_mm: LengthMm | None = Field(
        default=None, description="least distance to an edge, held in part"
    )
    spacing_least_mm: LengthMm | None = Field(
        default=None, description="least distance to a neighbour, held in part"
    )
    thickness_least_mm: Fact[LengthMm] = missing("least thickness of the base, from the anchor's sheet")

    @field_validator("edge_least_mm", "spacing_least_mm")
    @classmethod
    def _not_above_the_full(cls, given: float | None, info: ValidationInfo) -> float | None:
        full_mm = info.data.get(str(info.field_name).replace("_least", ""))
        if given is not None and full_mm is not None and given > full_mm:
            raise ValueError(f"not above that for what it holds, which is {full_mm:g} mm")
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
    bases: list[InBase] = Field(min_length=1)

    @field_validator("bases")
    @classmethod
    def _one_style(cls, bases: list[InBase]) -> list[InBase]:
        """A sheet in two styles would sooner or later be read in the wrong one."""
        given = [(at, style) for at, base in enumerate(bases) for style in base.styles]
        first = given[0][1] if given else None
        for at, base in enumerate(bases):
            if not base.styles:
                raise _refused("one of " + ", ".join(STYLES), None, at)
        for at, style in given:
            if style != first:
                raise _refused(f"'{first}' alone, the style of {bases[given[0][0]].base}", style, at, style)
        return bases

    @field_validator("bases")
    @classmethod
    def _each_base_once(cls, bases: list[InBase]) -> list[InBase]:
        names = [base.base for base in bases]
        for at, name in enumerate(names):
            if name in names[:at]:
                raise _refused("each base once", name, at, "base")
        return bases

    def in_base(self, base: str) -> InBase | None:
        """What its sheet says of a base material; None where it does not know it."""
        return next((each for each in self.bases if each.base == base), None)


def _refused(allowed: str, found: str | None, *place: int | str) -> ValidationError:
    """A mistake in one of the bases, told where it stands."""
    error = PydanticCustomError("value_error", "{error}", {"error": allowed})
    return ValidationError.from_exception_data(
        "Anchor", [InitErrorDetails(type=error, loc=place, input=found)]
    )
