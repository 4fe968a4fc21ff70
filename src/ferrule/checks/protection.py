"""What protects a cable on the network, and the cables between a source and a place."""

from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from ferrule.checks.paths import length_m
from ferrule.checks.question import Subject
from ferrule.clauses.values import Device, LoopPart
from ferrule.design import Design, House
from ferrule.fact import known
from ferrule.job.boards import Circuit
from ferrule.quantity import Size


class Protector(NamedTuple):
    """The overcurrent device before a cable: a circuit's, or the main fuse; `before` are the runs to it."""

    circuit: Circuit | None
    before: tuple[str, ...]


def run_of(house: House, subject: Subject) -> str:
    """The cable of a circuit, or the cable itself."""
    return house.circuits[subject.id].run if subject.kind == "circuit" else subject.id


def lines_of(house: House, run: str) -> list[str]:
    """The line conductors of a cable: its circuit's, else those of the circuit before it, else all."""
    circuits = [house.circuit_of_run.get(each) for each in (run, *reversed(way(house, run)))]
    return next((circuit.phases for circuit in circuits if circuit is not None), list(house.voltages_v))


def way(house: House, run: str) -> tuple[str, ...]:
    """The runs from the origin through this one; none where the network does not feed it."""
    ends = (house.upstream(house.runs[run].start) or (), house.upstream(house.runs[run].end) or ())
    return next((runs for runs in ends if run in runs), ())


def protector(house: House, run: str) -> Protector | None:
    """What protects a cable on the network; None where that does not feed it."""
    runs = way(house, run)
    if not runs:
        return None
    for at in reversed(range(len(runs))):
        circuit = house.circuit_of_run.get(runs[at])
        if circuit is not None:
            return Protector(circuit, runs[:at])
    return Protector(None, ())


def device(design: Design, circuit: Circuit | None) -> Device:
    """An overcurrent device as plain values; None is the main fuse. Raises `Undecided`."""
    if circuit is None:
        fuse = known(design.house.job.supply.main_fuse)
        return Device(fuse.kind, fuse.rating_a)
    own = circuit.device
    breaker = own.kind == "mcb"
    return Device(
        own.kind,
        design.rating_a(circuit.id),
        design.curve(circuit.id) if breaker else "",
        own.energy_class if breaker else "",
        own.let_through_a2s,
    )


def loop_parts(design: Design, runs: Iterable[str], back: Callable[[str], Size]) -> list[LoopPart]:
    """Some cables of a fault loop; `back` gives the size of the conductor that leads back."""
    return list(_parts(design, runs, back))


def _parts(design: Design, runs: Iterable[str], back: Callable[[str], Size]) -> Iterator[LoopPart]:
    for run in runs:
        cable = design.cable(run)
        yield LoopPart(
            line=design.size(run),
            protective=back(run),
            metal=cable.conductor,
            strands=cable.strands,
            insulation=cable.insulation,
            length_m=length_m(design.house, run),
        )
