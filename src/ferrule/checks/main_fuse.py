"""What the main fuse bears, and the meter behind it."""

from collections.abc import Iterator

from ferrule.checks.current import flows, most_a
from ferrule.checks.feeding import feeds, most_fed_in_a
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import supply
from ferrule.clauses import Code
from ferrule.constraint import Constraint, at_least, at_most
from ferrule.design import Design
from ferrule.fact import known
from ferrule.job.devices import MeterDevice


def fed_in(design: Design, code: Code, _subject: Subject) -> Constraint | None:
    """What inverters feed in has no rest: the sun shines for hours."""
    found, t = feeds(design), code.trace()
    if not found:
        return None
    return at_most(
        "fed_in",
        "The inverters feed up to {value} into one line; the main fuse is rated {limit}",
        t,
        value=most_fed_in_a(design, found, t),
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


QUESTIONS = (
    Question(
        "supply.main_fuse",
        "Does the main fuse bear what passes, and the meter what the main fuse lets through?",
        supply,
        each(fed_in, drawn, meter),
    ),
)
