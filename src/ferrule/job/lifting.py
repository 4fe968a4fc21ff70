"""How a device comes up to where it hangs or stands."""

from typing import Any, Literal

from pydantic import Field, ValidationInfo, field_validator

from ferrule.document import Record
from ferrule.fact import Decision, Fact, missing, to_choose
from ferrule.quantity import LengthMm

Lifters = Literal["one", "two", "three", "aid"]
Person = Literal["man", "woman"]


class Lifting(Record):
    """How a device is lifted into its place, each of its pieces for itself."""

    by: Decision[Lifters] = to_choose("who lifts it: one, two or three people, or an aid")
    from_mm: Fact[LengthMm] = missing(
        "height of what it is lifted from, a trolley or a bench, above the floor; 0 from the floor itself"
    )
    stands: Fact[Literal["floor", "platform", "ladder"]] = missing(
        "what whoever lifts it stands on: the floor, a platform or scaffold, or a ladder"
    )
    platform_mm: LengthMm | None = Field(
        default=None, description="height of the platform above the floor, where they stand on one"
    )
    cramped: Fact[bool] = missing(
        "whether there is too little room to stand upright before it with the feet apart"
    )

    @field_validator("platform_mm")
    @classmethod
    def _stood_on(cls, given: Any, info: ValidationInfo) -> Any:
        if given is not None and info.data.get("stands") in {"floor", "ladder"}:
            raise ValueError(f"no platform where they stand on a {info.data['stands']}")
        return given
