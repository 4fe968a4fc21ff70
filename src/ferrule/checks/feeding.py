"""The inverters that feed into the network: along which runs, into which line, with how much."""

import math
from collections.abc import Iterable
from typing import NamedTuple

from ferrule.checks.protection import lines_of
from ferrule.checks.subjects import feeding_inverters
from ferrule.design import Design
from ferrule.fact import known
from ferrule.working import Trace


class Feed(NamedTuple):
    """An inverter at its most: its runs from the network, its line (None for all three), its current."""

    inverter: str
    runs: tuple[str, ...]
    line: str | None
    current_a: float

    def on(self, line: str) -> bool:
        """Whether it feeds into this line."""
        return self.line in {None, line}


def feeds(design: Design) -> list[Feed]:
    """Every inverter that the network reaches. Raises `Missing` where a largest current is not known."""
    return [feed(design, subject.id) for subject in feeding_inverters(design)]


def feed(design: Design, inverter: str) -> Feed:
    house, part = design.house, design.inverter(inverter)
    runs = house.upstream(f"{inverter}.grid") or ()
    line = lines_of(house, runs[-1])[0] if part.phases == "1" else None
    return Feed(inverter, runs, line, known(part.grid.current_max_a))


def most_fed_in_a(design: Design, feeds: Iterable[Feed], t: Trace) -> float:
    """What these inverters feed into the line that gets most, in A."""
    feeds = tuple(feeds)
    return max(
        t.given("fed_in_a", math.fsum(feed.current_a for feed in feeds if feed.on(line)), line)
        for line in design.house.voltages_v
    )
