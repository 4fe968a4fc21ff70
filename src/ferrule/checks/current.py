"""The current a circuit or a cable is designed for: what hangs beyond it, on each line conductor."""

import math
from collections.abc import Iterator
from functools import partial
from typing import NamedTuple

from ferrule.clauses.values import CableKind, Laid
from ferrule.design import Design, House
from ferrule.fact import Missing, Unknown, all_known, known
from ferrule.job.boards import Circuit, Load
from ferrule.job.devices import InverterDevice
from ferrule.physics import threephase
from ferrule.wiring.topology import Link
from ferrule.working import Trace


class Flow(NamedTuple):
    """A current in each of some line conductors; `pushed` towards the network."""

    current_a: float
    lines: tuple[str, ...]
    pushed: bool = False


def design_current_a(design: Design, circuit: Circuit, t: Trace) -> float:
    """Design current I_B of a circuit, in A: on the line conductor that carries most.

    Either everything beyond it draws at once, or every inverter beyond it pushes at once. A load of one phase
    on a circuit of three may hang on any of them, so it counts on each. Raises `Missing` where nothing is
    said of what hangs on the circuit.
    """
    return design.recall_noted((design_current_a, circuit.id), t, partial(_design_current_a, design, circuit))


def _design_current_a(design: Design, circuit: Circuit, t: Trace) -> float:
    found = list(flows(design, circuit.run, t))
    if not found:
        raise Missing(f"what hangs on {circuit.id}")
    return most_a(found, circuit.phases, t)


def most_a(found: list[Flow], lines: list[str], t: Trace) -> float:
    """The largest sum in one direction on one of these line conductors, in A."""
    if len(found) == 1:
        return found[0].current_a
    sums = [
        (math.fsum(f.current_a for f in found if line in f.lines and f.pushed is pushed), line, pushed)
        for pushed in (False, True)
        for line in lines
    ]
    current_a, line, pushed = max(sums, key=lambda each: each[0])
    return t.given("sum_a", current_a, f"all that {'feeds in' if pushed else 'draws'} at once on {line}")


def flows(design: Design, run: str, t: Trace) -> Iterator[Flow]:
    """What the loads and the inverters beyond a run draw through it, and what these push back."""
    house = design.house
    for inverter in house.devices.values():
        if isinstance(inverter, InverterDevice) and _beyond(house, run, f"{inverter.id}.grid"):
            yield from _inverter(design, inverter.id, t)
    for generator, own in house.generator_runs.items():
        if own == run:
            yield _generator(design, generator, run, t)
    for circuit in house.circuits.values():
        links = _beyond(house, run, house.runs[circuit.run].end)
        # What hangs behind an inverter comes through it, and that it limits.
        if links and not any(link.by.endswith(".isolator") for link in links):
            yield from (_load(house, circuit, load, t) for load in circuit.loads)


def _beyond(house: House, run: str, terminal: str) -> tuple[Link, ...]:
    """The links from a run to a terminal that it feeds, the run's own first; none if it does not feed it.

    Fed by the network, or else by whatever feeds the run in another switch position.
    """
    feeding = next(
        (ways for ways in house.feeding.values() if any(end in ways for end in _ends(house, run))), {}
    )
    links = feeding.get(terminal, ())
    at = next((at for at, link in enumerate(links) if link.by == f"run/{run}"), len(links))
    return links[at:]


def _ends(house: House, run: str) -> tuple[str, str]:
    return house.runs[run].start, house.runs[run].end


def _inverter(design: Design, inverter: str, t: Trace) -> Iterator[Flow]:
    """It pushes its largest continuous current, and draws as much to charge its battery, or what it can pass
    to its backup port.
    """
    house, part = design.house, design.inverter(inverter)
    ends = {end for run in house.runs for end in _ends(house, run)}
    backed, charged = f"{inverter}.backup" in ends, f"{inverter}.battery" in ends
    all_known(part.grid.current_max_a, *([part.grid.pass_through_max_a] if backed else []))
    lines = lines_at(house, f"{inverter}.grid")
    output_a = t.given("output_a", known(part.grid.current_max_a), f"{inverter}: {part.source}")
    yield Flow(output_a, lines, pushed=True)
    drawn_a = [output_a] if charged else []
    if backed:
        through_a = known(part.grid.pass_through_max_a)
        drawn_a.append(t.given("pass_through_a", through_a, f"{inverter}: {part.source}"))
    if drawn_a:
        yield Flow(max(drawn_a), lines)


def _generator(design: Design, generator: str, run: str, t: Trace) -> Flow:
    """A generator pushes its rated current along its own run."""
    part, circuit = design.generator(generator), design.house.circuit_of_run.get(run)
    all_known(part.power_va, part.phases)
    lines = tuple(circuit.phases) if circuit is not None else tuple(design.house.voltages_v)
    current_a = t.calculate(
        threephase.current_from_apparent_power,
        apparent_va=t.given("power_va", known(part.power_va), f"{generator}: {part.source}"),
        lines=3 if known(part.phases) == "3" else 1,
        line_to_neutral_v=design.house.voltages_v[lines[0]],
    )
    return Flow(current_a, lines, pushed=True)


def lines_at(house: House, terminal: str) -> tuple[str, ...]:
    """The line conductors that arrive at a terminal: those of the last circuit on the way, else all."""
    circuits = (house.circuit_of_run.get(run) for run in reversed(house.upstream(terminal) or ()))
    return next((tuple(c.phases) for c in circuits if c is not None), tuple(house.voltages_v))


def _load(house: House, circuit: Circuit, load: Load, t: Trace) -> Flow:
    """A load's running current. Socket-outlets of which nobody knows the load carry what their device lets
    through.
    """
    lines = tuple(circuit.phases)
    if load.current_a is not None:
        return Flow(t.given("load_a", load.current_a, f"{load.name}, from its plate"), lines)
    if load.kind == "sockets" and isinstance(load.power_w, Unknown):
        given_a = circuit.device.rating_a
        if not isinstance(given_a, float):
            raise Missing(f"power of {load.name}, or the rated current of the device of {circuit.id}")
        return Flow(t.given("load_a", given_a, f"{load.name}: as much as its device lets through"), lines)
    # With three lines and no word of all of them, it hangs on one.
    spread = load.three_phase or len(house.voltages_v) < 3
    current_a = t.calculate(
        threephase.current_from_power,
        power_w=t.given("power_w", _power_w(circuit, load), load.name),
        lines=len(lines) if spread else 1,
        line_to_neutral_v=house.voltages_v[lines[0]],
        cos_phi=load.power_factor,
    )
    return Flow(current_a, lines)


def _power_w(circuit: Circuit, load: Load) -> float:
    if isinstance(load.power_w, Unknown):
        raise Missing(f"{load.power_w.ask}: {load.name} of {circuit.id}")
    return load.power_w


def starting_current_a(design: Design, circuit: Circuit, t: Trace) -> float | None:
    """The largest current while one load starts and the others run, in A; None where none has a start to
    speak of. Raises `Missing` for a motor of which nobody knows the start.
    """
    starting = [load for load in circuit.loads if _starts(load)]
    if not starting:
        return None
    running_a = design_current_a(design, circuit, t)
    added_a = [
        (known(load.start_multiple) - 1) * _load(design.house, circuit, load, Trace(t.tables)).current_a
        for load in starting
    ]
    return t.given("start_a", running_a + max(added_a), "the largest start on top of what runs")


def _starts(load: Load) -> bool:
    multiple = load.start_multiple
    if isinstance(multiple, Unknown):
        if load.kind == "motor":
            raise Missing(f"{multiple.ask}: {load.name}")
        return False
    return multiple > 1


def laid(design: Design, run: str) -> tuple[Laid, ...]:
    """The stretches of a run as plain values."""
    stretches = design.house.runs[run].stretches
    all_known(*(f for s in stretches for f in (s.length_m, s.method, s.ambient_c, s.circuits)))
    return tuple(
        Laid(
            length_m=known(s.length_m),
            method=known(s.method),
            ambient_c=known(s.ambient_c),
            circuits=known(s.circuits),
            grouping=s.grouping,
            soil_km_per_w=s.soil_km_per_w,
            on_roof=s.on_roof,
        )
        for s in stretches
    )


def cable_kind(design: Design, run: str) -> CableKind:
    """What decides the current of a run's cable apart from its size."""
    cable = design.cable(run)
    return CableKind(cable.insulation, cable.conductor, cable.strands, cable.build)
