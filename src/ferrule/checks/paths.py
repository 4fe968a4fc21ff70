"""What stands between a source and a circuit: the runs with their circuits, the residual current devices."""

import math
from collections.abc import Iterator
from typing import NamedTuple

from ferrule.design import Decided, Design, House
from ferrule.fact import all_known, known
from ferrule.job.boards import Circuit, Rcd
from ferrule.job.runs import Run
from ferrule.wiring.topology import Link, Position


class Leg(NamedTuple):
    """A run on the way from a source, and the circuit it belongs to."""

    run: str
    circuit: Circuit | None


class Way(NamedTuple):
    """How a circuit is fed in one switch position: the links from the nearest source through its own run.

    `forward` is False where the source is at its far end, as behind an inverter that feeds its board.
    `guards` are the places for residual current devices, from the source on.
    """

    position: Position
    source: str
    links: tuple[Link, ...]
    forward: bool
    guards: tuple["Guard", ...]


class Guard(NamedTuple):
    """A place for a residual current device: at the head of a circuit, or of a whole board."""

    owner: str
    board: bool


def ways(house: House, circuit: Circuit) -> tuple[Way, ...]:
    """How a circuit is fed, in each switch position in which it is."""
    return house.once((ways, circuit.id), lambda: tuple(_ways(house, house.runs[circuit.run])))


def _ways(house: House, run: Run) -> Iterator[Way]:
    for position, feeding in house.feeding.items():
        for end in (run.end, run.start):
            links = feeding.get(end, ())
            if any(link.by == f"run/{run.id}" for link in links):
                ends = {links[0].a, links[0].b}
                source = next(s for s in house.topology.sources[position] if s in ends)
                yield Way(position, source, links, end == run.end, guards(house, source, links))
                break


def legs(house: House, links: tuple[Link, ...]) -> tuple[Leg, ...]:
    """The runs among these links, with their circuits."""
    runs = (link.by[4:] for link in links if link.by.startswith("run/"))
    return tuple(Leg(run, house.circuit_of_run.get(run)) for run in runs)


def length_m(house: House, run: str) -> float:
    """The whole length of a run, in m. Raises `Missing` naming every stretch nobody has measured."""
    lengths = [stretch.length_m for stretch in house.runs[run].stretches]
    all_known(*lengths)
    return math.fsum(known(length) for length in lengths)


def guards(house: House, source: str, links: tuple[Link, ...]) -> tuple[Guard, ...]:
    """The places for residual current devices on a way, from the source on."""
    return tuple(_guards(house, source, links))


def _guards(house: House, source: str, links: tuple[Link, ...]) -> Iterator[Guard]:
    """A board's own device stands between what feeds the board and the circuits that leave it."""
    here, came = source, None
    for link in links:
        circuit = house.circuit_of_run.get(link.by.removeprefix("run/"))
        board = house.boards.get(here)
        if board is not None and board.rcd is not None:
            leaves = [each is not None and house.board_of[each.id] is board for each in (came, circuit)]
            if leaves[0] != leaves[1]:
                yield Guard(board.id, board=True)
        if circuit is not None:
            yield Guard(circuit.id, board=False)
        here, came = link.other(here), circuit


def device(design: Design, guard: Guard) -> Rcd | None:
    """What stands in that place; None for nothing. Raises `Undecided`."""
    return design.house.boards[guard.owner].rcd if guard.board else design.rcd(guard.owner)


def devices(design: Design, way: Way) -> list[tuple[Guard, Rcd]]:
    """The residual current devices on a way, from the source on. Raises `Undecided`."""
    found = ((guard, device(design, guard)) for guard in way.guards)
    return [(guard, rcd) for guard, rcd in found if rcd is not None]


def rcd_choices(house: House, circuit: Circuit) -> Iterator[Decided]:
    """The residual current devices that a circuit's protection turns on, its own first."""
    owners = [guard.owner for way in ways(house, circuit) for guard in way.guards if not guard.board]
    for owner in dict.fromkeys([circuit.id, *owners]):
        yield Decided("rcd", owner)
