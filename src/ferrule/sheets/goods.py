"""What a job takes: every thing to buy, by what it is for and where it goes."""

from collections.abc import Callable, Iterable, Iterator
from typing import Literal, NamedTuple

from ferrule.fact import Fact, Missing, Unknown
from ferrule.sheets.texts import say

Kind = Literal[
    "cable", "patch", "conduit",
    "gland",
    "breaker", "fuse", "rcd", "string_fuse", "surge", "dc_isolator", "battery_fuse", "battery_isolator",
    "enclosure", "interlock",
    "ferrule", "twin", "lug", "ring", "contact", "ac_plug", "modular_plug", "shrink", "core_cap", "clamp",
    "anchor", "resin", "plate", "plate_screw", "securing", "tie",
    "hook", "hook_screw", "rail", "splice", "mid_clamp", "end_clamp",
    "module", "device", "board", "transformer", "terminator",
    "marker",
]  # fmt: skip
Group = Literal["cable", "entries", "protective", "ends", "fixings", "mounting", "devices", "labels"]

#: how a wholesaler sells them
GROUPS: dict[Group, tuple[Kind, ...]] = {
    "cable": ("cable", "patch", "conduit"),
    "entries": ("gland",),
    "protective": (
        "breaker", "fuse", "rcd", "string_fuse", "surge", "dc_isolator", "battery_fuse", "battery_isolator",
        "enclosure", "interlock",
    ),
    "ends": (
        "ferrule", "twin", "lug", "ring", "contact", "ac_plug", "modular_plug", "shrink", "core_cap", "clamp",
    ),
    "fixings": ("anchor", "resin", "plate", "plate_screw", "securing", "tie"),
    "mounting": ("hook", "hook_screw", "rail", "splice", "mid_clamp", "end_clamp"),
    "devices": ("module", "device", "board", "transformer", "terminator"),
    "labels": ("marker",),
}  # fmt: skip

#: what is small enough to be lost or spoiled, so that spares are bought with it
SMALL: frozenset[Kind] = frozenset(
    ("gland", "ferrule", "twin", "lug", "ring", "contact", "modular_plug", "shrink", "core_cap",
     "anchor", "plate_screw", "tie", "hook", "hook_screw", "splice", "mid_clamp", "end_clamp", "marker")
)  # fmt: skip

#: what is counted in metres
IN_METRES: frozenset[Kind] = frozenset(("cable", "conduit"))


class Good(NamedTuple):
    """So many of a thing, what they are for (an id of the job), at which place they go. `item` tells it from
    all else of its kind. Where nobody knows what or how many, `amount` says what to find out.
    """

    kind: Kind
    item: str
    amount: Fact[float]
    of: str
    place: str


def good(kind: Kind, count: float, of: str, place: str, /, **words: object) -> Good:
    """A thing in the words of its kind."""
    return Good(kind, say(f"goods.{kind}", **words), count, of, place)


def asked(kind: Kind, of: str, place: str, work: Callable[[], Iterable[Good]]) -> Iterator[Good]:
    """What `work` finds; where it lacks a fact, one line that says what to find out."""
    try:
        yield from list(work())
    except Missing as missing:
        yield Good(
            kind, say("goods.unknown", kind=say(f"kind.{kind}")), Unknown("; ".join(missing.asks)), of, place
        )
