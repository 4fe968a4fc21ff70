"""One piece of site work."""

from collections.abc import Iterable
from typing import Literal, NamedTuple

from ferrule.checks.question import Subject
from ferrule.proving.phrase import Words, asks

Phase = Literal[
    "delivery", "isolate", "mark", "hang", "earth", "ac", "signal", "battery", "strings", "settings",
    "energise", "outage", "handover",
]  # fmt: skip

#: who may let a step go ahead without its readings: for `dead` and `polarity` nobody, else the licensed role
Gate = Literal["dead", "polarity", "licensed"]
NEVER_OVERRIDDEN: frozenset[Gate] = frozenset({"dead", "polarity"})


class Reading(NamedTuple):
    """What is to be measured or noted at a step: its id within the job, the key of its text, its unit."""

    id: str
    text: str
    unit: str
    words: Words = ()


class Step(NamedTuple):
    """One piece of site work.

    `id` is made of what is done and the job's own id, `text` is a key of the catalogue. `requires` names the
    steps that come before it. `parts` are ids of the job's parts, `drawing` the id of a drawing; `tools`,
    `cautions` and the texts of `readings` are keys of the catalogue. A step waits for what is not known
    among its `words`.
    """

    id: str
    text: str
    phase: Phase
    place: str
    subject: Subject
    requires: tuple[str, ...] = ()
    words: Words = ()
    tools: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()
    drawing: str = ""
    readings: tuple[Reading, ...] = ()
    gate: Gate | None = None
    cautions: tuple[str, ...] = ()

    @property
    def find_out(self) -> tuple[str, ...]:
        """What has to be found out before the step can be done: it is blocked, not guessed."""
        return tuple(dict.fromkeys(ask for _, word in self.words for ask in asks(word)))


def held(steps: Iterable[Step]) -> dict[str, tuple[str, ...]]:
    """The steps that cannot be reached yet, each with all that has to be found out for it or before it."""
    found: dict[str, tuple[str, ...]] = {}
    for step in steps:
        asks = [*step.find_out, *(ask for before in step.requires for ask in found.get(before, ()))]
        if asks:
            found[step.id] = tuple(dict.fromkeys(asks))
    return found
