"""Who and what is there to lift with, and how a device comes up to where it hangs or stands."""

from typing import Annotated, Any, Literal

from pydantic import Field, StringConstraints, ValidationInfo, field_validator

from ferrule.document import Record
from ferrule.fact import Decision, Fact, missing, to_choose
from ferrule.quantity import Unit

Lifters = Literal["one", "two", "three", "aid"]
Person = Literal["man", "woman"]
Crew = Annotated[list[Person], Field(min_length=1, max_length=20)]

# Nothing of a house is lifted from higher than a lorry's bed, nor hung from higher than a scaffold.
StartMm = Annotated[float, Unit("mm", 0, 3_000)]
PlatformMm = Annotated[float, Unit("mm", 50, 10_000)]
RatedKg = Annotated[float, Unit("kg", 1, 5_000)]
AidName = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1)]
ReachMm = Annotated[float, Unit("mm", 0, 15_000)]


class LiftingAid(Record):
    """Something that lifts or carries in place of people: a hoist, a lifting frame, a stair climber."""

    name: AidName
    load_kg: Fact[RatedKg] = missing("rated load of the lifting aid, from its plate")
    reach_mm: Fact[ReachMm] = missing(
        "how high above the floor the lifting aid sets a load down, its lower edge; 0 where it only carries"
    )


class Lifting(Record):
    """How a device is lifted into its place, each of its pieces for itself."""

    by: Decision[Lifters] = to_choose("who lifts it: one, two or three people, or an aid")
    from_mm: Fact[StartMm] = missing(
        "height of what it is lifted from, a trolley or a bench, above the floor; 0 from the floor itself"
    )
    stands: Fact[Literal["floor", "platform", "ladder"]] = missing(
        "what whoever lifts it stands on: the floor, a platform or scaffold, or a ladder"
    )
    platform_mm: PlatformMm | None = Field(
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
