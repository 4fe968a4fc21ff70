"""What the network operator allows, and what the main fuse, the meter and the boards bear."""

import math
from collections.abc import Callable, Iterator
from typing import Literal

from ferrule.checks.current import design_current_a, flows, most_a
from ferrule.checks.feeding import feeds
from ferrule.checks.protection import protector
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import boards, feeding_inverters, supply
from ferrule.clauses import Code
from ferrule.constraint import Constraint, at_least, at_most, is_so
from ferrule.design import Design, House
from ferrule.fact import all_known, known
from ferrule.job.devices import ControllerDevice, MeterDevice
from ferrule.physics import threephase
from ferrule.working import Trace

# What the operator allows


def export(design: Design, code: Code, _subject: Subject) -> Constraint | None:
    """More than is allowed may hang on the wall where a controller, or a meter that all of it passes, holds
    it back.
    """
    t = code.trace()
    inverters = [design.inverter(inverter.id) for inverter in feeding_inverters(design)]
    limit_w: float | Literal["none"] = known(design.house.job.supply.utility.export_max_w)
    if limit_w == "none" or not inverters:
        return None
    all_known(*(part.grid.power_w for part in inverters))
    power_w = t.given("power_w", math.fsum(known(part.grid.power_w) for part in inverters), "all inverters")
    if power_w <= limit_w:
        return at_most(
            "export",
            "The inverters can feed in {value}; the network operator allows {limit}",
            t,
            value=power_w,
            limit=limit_w,
            unit="W",
        )
    meters = [device for device in design.house.devices if _holds_back(design, device)]
    return is_so(
        "export",
        "The inverters can feed in {power_w} and the network operator allows {limit_w}: "
        + ("{meter} has to hold them back" if meters else "nothing measures here to hold them back"),
        t,
        bool(meters),
        mend="add a meter at the origin and set the export limit to {limit_w}",
        power_w=power_w,
        limit_w=limit_w,
        meter=meters[0] if meters else "",
    )


def _holds_back(design: Design, device: str) -> bool:
    """Whether it sees what all inverters feed in: a controller has metering of its own."""
    house = design.house
    if isinstance(house.devices[device], MeterDevice):
        ways = (house.feeding["grid"][f"{each.id}.grid"] for each in feeding_inverters(design))
        return all(any(device in (link.a, link.b) for link in way) for way in ways)
    return isinstance(house.devices[device], ControllerDevice)


def unbalance_fed_in(design: Design, code: Code, _subject: Subject) -> Constraint | None:
    """Those on the other lines may be off, so the sum on one line is the largest difference."""
    t, house = code.trace(), design.house
    limit_va: float | Literal["none"] = known(house.job.supply.utility.unbalance_max_va)
    if limit_va == "none":
        return None
    sums_va = []
    for line, voltage_v in house.voltages_v.items():
        sum_va = voltage_v * math.fsum(feed.current_a for feed in feeds(design) if feed.line == line)
        sums_va.append(t.given("fed_in_va", sum_va, line))
    return at_most(
        "unbalance_fed_in",
        "The inverters can feed {value} more into one line than into another; the network operator allows "
        "{limit}",
        t,
        value=max(sums_va),
        limit=limit_va,
        unit="VA",
        mend="use three-phase inverters, or spread them over the lines",
    )


def unbalance_drawn(design: Design, code: Code, _subject: Subject) -> Constraint | None:
    """Which loads run at once nobody knows: a look, not a stop."""
    t, house = code.trace(), design.house
    limit_va: float | Literal["none"] = known(house.job.supply.utility.unbalance_max_va)
    if limit_va == "none":
        return None
    sums_va = []
    for line, voltage_v in house.voltages_v.items():
        own = (c for c in house.circuits.values() if c.loads and c.phases == [line])
        sum_va = voltage_v * math.fsum(design_current_a(design, c, code.trace()) for c in own)
        sums_va.append(t.given("drawn_va", sum_va, line))
    return at_most(
        "unbalance_drawn",
        "With everything on, the loads draw {value} more from one line than from another; the network "
        "operator allows {limit}",
        t,
        value=t.calculate(
            threephase.phase_unbalance, line_1_va=sums_va[0], line_2_va=sums_va[1], line_3_va=sums_va[2]
        ),
        limit=limit_va,
        unit="VA",
        binding=False,
        mend="move circuits to the line that draws least",
    )


# What the main fuse and the meter bear


def fed_in(design: Design, code: Code, _subject: Subject) -> Constraint | None:
    """What inverters feed in has no rest: the sun shines for hours."""
    found, t = feeds(design), code.trace()
    if not found:
        return None
    return at_most(
        "fed_in",
        "The inverters feed up to {value} into one line; the main fuse is rated {limit}",
        t,
        value=_most_a(design.house, lambda line: (f.current_a for f in found if f.on(line)), t, "fed_in_a"),
        limit=known(design.house.job.supply.main_fuse).rating_a,
        unit="A",
        mend="take smaller inverters, spread them over the lines, or ask for a larger main fuse",
    )


def drawn(design: Design, code: Code, _subject: Subject) -> Constraint:
    """What somebody reckoned the house to draw; else all loads at once with every inverter at its largest
    intake, which is rarely so: a look and not a stop.
    """
    house, t = design.house, code.trace()
    fuse, reckoned_a = known(house.job.supply.main_fuse), house.job.supply.demand_max_a
    if reckoned_a is not None:
        return at_most(
            "drawn",
            "The house is reckoned to draw {value} from one line; the main fuse is rated {limit}",
            t,
            value=reckoned_a,
            limit=fuse.rating_a,
            unit="A",
            mend="ask the network operator for a larger main fuse",
        )
    tails = [run.id for run in house.runs.values() if "supply" in (run.start, run.end)]
    drawing = [flow for run in tails for flow in flows(design, run, t) if not flow.pushed]
    return at_most(
        "drawn",
        "With everything on, the house draws up to {value} from one line; the main fuse is rated {limit}",
        t,
        value=most_a(drawing, list(house.voltages_v), t),
        limit=fuse.rating_a,
        unit="A",
        binding=False,
        mend="reckon what is on at once and state it (supply.demand_max), or ask for a larger main fuse",
    )


def _most_a(house: House, currents_a: Callable[[str], Iterator[float]], t: Trace, name: str) -> float:
    """The largest sum on any line."""
    return max(t.given(name, math.fsum(currents_a(line)), line) for line in house.voltages_v)


def meter(design: Design, code: Code, _subject: Subject) -> Iterator[Constraint]:
    """A direct meter carries all that the main fuse lets through."""
    for device in design.house.job.devices:
        part = design.house.parts[device.part]
        if isinstance(device, MeterDevice) and known(part.connection) == "direct":
            yield at_least(
                "meter",
                "The meter {meter} carries {value}; the main fuse lets {limit} through",
                code.trace(),
                value=known(part.current_max_a),
                limit=known(design.house.job.supply.main_fuse).rating_a,
                unit="A",
                mend="fit a meter with transformers, or one of a higher maximum current",
                meter=device.id,
            )


# What the boards bear


def busbar(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """A board fed from two sides carries both at once (BS EN 61439-3 and regulation 551.7.2 of BS 7671)."""
    house, t = design.house, code.trace()
    own = {circuit.run for circuit in house.boards[subject.id].circuits}
    inside = [feed for feed in feeds(design) if own & set(feed.runs)]
    if not inside:
        return None
    added_a = _most_a(house, lambda line: (f.current_a for f in inside if f.on(line)), t, "fed_in_a")
    upstream_a = t.given("upstream_a", _upstream_a(design, subject.id), "device that feeds the board")
    return at_most(
        "busbar",
        "What feeds the board lets {upstream_a} through and the inverters add {added_a}, together {value}; "
        "its busbars carry {limit}",
        t,
        value=upstream_a + added_a,
        limit=known(house.boards[subject.id].rating_a),
        unit="A",
        mend="land the inverters on a board of their own, or fit busbars of a higher rating",
        upstream_a=upstream_a,
        added_a=added_a,
    )


def board_rcd(design: Design, code: Code, subject: Subject) -> Constraint | None:
    rcd = design.house.boards[subject.id].rcd
    if rcd is None or subject.id not in design.house.feeding["grid"]:
        return None
    return at_least(
        "board_rcd",
        "The board's RCD carries {value}; what feeds the board lets {limit} through",
        code.trace(),
        value=rcd.rating_a,
        limit=_upstream_a(design, subject.id),
        unit="A",
        mend="fit an RCD of a higher rated current",
    )


def order(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """A device larger than the one before it never acts first."""
    board = design.house.boards[subject.id]
    if subject.id not in design.house.feeding["grid"] or not board.circuits:
        return None
    largest = max(board.circuits, key=lambda circuit: design.rating_a(circuit.id))
    return at_most(
        "order",
        "The device of {circuit} is rated {value}; the one before it, rated {limit}, should not be smaller",
        code.trace(),
        value=design.rating_a(largest.id),
        limit=_upstream_a(design, subject.id),
        unit="A",
        binding=False,
        circuit=largest.id,
    )


def _upstream_a(design: Design, board: str) -> float:
    """Rated current of the device that feeds a board: a circuit's, or the main fuse."""
    house = design.house
    found = protector(house, (house.upstream(board) or ("",))[-1])
    circuit = found and found.circuit
    return design.rating_a(circuit.id) if circuit else known(house.job.supply.main_fuse).rating_a


# The questions


def three_phase_supply(design: Design) -> Iterator[Subject]:
    """The supply, if it has three phases."""
    return supply(design) if len(design.house.job.supply.live) == 3 else iter(())


QUESTIONS = (
    Question(
        "supply.export",
        "Does the network operator allow what the inverters can feed in?",
        supply,
        each(export),
    ),
    Question(
        "supply.unbalance",
        "Do the lines stay as alike as the network operator wants them?",
        three_phase_supply,
        each(unbalance_fed_in, unbalance_drawn),
    ),
    Question(
        "supply.main_fuse",
        "Does the main fuse bear what passes, and the meter what the main fuse lets through?",
        supply,
        each(fed_in, drawn, meter),
    ),
    Question(
        "board.ratings",
        "Does the board bear what feeds it?",
        boards,
        each(busbar, board_rcd, order),
    ),
)
