"""What the phases of a day ask of a job while they write down their steps."""

from collections.abc import Callable, Iterable
from functools import cached_property
from typing import TypeVar

from ferrule.checks.question import Subject
from ferrule.checks.subjects import place
from ferrule.design import Design, House
from ferrule.fact import Missing, Unknown
from ferrule.job.runs import Run
from ferrule.proving.isolation import Record, isolation
from ferrule.proving.phrase import Words, spot
from ferrule.proving.steps.step import Gate, Phase, Reading, Step

T = TypeVar("T")


class Plan:
    """A design, and the look-ups that several phases share."""

    def __init__(self, design: Design) -> None:
        self.design = design

    @property
    def house(self) -> House:
        return self.design.house

    @cached_property
    def records(self) -> dict[str, Record]:
        """The isolation records that can be written before anything new is connected, by the step that
        proves them dead.
        """
        kinds = {"supply", "board", "meter", "controller"}
        return {f"dead/{each.area.id}": each for each in isolation(self.design) if each.area.kind in kinds}

    def step(
        self,
        phase: Phase,
        done: str,
        subject: Subject,
        requires: Iterable[str] = (),
        *,
        at: str = "",
        text: str = "",
        tools: tuple[str, ...] = (),
        parts: tuple[str, ...] = (),
        drawing: str = "",
        readings: Iterable[Reading] = (),
        gate: Gate | None = None,
        cautions: tuple[str, ...] = (),
        words: Words = (),
    ) -> Step:
        """A step of which the id is made of what is done and whose it is; at the place of its subject and in
        the words for what is done, unless said otherwise.
        """
        return Step(
            f"{done}/{subject.id}", text or f"step.{done}", phase, at or place(self.house, subject), subject,
            tuple(dict.fromkeys(requires)), words, tools, parts, drawing, tuple(readings), gate, cautions,
        )  # fmt: skip

    def subject(self, device: str) -> Subject:
        return Subject(self.house.devices[device].kind, device)

    # Which steps stand before others

    def dead(self, *terminals: str) -> list[str]:
        """The proofs that what stands there already is dead."""
        found = (f"dead/{terminal.partition('.')[0]}" for terminal in terminals)
        return [step for step in found if step in self.records]

    def placed(self, *terminals: str) -> list[str]:
        """The steps that put the devices of these terminals in their place."""
        devices = (terminal.partition(".")[0] for terminal in terminals)
        return [f"secure/{device}" for device in dict.fromkeys(devices) if device in self.house.devices]

    @cached_property
    def earthed(self) -> str:
        """The proof that all that is to be earthed is."""
        return "earthed/earth"

    # Runs

    @cached_property
    def ac_runs(self) -> tuple[Run, ...]:
        """The runs of alternating current, those the network feeds first."""
        direct = {*self.house.string_runs, *self.house.battery_runs}
        order = {run: at for at, run in enumerate(self.house.ac_runs)}
        runs = [run for run in self.house.job.runs if run.id not in direct]
        return tuple(sorted(runs, key=lambda run: order.get(run.id, len(order))))

    def battery_runs(self, battery: str) -> list[Run]:
        return [self.house.runs[run] for run, owner in self.house.battery_runs.items() if owner == battery]

    def batteries_of(self, inverter: str) -> list[str]:
        """The batteries that a run joins to an inverter."""
        return [
            battery
            for run, battery in self.house.battery_runs.items()
            if f"{inverter}.battery" in (self.house.runs[run].start, self.house.runs[run].end)
        ]

    def strings_of(self, inverter: str) -> list[str]:
        return [string.id for string in self.house.job.strings if string.input.startswith(f"{inverter}.")]

    @cached_property
    def inverters(self) -> list[str]:
        return [device.id for device in self.house.job.devices if device.kind == "inverter"]


def decided(work: Callable[..., T], *of: object) -> T | Unknown:
    """What was given or chosen, or what has to be found out before it can be chosen."""
    try:
        return work(*of)
    except Missing as missing:
        return Unknown("; ".join(missing.asks))


def ends(run: Run) -> Words:
    """A run and where it begins and ends."""
    return (("run", run.id), ("start", spot(run.start)), ("end", spot(run.end)))
