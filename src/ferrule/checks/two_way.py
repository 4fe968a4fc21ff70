"""Devices that can be fed from either side, and switching an inverter off the network."""

from collections.abc import Iterator

from ferrule.checks.paths import legs
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import feeding_inverters, two_way_circuits
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, is_so
from ferrule.design import Decided, Design
from ferrule.fact import known


def device_direction(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """A fuse has no direction."""
    device = design.house.circuits[subject.id].device
    if device.kind != "mcb":
        return None
    return _direction("device_direction", "The breaker", code, known(device.direction))


def rcd_direction(design: Design, code: Code, subject: Subject) -> Constraint | None:
    rcd = design.rcd(subject.id)
    return None if rcd is None else _direction("rcd_direction", "The RCD", code, known(rcd.direction))


def board_rcd_direction(design: Design, code: Code, subject: Subject) -> Constraint | None:
    board = design.house.board_of[subject.id]
    if board.rcd is None:
        return None
    return _direction("board_rcd_direction", f"The RCD of {board.id}", code, known(board.rcd.direction))


def _direction(name: str, what: str, code: Code, direction: str) -> Constraint | None:
    t = code.trace()
    if not covered(code.procedures.two_way).both_ways(t):
        return None
    good = direction == "both"
    return is_so(
        name,
        "{what} may be fed from both sides, as it can be here"
        if good
        else "{what} is made for one direction only, and here it can be fed from both sides",
        t,
        good,
        mend="fit one that is marked for both directions",
        what=what,
    )


def ac_switch(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """A breaker or an RCD can be switched under load; a fuse cannot."""
    t = code.trace()
    if not covered(code.procedures.two_way).switch(t):
        return None
    current_a = t.given("current_a", known(design.inverter(subject.id).grid.current_max_a), "inverter")
    on_the_way = [
        leg.circuit
        for leg in legs(design.house, design.house.feeding["grid"][f"{subject.id}.grid"])
        if leg.circuit is not None
    ]
    switches = [
        circuit.id
        for circuit in on_the_way
        if circuit.device.kind == "mcb" or design.rcd(circuit.id) is not None
    ]
    return is_so(
        "ac_switch",
        "{switch} separates the inverter from the network under its load of {current_a}"
        if switches
        else "Only fuses stand between the inverter and the network: nothing switches it off under load",
        t,
        bool(switches),
        mend="fit a breaker or a switch before the inverter",
        switch=switches[-1] if switches else "",
        current_a=current_a,
    )


def own_rcd(_design: Design, subject: Subject) -> Iterator[Decided]:
    yield Decided("rcd", subject.id)


QUESTIONS = (
    Question(
        "circuit.fed_from_both_sides",
        "Do the devices of a circuit that is fed from both sides work in both directions?",
        two_way_circuits,
        each(device_direction, rcd_direction, board_rcd_direction),
        own_rcd,
    ),
    Question(
        "inverter.ac_isolation",
        "Can the inverter be switched off the network?",
        feeding_inverters,
        each(ac_switch),
    ),
)
