"""Strings: joined on the roof, each proved at its free ends, and only then plugged in, its switch open."""

from collections.abc import Iterator, Sequence

from ferrule.checks.question import Subject
from ferrule.fact import Unknown
from ferrule.job.array import PvString
from ferrule.job.runs import Run
from ferrule.proving.phrase import Term, Words
from ferrule.proving.steps.plan import Plan, decided, ends
from ferrule.proving.steps.step import Reading, Step

_CAUTIONS = ("caution.modules_live", "caution.plugs")


def steps(plan: Plan, _before: Sequence[Step]) -> Iterator[Step]:
    for terminal in plan.house.inputs:
        yield _gear(plan, terminal)
    for string in plan.house.job.strings:
        yield from _made(plan, string)
    for terminal, together in plan.house.inputs.items():
        for string in together:
            yield _plugged(plan, terminal, string, [each.id for each in together])


def _gear(plan: Plan, terminal: str) -> Step:
    """The switch of an input, with fuses and surge protection, all open."""
    inverter = terminal.partition(".")[0]
    isolator = decided(plan.design.isolator, terminal)
    surge = decided(plan.design.dc_surge, terminal)
    fuses = [decided(plan.design.fuse, s.id) for s in plan.house.inputs[terminal]]
    fuse = next((each for each in fuses if each is not None), None)
    words: Words = (
        ("input", terminal),
        ("isolator", isolator if isinstance(isolator, Unknown) else Term(
            "isolator.built_in" if isolator == "built-in" else "isolator.separate")),
        ("surge", surge if isinstance(surge, Unknown) else Term(
            "surge.none") if surge is None else Term("surge.fitted", (("type", surge.type),))),
        ("fuse", fuse if isinstance(fuse, Unknown) else Term(
            "fuse.none") if fuse is None else Term("fuse.fitted", (("rating_a", fuse.rating_a),))),
    )  # fmt: skip
    return plan.step(
        "strings", "gear", Subject("input", terminal), [*plan.placed(inverter), plan.earthed], words=words,
        drawing=f"wiring/{inverter}", tools=("tool.torque_driver", "tool.lock"),
    )  # fmt: skip


def _made(plan: Plan, string: PvString) -> Iterator[Step]:
    subject, own, face = Subject("string", string.id), (("string", string.id),), string.face
    drawing = f"strings/{face}"
    yield plan.step(
        "strings", "string", subject, [f"rails/{face}", f"unpack/{string.id}", plan.earthed],
        words=(*own, ("modules", string.modules), ("face", face)), parts=(string.module,), drawing=drawing,
        cautions=("caution.height", "caution.weather", *_CAUTIONS),
    )  # fmt: skip
    runs = [run for run in plan.house.job.runs if run.start == string.id]
    for run in runs:
        yield from _home(plan, string, run)
    made = [f"home/{run.id}" for run in runs] or [f"string/{string.id}"]
    yield plan.step(
        "strings", "polarity", subject, made, gate="polarity", drawing=drawing, cautions=_CAUTIONS,
        words=(*own, ("input", string.input), ("modules", string.modules)), at="wall",
        text="step.polarity_string",
        tools=("tool.dc_meter", "tool.thermometer", "tool.irradiance"), readings=[
            Reading(f"voltage/{string.id}", "reading.open_voltage", "V", (("of", string.id),)),
            Reading(f"polarity/{string.id}", "reading.polarity", "", (("of", string.id),)),
            Reading(f"cell/{string.id}", "reading.cell", "°C", (("of", string.id),)),
            Reading(f"irradiance/{string.id}", "reading.irradiance", "W/m²", (("of", string.id),)),
        ],
    )  # fmt: skip
    yield plan.step(
        "strings", "insulation", subject, [f"polarity/{string.id}"], gate="licensed", words=own, at="wall",
        drawing=drawing, tools=("tool.pv_insulation",), cautions=("caution.insulation_test", *_CAUTIONS),
        readings=[
            Reading(f"insulation/{string.id}/{pole}", "reading.pole", "MΩ",
                    (("of", string.id), ("pole", sign)))
            for pole, sign in (("plus", "+"), ("minus", "−"))
        ],
    )  # fmt: skip


def _home(plan: Plan, string: PvString, run: Run) -> Iterator[Step]:
    """The lead of a string: its plugs are made while it is dead, and it is joined to the string last."""
    subject, face, cable = Subject("run", run.id), string.face, plan.house.parts[run.cable].name
    yield plan.step(
        "strings", "lay", subject, ["goods/house", f"rails/{face}", *plan.placed(run.end)], at="roof",
        words=(*ends(run), ("cable", cable), ("size", decided(plan.design.size, run.id))),
        parts=(run.cable,), drawing=f"strings/{face}", cautions=("caution.height",),
    )  # fmt: skip
    yield plan.step(
        "strings", "crimp", subject, [f"lay/{run.id}", plan.earthed], words=ends(run), drawing="cable-ends",
        tools=("tool.stripper", "tool.plug_crimper"), cautions=_CAUTIONS,
        readings=[Reading(f"pull/{run.id}", "reading.pull", "")],
    )  # fmt: skip
    yield plan.step(
        "strings", "home", subject, [f"crimp/{run.id}", f"string/{string.id}", f"gear/{string.input}"],
        at="roof", words=(*ends(run), ("string", string.id)), drawing=f"strings/{face}",
        cautions=("caution.height", *_CAUTIONS),
    )  # fmt: skip


def _plugged(plan: Plan, terminal: str, string: PvString, together: list[str]) -> Step:
    """No string is plugged in before all that share its input are proved: one turned round would drive the
    others.
    """
    before: list[str] = [f"polarity/{each}" for each in together]
    words: Words = (("string", string.id), ("input", terminal))
    return plan.step(
        "strings", "plug", Subject("string", string.id), [*before, f"insulation/{string.id}",
        f"gear/{terminal}", *plan.placed(terminal)], at="wall", words=words, cautions=_CAUTIONS,
        drawing=f"wiring/{terminal.partition('.')[0]}",
    )  # fmt: skip
