"""What is left behind: labels, records, and people who can switch it off."""

from collections.abc import Iterator, Sequence

from ferrule.checks.question import Subject
from ferrule.proving.steps.plan import Plan
from ferrule.proving.steps.step import Reading, Step

_WHOLE = Subject("installation", "house")


def steps(plan: Plan, before: Sequence[Step]) -> Iterator[Step]:
    yield plan.step(
        "handover", "warm", _WHOLE, ["restored/house"], tools=("tool.infrared",),
        readings=[Reading("warm/house", "reading.warm", "°C")],
    )  # fmt: skip
    yield plan.step("handover", "labels", _WHOLE, ["restored/house"], drawing="label-schedule")
    yield plan.step("handover", "printed", _WHOLE, ["restored/house"])
    yield plan.step("handover", "explained", _WHOLE, ["restored/house"], drawing="shut-down-card")
    done = ["warm/house", "labels/house", "printed/house", "explained/house", *(step.id for step in before)]
    yield plan.step("handover", "state", _WHOLE, done, gate="licensed")
