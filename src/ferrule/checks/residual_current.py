"""Residual current devices: where one is needed, which, and what those further up do."""

import math
from collections.abc import Iterator
from itertools import pairwise, product
from typing import Any

from ferrule.checks.paths import Way, device, devices, rcd_choices, ways
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import circuits
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, at_least, at_most, is_so
from ferrule.design import Decided, Design
from ferrule.fact import Missing, Unknown, all_known, known
from ferrule.job.boards import Circuit, Rcd
from ferrule.parts import Inverter
from ferrule.working import Trace

_WHEN = {
    "grid": "on the network",
    "island": "in island mode",
    "bypass": "in bypass",
    "generator": "on the generator",
}

# Where one is needed


def needed(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """In every switch position in which the rules ask for a device, one must stand before the circuit."""
    earthing = known(design.house.job.supply.earthing)
    for way in _ways(design, subject):
        t = code.trace()
        if covered(code.procedures.residual_current).required(t, earthing=earthing, position=way.position):
            found = bool(devices(design, way))
            yield is_so(
                "needed",
                "An RCD stands before the circuit {when}"
                if found
                else "No RCD stands before the circuit {when}, where every circuit needs one",
                t,
                found,
                when=_WHEN[way.position],
            )


def additional_protection(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """The smallest device on the way protects people, wherever it stands."""
    circuit = design.house.circuits[subject.id]
    kinds = {load.kind for load in circuit.loads}
    building = design.house.job.site.building
    for way in _ways(design, subject) if kinds else ():
        t = code.trace()
        limit_a = covered(code.procedures.residual_current).additional_a(
            t,
            kinds=kinds,
            rating_a=design.rating_a(circuit.id),
            dwelling=(known(building) if "lighting" in kinds else building) == "dwelling",
        )
        if limit_a is None:
            return
        residuals_a = [rcd.residual_a for _, rcd in devices(design, way)]
        if residuals_a:
            yield at_most(
                "additional_protection",
                "The RCD before the circuit trips at {value} {when}; those who use it need {limit} or less",
                t,
                value=min(residuals_a),
                limit=limit_a,
                unit="A",
                when=_WHEN[way.position],
            )
        else:
            yield is_so(
                "additional_protection",
                "No RCD protects those who use the circuit {when}; they need one of {limit_a}",
                t,
                False,
                when=_WHEN[way.position],
                limit_a=limit_a,
            )


# Which type


def own_type(design: Design, code: Code, subject: Subject) -> Constraint | None:
    rcd = design.rcd(subject.id)
    return None if rcd is None else _type(design, code, subject, rcd, "")


def upstream_type(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """Smooth direct current from this circuit blinds a device of another type wherever it stands."""
    house = design.house
    circuit = house.circuits[subject.id]
    for guard in dict.fromkeys(guard for way in ways(house, circuit) for guard in way.guards):
        rcd = device(design, guard) if guard.owner != subject.id else None
        found = None if rcd is None else _type(design, code, subject, rcd, guard.owner)
        if found is not None:
            yield found


def _type(design: Design, code: Code, subject: Subject, rcd: Rcd, upstream: str) -> Constraint | None:
    """Whether a device sees what can leak from this circuit; `upstream` names the one further up."""
    procedure, t = covered(code.procedures.residual_current), code.trace()
    wanted, asks = _wanted_type(design, code, design.house.circuits[subject.id], t)
    if not wanted:
        return None
    if upstream:
        wanted = procedure.upstream_type(t, wanted=wanted)
    good = procedure.strictest(code.rulebook, {rcd.type, wanted}) == rcd.type
    if asks and not good:
        raise Missing(*asks)
    return is_so(
        "upstream_type" if upstream else "own_type",
        "The RCD of {upstream} is of type {fitted}; what can leak from here needs type {wanted}"
        if upstream
        else "The RCD is of type {fitted}; what can leak from here needs type {wanted}",
        t,
        good,
        mend="fit an RCD of type {wanted} at {upstream}" if upstream else "fit an RCD of type {wanted}",
        upstream=upstream,
        fitted=rcd.type,
        wanted=wanted,
    )


def _wanted_type(design: Design, code: Code, circuit: Circuit, t: Trace) -> tuple[str, tuple[str, ...]]:
    """The least type for what hangs on the circuit itself, empty if nothing does. Where facts that decide it
    are unknown: the strictest it may be, and what to find out.
    """
    procedure, inverter = covered(code.procedures.residual_current), _inverter(design, circuit)
    facts: tuple[Any, ...]
    words: tuple[tuple[str, ...], ...]
    if inverter is not None:
        facts, words = (inverter.separation, inverter.smooth_dc_residual), (("none", "simple"), _DC)
    elif circuit.loads:
        facts = tuple(load.smooth_dc_residual for load in circuit.loads if load.kind == "charger")
        words = (_DC,) * len(facts)
    else:
        return "", ()

    def type_of(case: tuple[str, ...]) -> str:
        if inverter is not None:
            return procedure.inverter_type(
                t, separated=case[0] == "simple", smooth_dc_excluded=case[1] == "excluded"
            )
        kinds = {load.kind for load in circuit.loads}
        return procedure.load_type(t, kinds=kinds, smooth_dc_excluded="possible" not in case)

    may_be = (word if isinstance(fact, Unknown) else (fact,) for fact, word in zip(facts, words, strict=True))
    types = {type_of(case) for case in product(*may_be)}
    asks = tuple(fact.ask for fact in facts if isinstance(fact, Unknown)) if len(types) > 1 else ()
    return procedure.strictest(code.rulebook, types), asks


_DC = ("excluded", "possible")

# Which rating


def rating(design: Design, code: Code, subject: Subject) -> Constraint | None:
    rcd = design.rcd(subject.id)
    if rcd is None:
        return None
    return at_least(
        "rating",
        "The RCD carries {value}; the circuit's device lets {limit} through",
        code.trace(),
        value=rcd.rating_a,
        limit=design.rating_a(subject.id),
        unit="A",
    )


def leakage(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """For every device between an inverter and the network: what all inverters behind it leak."""
    for way in _inverter_ways(design, subject):
        for guard, rcd in devices(design, way):
            behind = [design.inverter(i) for i in _inverters_behind(design, guard.owner)]
            all_known(*(part.leakage_max_a for part in behind))
            yield from covered(code.procedures.residual_current).leakage(
                code.rulebook,
                leakage_a=math.fsum(known(part.leakage_max_a) for part in behind),
                residual_a=rcd.residual_a,
            )


def all_poles(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """For every device with an inverter on its load side."""
    for way in _inverter_ways(design, subject):
        for guard, rcd in devices(design, way):
            t = code.trace()
            if covered(code.procedures.residual_current).opens_all(t):
                yield is_so(
                    "all_poles",
                    "The RCD of {owner}, with an inverter on its load side, opens the neutral as well"
                    if known(rcd.all_poles)
                    else "The RCD of {owner} leaves the neutral joined, with an inverter on its load side",
                    t,
                    known(rcd.all_poles),
                    mend="fit an RCD that opens all live conductors at {owner}",
                    owner=guard.owner,
                )


def selective(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """Of two devices one behind the other, where the second is this circuit's own or that of its board."""
    mine = (subject.id, design.house.board_of[subject.id].id)
    for way in _ways(design, subject):
        for (_, upper), (lower_guard, lower) in pairwise(devices(design, way)):
            if lower_guard.owner in mine:
                yield covered(code.procedures.residual_current).selective(
                    code.rulebook,
                    upstream_a=upper.residual_a,
                    delayed=upper.selective,
                    residual_a=lower.residual_a,
                )


# Who is behind what


def _ways(design: Design, subject: Subject) -> Iterator[Way]:
    """How sources feed a circuit from its head; of several with the same devices before it only the first,
    apart from island mode, which has rules of its own.
    """
    seen = set()
    for way in ways(design.house, design.house.circuits[subject.id]):
        same = (way.position == "island", *way.guards)
        if way.forward and same not in seen:
            seen.add(same)
            yield way


def _inverter_ways(design: Design, subject: Subject) -> Iterator[Way]:
    """The way from the network to the inverter that a circuit feeds."""
    if _inverter(design, design.house.circuits[subject.id]) is not None:
        yield from (way for way in _ways(design, subject) if way.position == "grid")


def _inverter(design: Design, circuit: Circuit) -> Inverter | None:
    end = design.house.runs[circuit.run].end
    return design.inverter(end.partition(".")[0]) if design.house.feeds_in(end) else None


def _inverters_behind(design: Design, owner: str) -> Iterator[str]:
    """The inverters between which and the network a circuit's or a board's device stands."""
    for circuit in design.house.circuits.values():
        for way in _inverter_ways(design, Subject("circuit", circuit.id)):
            if owner in {guard.owner for guard in way.guards}:
                yield design.house.runs[circuit.run].end.partition(".")[0]


def devices_on_the_way(design: Design, subject: Subject) -> Iterator[Decided]:
    return rcd_choices(design.house, design.house.circuits[subject.id])


QUESTIONS = (
    Question(
        "circuit.rcd",
        "Has the circuit the residual current device it needs, and does none further up spoil it?",
        circuits,
        each(needed, additional_protection, own_type, upstream_type, rating, leakage, all_poles, selective),
        devices_on_the_way,
    ),
)
