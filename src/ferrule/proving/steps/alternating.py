"""Alternating current: devices into the boards, cables laid, landed and proved, all of it dead."""

from collections.abc import Iterator, Sequence

from ferrule.checks.question import Subject
from ferrule.fact import Unknown
from ferrule.job.boards import Circuit
from ferrule.job.metering import Transformers
from ferrule.job.runs import Run
from ferrule.proving.phrase import Term, Word, Words
from ferrule.proving.steps.plan import Plan, decided, ends
from ferrule.proving.steps.step import Reading, Step

_LANDING = ("tool.stripper", "tool.crimper", "tool.torque_driver")


def steps(plan: Plan, _before: Sequence[Step]) -> Iterator[Step]:
    house = plan.house
    for board in house.job.boards:
        for circuit in board.circuits:
            yield _way(plan, board.id, circuit)
        surge = decided(plan.design.ac_surge, board.id)
        if surge is not None:
            kind: Word = surge if isinstance(surge, Unknown) else surge.type
            yield plan.step(
                "ac", "surge", Subject("board", board.id), [plan.earthed, *plan.dead(board.id)],
                words=(("board", board.id), ("type", kind)), tools=_LANDING, drawing=f"wiring/{board.id}",
            )  # fmt: skip
    for run in plan.ac_runs:
        yield from _run(plan, run)
    for device in house.job.devices:
        sensed = getattr(device, "transformers", None)
        if isinstance(sensed, Transformers):
            yield _transformers(plan, device.id, sensed)


def _way(plan: Plan, board: str, circuit: Circuit) -> Step:
    design, name = plan.design, circuit.id
    rcd = decided(design.rcd, name)
    kept: Word = rcd if isinstance(rcd, Unknown) else Term("rcd.none")
    if rcd is not None and not isinstance(rcd, Unknown):
        kept = Term("rcd.fitted", (("type", rcd.type), ("residual_a", rcd.residual_a)))
    words: Words = (
        ("circuit", name), ("board", board), ("device", Term(f"overcurrent.{circuit.device.kind}")),
        ("rating_a", decided(design.rating_a, name)), ("rcd", kept),
    )  # fmt: skip
    if circuit.device.kind == "mcb":
        words += (("curve", decided(design.curve, name)),)
    else:
        words += (("curve", ""),)
    return plan.step(
        "ac", "way", Subject("circuit", name), [*plan.dead(board), "goods/house"], words=words,
        drawing=f"wiring/{board}", tools=("tool.torque_driver",),
    )  # fmt: skip


def _run(plan: Plan, run: Run) -> Iterator[Step]:
    house, subject = plan.house, Subject("run", run.id)
    words = ends(run)
    size = decided(plan.design.size, run.id)
    cable = house.parts[run.cable].name
    placed, dead = plan.placed(run.start, run.end), plan.dead(run.start, run.end)
    yield plan.step(
        "ac", "lay", subject, ["goods/house", *placed, *dead], parts=(run.cable,),
        words=(*words, ("cable", cable), ("size", size)), drawing="cable-schedule",
        cautions=("caution.drilling",),
    )  # fmt: skip
    circuit = house.circuit_of_run.get(run.id)
    way = [f"way/{circuit.id}"] if circuit else []
    yield plan.step(
        "ac", "land", subject, [f"lay/{run.id}", plan.earthed, *way, *dead], words=words, tools=_LANDING,
        readings=[Reading(f"torque/{run.id}", "reading.torque", "N·m")], drawing="cable-ends",
        cautions=("caution.two_sources",) if run.id in house.two_way else (),
    )  # fmt: skip
    yield plan.step(
        "ac", "prove", subject, [f"land/{run.id}"], words=words, gate="polarity", drawing="wiring/" + run.id,
        tools=("tool.continuity", "tool.insulation"),
        readings=[
            Reading(f"continuity/{run.id}", "reading.continuity", "Ω", (("of", run.id),)),
            Reading(f"insulation/{run.id}", "reading.insulation", "MΩ", (("of", run.id),)),
            Reading(f"polarity/{run.id}", "reading.order", "", (("of", run.id),)),
        ],
    )  # fmt: skip


def _transformers(plan: Plan, device: str, sensed: Transformers) -> Step:
    run, ends = sensed.run, list[str]()
    if not isinstance(run, Unknown):
        ends = plan.dead(plan.house.runs[run].start, plan.house.runs[run].end)
    clamps: Word = sensed.clamps if isinstance(sensed.clamps, Unknown) else tuple(_clamps(sensed))
    return plan.step(
        "ac", "transformers", plan.subject(device), [*plan.placed(device), *ends, *plan.dead(device)],
        words=(("device", device), ("run", run), ("clamps", clamps)), drawing=f"wiring/{device}",
        cautions=("caution.transformers",),
    )  # fmt: skip


def _clamps(sensed: Transformers) -> Iterator[Word]:
    assert not isinstance(sensed.clamps, Unknown)
    for clamp in sensed.clamps:
        arrow: Word = clamp.arrow if isinstance(clamp.arrow, Unknown) else Term(f"arrow.{clamp.arrow}")
        yield Term("clamp", (("channel", clamp.channel), ("line", clamp.line), ("arrow", arrow)))
