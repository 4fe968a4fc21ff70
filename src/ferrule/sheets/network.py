"""The alternating current of a house as a drawing follows it: the ways between boards, devices, sources and
loads, with the runs and the meters along each.
"""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from ferrule.design import House

Kind = Literal["board", "inverter", "source", "unit", "leaf"]


class Way(NamedTuple):
    """What lies between two terminals: `along` has runs and the meters between them, from start to end."""

    start: str
    end: str
    along: tuple[str, ...]

    @property
    def reversed(self) -> "Way":
        return Way(self.end, self.start, self.along[::-1])


class Network(NamedTuple):
    """The ways of a house, and what each of their ends is: a board, an inverter, a source, another device at
    which several ways meet (`unit`), or a `leaf` at which one ends.
    """

    ways: tuple[Way, ...]
    kinds: dict[str, Kind]

    def kind(self, terminal: str) -> Kind:
        return self.kinds[thing(terminal)]


def thing(terminal: str) -> str:
    """The board, device or load that a terminal belongs to."""
    return terminal.partition(".")[0]


def network(house: House) -> Network:
    """The ways of a house, in the order in which its job has their runs."""
    runs = [run for run in house.runs if run not in house.string_runs and run not in house.battery_runs]
    ends = {run: (house.runs[run].start, house.runs[run].end) for run in runs}
    at: dict[str, list[str]] = {}
    for run in runs:
        for end in ends[run]:
            at.setdefault(end, []).append(run)
    passed = {end for end, there in at.items() if _kind_of(house, end) == "meter" and len(there) == 2}
    ways = tuple(_ways(ends, at, passed))
    degree: dict[str, int] = {}
    for way in ways:
        for end in (way.start, way.end):
            degree[thing(end)] = degree.get(thing(end), 0) + 1
    return Network(ways, {each: _kind(house, each, count) for each, count in degree.items()})


def _ways(ends: dict[str, tuple[str, str]], at: dict[str, list[str]], passed: set[str]) -> Iterator[Way]:
    """Each run with those that meters join to it; the runs of a ring of meters are left as they are."""
    seen: set[str] = set()
    for run, (start, end) in ends.items():
        if run in seen:
            continue
        before, first = _along(start, run, ends, at, passed)
        after, last = _along(end, run, ends, at, passed)
        along = (*reversed(before), run, *after)
        seen |= set(along)
        yield Way(first, last, along)


def _along(
    end: str, run: str, ends: dict[str, tuple[str, str]], at: dict[str, list[str]], passed: set[str]
) -> tuple[list[str], str]:
    """What follows on a run beyond one of its ends, and where that leads."""
    along: list[str] = []
    while end in passed and end not in along:
        run = next((other for other in at[end] if other != run), run)
        along += [end, run]
        one, other = ends[run]
        end = other if one == end else one
    return along, end


def _kind(house: House, name: str, degree: int) -> Kind:
    kind = _kind_of(house, name)
    if kind == "board":
        return "board"
    if kind == "inverter":
        return "inverter"
    if kind in {"supply", "generator"}:
        return "source"
    return "unit" if kind == "changeover" or (degree > 1 and kind != "load") else "leaf"


def _kind_of(house: House, terminal: str) -> str:
    name = thing(terminal)
    if name in house.boards:
        return "board"
    if name == "supply":
        return "supply"
    return house.devices[name].kind if name in house.devices else "load"
