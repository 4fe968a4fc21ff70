"""Earth comes first: before any live conductor is landed, all that is to be earthed is, and is measured."""

from collections.abc import Iterator, Sequence

from ferrule.checks.question import Subject
from ferrule.proving.phrase import Term, Words
from ferrule.proving.steps.plan import Plan, decided
from ferrule.proving.steps.step import Reading, Step

#: the devices with a body that is joined to earth
_BODIES = ("inverter", "battery", "changeover", "controller", "generator")
_EARTHING = "earthing/earth"


def steps(plan: Plan, _before: Sequence[Step]) -> Iterator[Step]:
    own = [_conductor(plan), *_bonds(plan), *_bodies(plan)]
    yield from own
    yield plan.step(
        "earth", "earthed", Subject("earth", "earth"), [step.id for step in own], gate="licensed",
        drawing="earthing", tools=("tool.continuity",),
    )  # fmt: skip


def _conductor(plan: Plan) -> Step:
    size = decided(plan.design.earthing_size)
    return plan.step(
        "earth", "earthing", Subject("earth", "earth"), ["walk/house", *plan.records], drawing="earthing",
        words=(("size", size),), tools=("tool.earth_tester",),
        readings=[Reading("electrode/earth", "reading.electrode", "Ω")],
    )  # fmt: skip


def _bonds(plan: Plan) -> Iterator[Step]:
    for bond in plan.house.job.earth.bonding:
        subject, array = Subject("bonding", bond.id), bond.role == "array"
        faces = dict.fromkeys(string.face for string in plan.house.job.strings)
        rails = [f"rails/{face}" for face in faces] if array else []
        size = decided(plan.design.bonding_size, bond.id)
        words: Words = (("bond", bond.id), ("to", Term(f"metal.{bond.to}")), ("size", size))
        yield plan.step(
            "earth", "bond", subject, [_EARTHING, *rails], at="roof" if array else "", words=words,
            drawing="earthing", tools=("tool.continuity",), readings=[_continuity(bond.id)],
            cautions=("caution.height",) if array else (),
        )  # fmt: skip


def _bodies(plan: Plan) -> Iterator[Step]:
    for device in plan.house.job.devices:
        if device.kind in _BODIES:
            yield plan.step(
                "earth", "earth", plan.subject(device.id), [_EARTHING, *plan.placed(device.id)],
                words=(("device", device.id),), drawing="earthing", tools=("tool.continuity",),
                readings=[_continuity(device.id)],
            )  # fmt: skip


def _continuity(of: str) -> Reading:
    return Reading(f"continuity/{of}", "reading.continuity", "Ω", (("of", of),))
