"""Automatic disconnection on the network when a line touches earthed metal."""

from collections.abc import Iterator
from typing import Literal

from ferrule.checks import paths
from ferrule.checks.protection import device, loop_parts
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import circuits, supply
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, Verdict, is_so
from ferrule.design import Decided, Design
from ferrule.fact import Missing, known
from ferrule.job.boards import Circuit, Rcd
from ferrule.job.earth import Electrode
from ferrule.working import Trace


def earth_fault(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """Of a TN system by the overcurrent device, else by a residual current device; of a TT system by that.
    A first fault of an IT system drives next to nothing; the second is asked about once for the house.
    """
    circuit = design.house.circuits[subject.id]
    way = next((w for w in paths.ways(design.house, circuit) if w.position == "grid"), None)
    if way is None:
        return
    earthing = known(design.house.job.supply.earthing)
    if earthing == "IT":
        return
    if earthing == "TT":
        yield from _by_residual(design, code, circuit, way, "TT")
        return
    judged = list(_by_device(design, code, circuit, way))
    if judged[0].verdict is Verdict.PASS or not paths.devices(design, way):
        yield from judged
    else:
        yield from _by_residual(design, code, circuit, way, "TN")


def _by_device(design: Design, code: Code, circuit: Circuit, way: paths.Way) -> Iterator[Constraint]:
    t, clause = code.trace(), covered(code.procedures.disconnection)
    loop_ohm = known(design.house.job.supply.loop_max_ohm)
    origin_ohm = t.given("origin_ohm", loop_ohm, "earth loop at the origin")
    runs = [leg.run for leg in paths.legs(design.house, way.links)]
    parts = loop_parts(design, runs, design.protective)
    yield from clause.by_device(
        t,
        loop_ohm=clause.loop_ohm(t, origin_ohm=origin_ohm, parts=parts),
        origin_ohm=origin_ohm,
        parts=parts,
        device=device(design, circuit),
        line_to_neutral_v=design.house.voltages_v[circuit.phases[0]],
        within_s=_longest_s(design, code, circuit, t, "TN"),
    )


def _by_residual(
    design: Design, code: Code, circuit: Circuit, way: paths.Way, system: str
) -> Iterator[Constraint]:
    rcds = [rcd for _, rcd in paths.devices(design, way)]
    if not rcds:
        yield is_so(
            "residual_time",
            "No RCD stands before the circuit: nothing is sure to end an earth fault",
            code.trace(),
            False,
            mend="fit an RCD in {circuit}",
            circuit=circuit.id,
        )
        return
    rcd = min(rcds, key=lambda each: each.residual_a)
    if system == "TT":
        yield _touch_voltage(design, code, way, rcd)
    t, clause = code.trace(), covered(code.procedures.disconnection)
    runs = [leg.run for leg in paths.legs(design.house, way.links)]
    yield clause.by_residual(
        t,
        loop_ohm=clause.loop_ohm(
            t,
            origin_ohm=t.given("origin_ohm", known(design.house.job.supply.loop_max_ohm), "earth loop"),
            parts=loop_parts(design, runs, design.protective),
        ),
        residual_a=rcd.residual_a,
        selective=rcd.selective,
        line_to_neutral_v=design.house.voltages_v[circuit.phases[0]],
        within_s=_longest_s(design, code, circuit, t, system),
    )


def _touch_voltage(design: Design, code: Code, way: paths.Way, rcd: Rcd) -> Constraint:
    electrode: Electrode | Literal["none"] = known(design.house.job.earth.electrode)
    if electrode == "none":
        raise Missing("an earth electrode, and its resistance: a TT supply brings no earth")
    runs = [leg.run for leg in paths.legs(design.house, way.links)]
    return covered(code.procedures.disconnection).touch_voltage(
        code.trace(),
        electrode_ohm=known(electrode.resistance_ohm),
        parts=loop_parts(design, runs, design.protective),
        residual_a=rcd.residual_a,
    )


def _longest_s(design: Design, code: Code, circuit: Circuit, t: Trace, system: str) -> float:
    """A circuit ends at what uses its current, or at a board from which others leave."""
    end = design.house.runs[circuit.run].end
    return covered(code.procedures.disconnection).longest_s(
        t,
        system=system,
        line_to_neutral_v=design.house.voltages_v[circuit.phases[0]],
        rating_a=design.rating_a(circuit.id),
        final=bool(circuit.loads) or end.endswith(".grid"),
        sockets=any(load.kind == "sockets" for load in circuit.loads),
    )


def second_fault(design: Design, code: Code, _subject: Subject) -> None:
    """Of an IT system; nothing else has a first fault that stays."""
    if design.house.job.supply.earthing == "IT":
        covered(code.procedures.second_fault)


def loop_and_devices(design: Design, subject: Subject) -> Iterator[Decided]:
    circuit = design.house.circuits[subject.id]
    yield Decided("conductor", circuit.run)
    yield Decided("protective", circuit.run)
    yield Decided("curve", circuit.id)
    yield from paths.rcd_choices(design.house, circuit)


QUESTIONS = (
    Question(
        "circuit.disconnection",
        "Is the circuit disconnected in time when a line touches earthed metal?",
        circuits,
        each(earth_fault),
        loop_and_devices,
    ),
    Question(
        "supply.second_fault",
        "Is an IT system disconnected in time when a second line touches earthed metal?",
        supply,
        each(second_fault),
    ),
)
