"""The steps of this very job, from unloading to handing over, as data: one file a phase."""

from collections.abc import Callable, Iterable, Iterator, Sequence

from ferrule.design import Design
from ferrule.proving.steps import (
    alternating,
    battery,
    delivery,
    earth,
    energise,
    handover,
    hang,
    isolate,
    mark,
    outage,
    settings,
    signal,
    strings,
)
from ferrule.proving.steps.delivery import LOCAL_RULES
from ferrule.proving.steps.plan import Plan
from ferrule.proving.steps.step import (
    NEVER_OVERRIDDEN,
    Gate,
    Phase,
    Reading,
    Step,
    held,
)

__all__ = [
    "NEVER_OVERRIDDEN", "PHASES", "Gate", "Phase", "Reading", "Step", "cautions", "held", "steps",
]  # fmt: skip

_PHASES: dict[Phase, Callable[[Plan, Sequence[Step]], Iterator[Step]]] = {
    "delivery": delivery.steps,
    "isolate": isolate.steps,
    "mark": mark.steps,
    "hang": hang.steps,
    "earth": earth.steps,
    "ac": alternating.steps,
    "signal": signal.steps,
    "battery": battery.steps,
    "strings": strings.steps,
    "settings": settings.steps,
    "energise": energise.steps,
    "outage": outage.steps,
    "handover": handover.steps,
}

#: the phases of a day in their order
PHASES: tuple[Phase, ...] = tuple(_PHASES)


def steps(design: Design) -> tuple[Step, ...]:
    """Every step of a job, each behind all that it requires."""
    plan, found = Plan(design), list[Step]()
    for phase in _PHASES.values():
        found += list(phase(plan, tuple(found)))
    return tuple(found)


def cautions(found: Iterable[Step]) -> tuple[str, ...]:
    """The notes of safety for the head of a list or a pack, each once, in the order in which they matter:
    that local rules and licensed practice prevail stands first.
    """
    noted = (caution for step in found for caution in step.cautions)
    return tuple(dict.fromkeys([LOCAL_RULES, *noted]))
