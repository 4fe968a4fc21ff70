"""The topology of a house: terminals, what joins them in which switch position, and its neutral-earth bonds.

A terminal is written `MB` or `INV1.grid`. A link joins two terminals, its line conductors and its neutral
each in the switch positions listed; a bond joins a terminal's neutral to earth.
"""

from collections import deque
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal, NamedTuple

from ferrule.fact import Missing

Position = Literal["grid", "island", "bypass", "transit", "generator"]
Positions = frozenset[Position]
Conductor = Literal["line", "neutral"]

ALWAYS: Positions = frozenset({"grid", "island", "bypass", "transit", "generator"})
NEVER: Positions = frozenset()


class Contact(NamedTuple):
    """The positions in which a contact is closed, and those in which nobody knows yet, with what to ask."""

    closed: Positions
    unsure: Positions = NEVER
    ask: str = ""

    def joins(self, position: Position) -> bool:
        """Whether it is closed. Raises `Missing` where that is not known."""
        if position in self.unsure:
            raise Missing(self.ask)
        return position in self.closed

    @property
    def moves(self) -> bool:
        """Whether it closes in some positions only."""
        return self.closed not in (ALWAYS, NEVER)


CLOSED = Contact(ALWAYS)


class Link(NamedTuple):
    """What joins two terminals: a run, or the contacts of a device."""

    a: str
    b: str
    by: str
    line: Positions = ALWAYS
    neutral: Contact = CLOSED

    def joins(self, conductor: Conductor, position: Position) -> bool:
        """Whether it joins this conductor in this position. Raises `Missing` where that is not known."""
        return position in self.line if conductor == "line" else self.neutral.joins(position)

    def other(self, terminal: str) -> str:
        return self.b if terminal == self.a else self.a


class Bond(NamedTuple):
    """What joins a terminal's neutral to earth: the supplier's link, a relay, a strap."""

    at: str
    by: str
    contact: Contact


@dataclass(frozen=True)
class Topology:
    """All links and bonds of one house, and what feeds it in each position it has."""

    links: tuple[Link, ...]
    bonds: tuple[Bond, ...]
    sources: dict[Position, tuple[str, ...]]

    @property
    def positions(self) -> tuple[Position, ...]:
        return tuple(self.sources)

    @cached_property
    def _at(self) -> dict[str, list[Link]]:
        at: dict[str, list[Link]] = {}
        for link in self.links:
            at.setdefault(link.a, []).append(link)
            at.setdefault(link.b, []).append(link)
        return at

    def at(self, terminal: str) -> list[Link]:
        """The links that end on a terminal."""
        return self._at.get(terminal, [])

    def joined(self, starts: Iterable[str], conductor: Conductor, position: Position) -> frozenset[str]:
        """Every terminal joined to one of `starts` by this conductor in this position."""
        return frozenset(terminal for terminal, _ in self._walk(starts, conductor, position))

    def path(
        self, start: str, end: str, position: Position, conductor: Conductor = "line"
    ) -> tuple[Link, ...] | None:
        """The links from `start` to `end` along closed conductors, fewest first; None if cut off."""
        return self.ways(start, position, conductor).get(end)

    def ways(
        self, start: str, position: Position, conductor: Conductor = "line"
    ) -> dict[str, tuple[Link, ...]]:
        """Every terminal that closed conductors join to `start`, nearest first, with its links."""
        ways: dict[str, tuple[Link, ...]] = {start: ()}
        for terminal, link in self._walk([start], conductor, position):
            if link is not None:
                ways[terminal] = (*ways[link.other(terminal)], link)
        return ways

    def zones(self, position: Position) -> tuple[tuple[str, ...], ...]:
        """The sources of a position, those together that closed line conductors join."""
        zones: dict[frozenset[str], tuple[str, ...]] = {}
        for source in self.sources.get(position, ()):
            fed = self.joined([source], "line", position)
            zones[fed] = (*zones.get(fed, ()), source)
        return tuple(zones.values())

    def closed_bonds(self, zone: Iterable[str], position: Position) -> tuple[Bond, ...]:
        """The closed bonds joined to the neutral of what a zone's sources feed.

        Raises `Missing` where a contact on the way is not known.
        """
        neutral = self.joined(zone, "neutral", position)
        return tuple(bond for bond in self.bonds if bond.at in neutral and bond.contact.joins(position))

    def stuck(self, by: str, positions: Positions) -> "Topology":
        """The same house with one contact stuck: closed in these positions whatever happens."""
        return replace(
            self,
            links=tuple(_stuck_link(link, positions) if link.by == by else link for link in self.links),
            bonds=tuple(
                bond._replace(contact=Contact(positions)) if bond.by == by else bond for bond in self.bonds
            ),
        )

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


def _stuck_link(link: Link, positions: Positions) -> Link:
    """A neutral that runs through has no contact that could stick; one nobody knows of stays unknown."""
    moves = link.neutral.moves and not link.neutral.unsure
    return link._replace(line=positions, neutral=Contact(positions) if moves else link.neutral)
