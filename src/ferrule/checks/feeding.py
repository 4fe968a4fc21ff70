"""The inverters that feed into the network: along which runs, into which lines, with how much."""

import math
from collections.abc import Iterable
from typing import NamedTuple

from ferrule.checks.current import lines_at
from ferrule.checks.subjects import feeding_inverters
from ferrule.design import Design
from ferrule.fact import known
from ferrule.working import Trace


class Feed(NamedTuple):
    """An inverter at its most: its runs from the network, its line conductors, its current in each."""

    inverter: str
    runs: tuple[str, ...]
    lines: tuple[str, ...]
    current_a: float

    def on(self, line: str) -> bool:
        """Whether it feeds into this line."""
        return line in self.lines


def feeds(design: Design) -> list[Feed]:
    """Every inverter that the network reaches. Raises `Missing` where a largest current is not known."""
    return [feed(design, subject.id) for subject in feeding_inverters(design)]


def feed(design: Design, inverter: str) -> Feed:
    runs = design.house.upstream(f"{inverter}.grid") or ()
    current_a = known(design.inverter(inverter).grid.current_max_a)
    return Feed(inverter, runs, inverter_lines(design, inverter), current_a)


def inverter_lines(design: Design, inverter: str) -> tuple[str, ...]:
    """The line conductors of an inverter: one phase takes one line, or the two of a split-phase supply.
    Where nobody says which of three, the first.
    """
    lines = lines_at(design.house, f"{inverter}.grid")
    return lines[:1] if design.inverter(inverter).phases == "1" and len(lines) > 2 else lines


def most_fed_in_a(design: Design, feeds: Iterable[Feed], t: Trace) -> float:
    """What these inverters feed into the line that gets most, in A."""
    feeds = tuple(feeds)
    return max(
        t.given("fed_in_a", math.fsum(feed.current_a for feed in feeds if feed.on(line)), line)
        for line in design.house.voltages_v
    )
