"""The inverters that feed into the network: along which runs, into which line, with how much."""

from typing import NamedTuple

from ferrule.checks.subjects import feeding_inverters
from ferrule.design import Design
from ferrule.fact import known


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
    circuits = [house.circuit_of_run[run] for run in runs if run in house.circuit_of_run]
    line = circuits[-1].phases[0] if circuits else house.job.supply.live[0].name
    return Feed(inverter, runs, line if part.phases == "1" else None, known(part.grid.current_max_a))
