"""What a battery's circuit leaves open: its protective device."""

from collections.abc import Sequence
from typing import Any, cast

from ferrule.checks.battery import fault_a
from ferrule.choose.offers.offer import Offer, as_written
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.design import Design
from ferrule.fact import Missing, Unknown
from ferrule.job.devices import BatteryProtection
from ferrule.job.firm import Firm


def _devices(design: Design, code: Code, _firm: Firm, battery: str) -> Sequence[BatteryProtection]:
    """A fuse of each rating for both poles, of the least voltage and breaking capacity that will do.

    Where these are not known yet, the questions will say what is missing.
    """
    clause, rulebook = covered(code.procedures.battery_circuit), code.rulebook
    high_v = design.battery(battery).voltage_high_v
    try:
        prospective_a = fault_a(design, battery, code.trace())
    except Missing:
        prospective_a = 0.0
    return [
        BatteryProtection.model_construct(
            kind=cast(Any, clause.class_of_fuse(rulebook)),
            rating_a=rating_a,
            voltage_max_v=_reaching(
                0.0 if isinstance(high_v, Unknown) else high_v, clause.voltages_v(rulebook)
            ),
            breaking_capacity_a=_reaching(prospective_a, clause.breaking_capacities_a(rulebook)),
            poles="both",
            polarised=False,
        )
        for rating_a in clause.ratings_a(rulebook)
    ]


def _reaching(needed: float, ratings: Sequence[float]) -> float:
    """The lowest rating that reaches what is needed; the highest there is where none does."""
    return next((rating for rating in ratings if rating >= needed), ratings[-1])


PROTECTION = Offer(
    "battery_protection",
    owners=lambda design: dict.fromkeys(design.house.battery_runs.values()),
    given=lambda design, battery: design.battery_device(battery).protection,
    candidates=_devices,
    path="devices.{owner}.protection",
    spell=as_written,
)
