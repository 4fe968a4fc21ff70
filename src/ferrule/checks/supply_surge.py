"""Surge protection of the alternating-current side."""

from collections.abc import Iterator

from ferrule.checks.feeding import feeds
from ferrule.checks.paths import Leg, legs, length_m
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import boards
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint
from ferrule.design import Decided, Design, House
from ferrule.fact import known


def unprotected(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """At the origin a device may be left out only where the risk is known to be low."""
    if not _at_origin(design.house, subject.id) or design.ac_surge(subject.id) is not None:
        return
    site, line = design.house.job.site, design.house.job.supply.line
    yield from covered(code.procedures.supply_surge).unprotected(
        code.rulebook,
        lightning=known(site.lightning_protection),
        flashes_per_km2_year=known(site.lightning_density_per_km2_year) if line else None,
        surroundings=line.surroundings if line else None,
        overhead_m=line.overhead_m if line else 0.0,
        cable_m=line.cable_m if line else 0.0,
        high_overhead_m=line.high_overhead_m if line else 0.0,
        high_cable_m=line.high_cable_m if line else 0.0,
    )


def surge_type(design: Design, code: Code, subject: Subject) -> Constraint | None:
    fitted = design.ac_surge(subject.id)
    if fitted is None or not _at_origin(design.house, subject.id):
        return None
    return covered(code.procedures.supply_surge).origin_type(
        code.rulebook, kind=fitted.type, lightning=known(design.house.job.site.lightning_protection)
    )


def surge_rating(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    fitted = design.ac_surge(subject.id)
    if fitted is not None:
        yield from covered(code.procedures.supply_surge).device(
            code.rulebook,
            earthing=known(design.house.job.supply.earthing),
            nominal_v=design.house.job.supply.live[0].voltage_v,
            voltage_max_v=known(fitted.voltage_max_v),
            nominal_a=known(fitted.nominal_a),
        )


def surge_reach(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """A board with an inverter on it, far from the surge device that protects the house."""
    house = design.house
    own = {circuit.run for circuit in house.boards[subject.id].circuits}
    if not any(own & set(feed.runs) for feed in feeds(design)) or design.ac_surge(subject.id) is not None:
        return None
    distance_m = 0.0
    for leg in reversed(_legs(house, subject.id)):
        distance_m += length_m(house, leg.run)
        start = house.runs[leg.run].start
        if start in house.boards and design.ac_surge(start) is not None:
            return covered(code.procedures.supply_surge).reach(code.rulebook, distance_m=distance_m)
    return None


def _at_origin(house: House, board: str) -> bool:
    """Whether it is the first board that the network feeds."""
    way = _legs(house, board)
    return bool(way) and all(leg.circuit is None for leg in way)


def _legs(house: House, board: str) -> tuple[Leg, ...]:
    return legs(house, house.feeding["grid"].get(board, ()))


def surge_devices(design: Design, subject: Subject) -> Iterator[Decided]:
    """Its own, and those nearer to the network that may protect it as well."""
    yield Decided("ac_surge", subject.id)
    for leg in _legs(design.house, subject.id):
        if design.house.runs[leg.run].start in design.house.boards:
            yield Decided("ac_surge", design.house.runs[leg.run].start)


QUESTIONS = (
    Question(
        "board.surge",
        "Is the house protected against surges from its supply?",
        boards,
        each(unprotected, surge_type, surge_rating, surge_reach),
        surge_devices,
    ),
)
