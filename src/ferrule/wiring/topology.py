"""The topology of a house: terminals, what joins them in which switch position, and its neutral-earth bonds.

A terminal is written `MB` or `INV1.grid`. A link joins two terminals, its line conductors and its neutral
each in the switch positions listed; a bond joins a terminal's neutral to earth.
"""

from collections import deque
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

from ferrule.fact import Unknown, known

Position = Literal["grid", "island", "bypass", "transit", "generator"]
Positions = frozenset[Position]
Conductor = Literal["line", "neutral"]

ALWAYS: Positions = frozenset({"grid", "island", "bypass", "transit", "generator"})
NEVER: Positions = frozenset()


@dataclass(frozen=True, slots=True)
class Link:
    """What joins two terminals: a run, or the contacts of a device."""

    a: str
    b: str
    by: str
    line: Positions = ALWAYS
    neutral: Positions | Unknown = ALWAYS

    def joins(self, conductor: Conductor, position: Position) -> bool:
        """Whether it joins this conductor in this position. Raises `Missing` where that is not known."""
        return position in (self.line if conductor == "line" else known(self.neutral))

    def other(self, terminal: str) -> str:
        return self.b if terminal == self.a else self.a


@dataclass(frozen=True, slots=True)
class Bond:
    """A link between a terminal's neutral and earth, closed in some positions."""

    at: str
    by: str
    closed: Positions | Unknown


@dataclass(frozen=True)
class Topology:
    """All links and bonds of one house, and what feeds it in each position it has."""

    links: tuple[Link, ...]
    bonds: tuple[Bond, ...]
    sources: dict[Position, tuple[str, ...]]

    def __post_init__(self) -> None:
        at: dict[str, list[Link]] = {}
        for link in self.links:
            at.setdefault(link.a, []).append(link)
            at.setdefault(link.b, []).append(link)
        object.__setattr__(self, "_at", at)

    @property
    def positions(self) -> tuple[Position, ...]:
        return tuple(self.sources)

    def at(self, terminal: str) -> list[Link]:
        """The links that end on a terminal."""
        found: list[Link] = self._at.get(terminal, [])  # type: ignore[attr-defined]
        return found

    def joined(self, starts: Iterable[str], conductor: Conductor, position: Position) -> frozenset[str]:
        """Every terminal joined to one of `starts` by this conductor in this position."""
        return frozenset(terminal for terminal, _ in self._walk(starts, conductor, position))

    def path(self, start: str, end: str, position: Position) -> tuple[Link, ...] | None:
        """The links from `start` to `end` along closed line conductors, fewest first; None if cut off."""
        return self.ways(start, position).get(end)

    def ways(self, start: str, position: Position) -> dict[str, tuple[Link, ...]]:
        """Every terminal that closed line conductors join to `start`, nearest first, with its links."""
        ways: dict[str, tuple[Link, ...]] = {start: ()}
        for terminal, link in self._walk([start], "line", position):
            if link is not None:
                ways[terminal] = (*ways[link.other(terminal)], link)
        return ways

    def closed_bonds(self, position: Position) -> tuple[Bond, ...]:
        """The closed neutral-earth bonds joined to the neutral of the energised part."""
        neutral = self.joined(self.sources[position], "neutral", position)
        return tuple(bond for bond in self.bonds if bond.at in neutral and position in known(bond.closed))

    def _walk(
        self, starts: Iterable[str], conductor: Conductor, position: Position
    ) -> Iterator[tuple[str, Link | None]]:
        """Terminals in the order in which they are met, each with the link that led to it."""
        queue: deque[tuple[str, Link | None]] = deque((start, None) for start in dict.fromkeys(starts))
        seen = {terminal for terminal, _ in queue}
        while queue:
            terminal, came = queue.popleft()
            yield terminal, came
            for link in self.at(terminal):
                far = link.other(terminal)
                if far not in seen and link.joins(conductor, position):
                    seen.add(far)
                    queue.append((far, link))
