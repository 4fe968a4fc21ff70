"""What a circuit leaves open: its device, and the sizes of its conductors."""

from collections.abc import Iterator, Sequence

from ferrule.checks.current import cable_kind, laid
from ferrule.choose.offers.offer import Offer, amperes, carried_first
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.design import Decided, Design
from ferrule.fact import Open
from ferrule.job.firm import Firm
from ferrule.quantity import Size


def _ratings(design: Design, code: Code, firm: Firm, circuit: str) -> Sequence[float]:
    kind = design.house.circuits[circuit].device.kind
    return carried_first(covered(code.procedures.conductor).ratings_a(code.rulebook, kind), firm.ratings_a)


def _sizes(design: Design, code: Code, firm: Firm, run: str) -> Sequence[Size]:
    if run in design.house.string_runs:
        sizes = covered(code.procedures.dc_conductor).sizes(code.rulebook)
    elif run in design.house.battery_runs:
        sizes = covered(code.procedures.battery_circuit).sizes(
            code.rulebook, cable=cable_kind(design, run), stretches=laid(design, run)
        )
    else:
        sizes = covered(code.procedures.conductor).sizes(code.rulebook)
    return carried_first(sizes, firm.sizes)


def _other_sizes(design: Design, code: Code, firm: Firm, run: str) -> Sequence[Size]:
    """Of a neutral or protective conductor, where there are rules for them."""
    covered(code.procedures.other_cores)
    return _sizes(design, code, firm, run)


def _other_cores(design: Design, run: str, size: Size) -> Iterator[tuple[Decided, Size]]:
    """Until they are chosen the other cores of a cable are as thick as its lines."""
    if isinstance(design.house.runs[run].neutral, Open):
        yield Decided("neutral", run), size
    if isinstance(design.house.runs[run].protective, Open):
        yield Decided("protective", run), size


def _curves(design: Design, code: Code, firm: Firm, circuit: str) -> Sequence[str]:
    kind = design.house.circuits[circuit].device.kind
    curves = covered(code.procedures.short_circuit).curves(code.rulebook, kind)
    return carried_first(curves, [firm.curve] if firm.curve else [])


def _breaking_capacities(design: Design, code: Code, firm: Firm, circuit: str) -> Sequence[float]:
    kind = design.house.circuits[circuit].device.kind
    offered = covered(code.procedures.short_circuit).breaking_capacities_a(code.rulebook, kind)
    return carried_first(offered, firm.breaking_capacity_a)


def _circuits(design: Design) -> Sequence[str]:
    return [circuit.id for circuit in design.house.from_origin]


RATING = Offer(
    "rating",
    owners=_circuits,
    given=lambda design, circuit: design.house.circuits[circuit].device.rating_a,
    candidates=_ratings,
    path="circuits.{owner}.device.rating",
    spell=amperes,
)
CURVE = Offer(
    "curve",
    owners=lambda design: [c for c in _circuits(design) if design.house.circuits[c].device.kind == "mcb"],
    given=lambda design, circuit: design.house.circuits[circuit].device.curve,
    candidates=_curves,
    path="circuits.{owner}.device.curve",
)
CONDUCTOR = Offer(
    "conductor",
    owners=lambda design: [*design.house.ac_runs, *design.house.string_runs, *design.house.battery_runs],
    given=lambda design, run: design.house.runs[run].size,
    candidates=_sizes,
    path="runs.{owner}.size",
    brings=_other_cores,
)
NEUTRAL = Offer(
    "neutral",
    owners=lambda design: design.house.ac_runs,
    given=lambda design, run: design.house.runs[run].neutral,
    candidates=_other_sizes,
    path="runs.{owner}.neutral",
)
PROTECTIVE = Offer(
    "protective",
    owners=lambda design: design.house.ac_runs,
    given=lambda design, run: design.house.runs[run].protective,
    candidates=_other_sizes,
    path="runs.{owner}.protective",
)
BREAKING_CAPACITY = Offer(
    "breaking_capacity",
    owners=_circuits,
    given=lambda design, circuit: design.house.circuits[circuit].device.breaking_capacity_a,
    candidates=_breaking_capacities,
    path="circuits.{owner}.device.breaking_capacity",
    spell=amperes,
)
