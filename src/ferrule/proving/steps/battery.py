"""The battery's leads: switched off, landed at the battery, proved, and only then joined to the inverter."""

from collections.abc import Iterator, Sequence

from ferrule.checks.question import Subject
from ferrule.fact import Unknown
from ferrule.job.devices import BatteryDevice
from ferrule.job.runs import Run
from ferrule.proving import told
from ferrule.proving.isolation import isolation
from ferrule.proving.phrase import Term, Word
from ferrule.proving.steps.plan import Plan, decided, ends
from ferrule.proving.steps.step import Reading, Step

_CAUTIONS = ("caution.battery", "caution.jewellery")


def steps(plan: Plan, _before: Sequence[Step]) -> Iterator[Step]:
    for device in plan.house.job.devices:
        if isinstance(device, BatteryDevice):
            yield from _battery(plan, device)


def _battery(plan: Plan, device: BatteryDevice) -> Iterator[Step]:
    battery, part = device.id, plan.design.battery(device.id)
    subject, own = plan.subject(battery), (("battery", battery),)
    record = next(record for record in isolation(plan.design) if record.area == subject)
    feeds = [feed for feed in record.feeds if feed.source == battery]
    opened: tuple[Word, ...] = tuple(told.point(point) for feed in feeds for point in feed.points)
    yield plan.step(
        "battery", "off", subject, [plan.earthed, *plan.placed(battery)], cautions=_CAUTIONS, words=(
            *own, ("points", opened or Term("point.none")),
        ), tools=("tool.lock", "tool.insulated"), drawing="single-line", gate="licensed",
    )  # fmt: skip
    last = f"off/{battery}"
    if device.packs > 1:
        yield plan.step(
            "battery", "packs", subject, [last], words=(*own, ("packs", device.packs)), gate="licensed",
            tools=("tool.meter", "tool.insulated"), cautions=_CAUTIONS, readings=[
                Reading(f"pack/{battery}/{at}", "reading.pack", "V", (("battery", battery), ("pack", at)))
                for at in range(1, device.packs + 1)
            ],
        )  # fmt: skip
        last = f"packs/{battery}"
    runs = plan.battery_runs(battery)
    for run in runs:
        yield from _leads(plan, battery, run, last)
    yield plan.step(
        "battery", "polarity", subject, [f"join/{run.id}" for run in runs] or [last], gate="polarity",
        words=(*own, ("voltage_nominal_v", part.voltage_nominal_v), ("asleep_v", part.asleep_v)),
        tools=("tool.dc_meter", "tool.insulated"), cautions=_CAUTIONS, drawing="single-line",
        text="step.polarity_battery",
        readings=[
            Reading(f"voltage/{battery}", "reading.voltage", "V", (("of", battery),)),
            Reading(f"polarity/{battery}", "reading.polarity", "", (("of", battery),)),
        ],
    )  # fmt: skip
    if runs:
        far = [end for run in runs for end in (run.start, run.end) if end != battery]
        yield plan.step(
            "battery", "connect", subject, [f"polarity/{battery}", *plan.placed(*far)], cautions=_CAUTIONS,
            words=(*own, ("ends", tuple(dict.fromkeys(far)))), drawing="cable-ends",
            tools=("tool.torque_wrench", "tool.insulated"),
        )  # fmt: skip


def _leads(plan: Plan, battery: str, run: Run, last: str) -> Iterator[Step]:
    """A battery's leads, landed at its own end only."""
    subject, cable = Subject("run", run.id), plan.house.parts[run.cable].name
    yield plan.step(
        "battery", "lay", subject, ["goods/house", last, *plan.placed(run.start, run.end)],
        words=(*ends(run), ("cable", cable), ("size", decided(plan.design.size, run.id))),
        parts=(run.cable,), drawing="cable-schedule",
    )  # fmt: skip
    yield plan.step(
        "battery", "join", subject, [f"lay/{run.id}", plan.earthed], cautions=_CAUTIONS,
        words=(*ends(run), ("battery", battery), ("protection", _protection(plan, battery))),
        drawing="cable-ends", tools=("tool.crimper", "tool.torque_wrench", "tool.insulated"),
        readings=[Reading(f"torque/{run.id}", "reading.torque", "N·m")],
    )  # fmt: skip


def _protection(plan: Plan, battery: str) -> Word:
    found = decided(plan.design.battery_protection, battery)
    if isinstance(found, Unknown):
        return found
    kind, _, its = found.kind.partition("-")
    return Term(f"protection.{kind}", (("type", its), ("rating_a", found.rating_a)))
