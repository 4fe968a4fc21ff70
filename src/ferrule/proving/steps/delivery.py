"""Before anything is carried in: who is in charge, and whether what was ordered is what came."""

from collections.abc import Iterator, Sequence

from ferrule.checks.question import Subject
from ferrule.proving.steps.plan import Plan
from ferrule.proving.steps.step import Reading, Step

#: stands before every other caution
LOCAL_RULES = "caution.local_rules"

_WALK = "walk/house"


def steps(plan: Plan, _before: Sequence[Step]) -> Iterator[Step]:
    house = plan.house
    whole = Subject("installation", "house")
    yield plan.step(
        "delivery", "walk", whole, at="outside", gate="licensed",
        words=(("place", house.job.site.place),), cautions=(LOCAL_RULES, "caution.weather"),
    )  # fmt: skip
    for device in house.job.devices:
        yield plan.step(
            "delivery", "deliver", plan.subject(device.id), [_WALK], at="outside", drawing="order-list",
            parts=(device.part,), words=(("device", device.id), ("part", house.parts[device.part].name)),
            readings=[Reading(f"serial/{device.id}", "reading.serial", "", (("device", device.id),))],
            cautions=("caution.lifting",),
        )  # fmt: skip
    for string in house.job.strings:
        module = house.parts[string.module].name
        yield plan.step(
            "delivery", "unpack", Subject("string", string.id), [_WALK], at="outside", drawing="order-list",
            parts=(string.module,),
            words=(("string", string.id), ("modules", string.modules), ("module", module)),
            cautions=("caution.modules_live", "caution.lifting"),
        )  # fmt: skip
    yield plan.step(
        "delivery", "goods", whole, [_WALK], at="outside", drawing="order-list",
        parts=tuple(dict.fromkeys(run.cable for run in house.job.runs)),
    )  # fmt: skip
