"""What the network operator allows: how much is fed in, and how unlike the lines may be."""

import math
from collections.abc import Iterator, Sequence
from typing import Literal

from ferrule.checks.current import design_current_a
from ferrule.checks.feeding import Feed, feeds
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import feeding_inverters, supply
from ferrule.clauses import Code
from ferrule.constraint import Constraint, at_most, is_so
from ferrule.design import Design, House
from ferrule.fact import all_known, known
from ferrule.job.devices import ControllerDevice, MeterDevice
from ferrule.physics import threephase


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
    """Those on the other lines may be off, so the sum on one line is the largest difference; inverters locked
    to each other run and stop together.
    """
    t, house = code.trace(), design.house
    limit_va: float | Literal["none"] = known(house.job.supply.utility.unbalance_max_va)
    if limit_va == "none":
        return None
    alone = [feed for feed in feeds(design) if len(feed.lines) == 1]
    locked = {feed: design.inverter_device(feed.inverter).phase_locked for feed in alone}
    sure_va = _most_alone_va(house, alone, [feed for feed in alone if locked[feed] is True])
    if sure_va > limit_va >= _most_alone_va(house, alone, [f for f in alone if locked[f] is not False]):
        all_known(*locked.values())
    return at_most(
        "unbalance_fed_in",
        "The inverters can feed {value} more into one line than into another; the network operator allows "
        "{limit}",
        t,
        value=t.given("fed_in_va", sure_va, "inverters of one phase"),
        limit=limit_va,
        unit="VA",
        mend="use three-phase inverters, lock single-phase ones together, or spread them over the lines",
    )


def _most_alone_va(house: House, alone: Sequence[Feed], locked: Sequence[Feed]) -> float:
    """The most of one line while the others have none but what is locked to it."""

    def va(feeds: Sequence[Feed], line: str) -> float:
        return house.voltages_v[line] * math.fsum(feed.current_a for feed in feeds if feed.on(line))

    together_va = min(va(locked, line) for line in house.voltages_v)
    return max(va(alone, line) for line in house.voltages_v) - together_va


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
)
