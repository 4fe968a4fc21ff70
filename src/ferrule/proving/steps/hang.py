"""Devices and rails go up and are made fast."""

from collections.abc import Iterator, Sequence

from ferrule.checks.question import Subject
from ferrule.checks.subjects import faces
from ferrule.fact import Unknown
from ferrule.job.devices import Device
from ferrule.proving.phrase import named
from ferrule.proving.steps.mark import drilled
from ferrule.proving.steps.plan import Plan, decided
from ferrule.proving.steps.step import Reading, Step


def steps(plan: Plan, before: Sequence[Step]) -> Iterator[Step]:
    there = {step.id for step in before}
    for device in plan.house.job.devices:
        if hasattr(device, "at"):
            yield from _hung(plan, device)
        else:
            yield _fitted(plan, device)
    for subject in faces(plan.design):
        face = plan.house.faces[subject.id]
        goods = [f"unpack/{string.id}" for string in plan.house.job.strings if string.face == face.id]
        looked = [step for step in (f"access/{face.id}", f"look/{face.id}") if step in there]
        mount = face.mount if isinstance(face.mount, Unknown) else plan.house.parts[face.mount].name
        yield plan.step(
            "hang", "rails", Subject("face", face.id), [*looked, *goods], drawing=f"array/{face.id}",
            words=(("face", face.id), ("mount", mount)), tools=("tool.drill", "tool.torque_wrench"),
            parts=() if isinstance(face.mount, Unknown) else (face.mount,),
            readings=[Reading(f"torque/{face.id}", "reading.torque", "N·m")],
            cautions=("caution.height", "caution.weather"),
        )  # fmt: skip


def _hung(plan: Plan, device: Device) -> Iterator[Step]:
    subject = plan.subject(device.id)
    last = f"drill/{device.id}" if drilled(plan, device.id) else f"mark/{device.id}"
    body = plan.house.parts[device.part].body
    lifters = decided(plan.design.lifters, device.id)
    yield plan.step(
        "hang", "hang", subject, [last], drawing=f"drilling/{device.id}", parts=(device.part,),
        words=(("device", device.id), ("mass_kg", body.mass_kg), ("lifters", named("lift", lifters))),
        cautions=("caution.lifting",),
    )  # fmt: skip
    yield plan.step(
        "hang", "secure", subject, [f"hang/{device.id}"], drawing=f"drilling/{device.id}",
        words=(("device", device.id),), tools=("tool.torque_wrench", "tool.level"), gate="licensed",
        readings=[Reading(f"torque/{device.id}", "reading.torque", "N·m")],
    )  # fmt: skip


def _fitted(plan: Plan, device: Device) -> Step:
    """What sits in a board, in another device or outdoors needs no mark on a wall."""
    return plan.step(
        "hang", "secure", plan.subject(device.id), [f"deliver/{device.id}", *plan.dead(device.id)],
        text="step.fit",
        words=(("device", device.id),), parts=(device.part,), drawing=f"wiring/{device.id}",
    )  # fmt: skip
