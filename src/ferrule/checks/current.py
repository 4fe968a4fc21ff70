"""The current a circuit is designed for."""

import math

from ferrule.clauses.values import CableKind, Laid
from ferrule.design import Design
from ferrule.fact import all_known, known
from ferrule.job.boards import Circuit
from ferrule.physics import threephase
from ferrule.working import Trace


def design_current_a(design: Design, circuit: Circuit, t: Trace) -> float:
    """Design current I_B of a circuit, in A: what an inverter can push or pass through it, else its loads.

    An inverter's circuit carries its maximum continuous output or, where the house behind it draws more,
    its pass-through current.
    """
    end = design.house.runs[circuit.run].end
    device, _, port = end.partition(".")
    if port == "grid" and device in design.house.devices:
        part = design.inverter(device)
        all_known(part.grid.current_max_a, part.grid.pass_through_max_a)
        output_a = t.given("output_a", known(part.grid.current_max_a), part.source)
        through_a = t.given("pass_through_a", known(part.grid.pass_through_max_a), part.source)
        return max(output_a, through_a)
    if not circuit.loads:
        return 0.0
    all_known(*(load.power_w for load in circuit.loads))
    live = {conductor.name: conductor for conductor in design.house.job.supply.live}
    sum_va = math.fsum(known(load.power_w) / load.power_factor for load in circuit.loads)
    apparent_va = t.given("apparent_va", sum_va, "loads of the circuit")
    return t.calculate(
        threephase.current_from_apparent_power,
        apparent_va=apparent_va,
        lines=len(circuit.phases),
        line_to_neutral_v=live[circuit.phases[0]].voltage_v,
    )


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
