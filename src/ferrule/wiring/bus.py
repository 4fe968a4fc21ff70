"""The shape of a signal bus: its ends, its branches, the order of its ports along the line."""

from collections.abc import Mapping
from typing import NamedTuple

from ferrule.job.bus import Bus


class Line(NamedTuple):
    """A bus without rings, as its links join its ports."""

    neighbours: Mapping[str, tuple[str, ...]]

    @property
    def ends(self) -> tuple[str, ...]:
        """The ports at which the line ends: two, unless it branches."""
        return tuple(port for port, others in self.neighbours.items() if len(others) == 1)

    @property
    def branches(self) -> tuple[str, ...]:
        """The ports at which more than two cables meet."""
        return tuple(port for port, others in self.neighbours.items() if len(others) > 2)


def line(bus: Bus) -> Line:
    """The shape of a bus that has been read without mistakes."""
    met: dict[str, tuple[str, ...]] = {node.port: () for node in bus.nodes}
    for link in bus.links:
        met[link.start] += (link.end,)
        met[link.end] += (link.start,)
    return Line(met)
