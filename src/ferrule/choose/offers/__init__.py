"""What may be chosen, in the order of choosing."""

from typing import Any

from ferrule.choose.offers import battery, bus, circuit, earth, fixing, lifting, network, roof, string
from ferrule.choose.offers.offer import Offer

#: the fuses of strings and batteries; then from the origin outward the device of a circuit, and conductors
BEFORE_PATHS: tuple[Offer, ...] = (
    string.FUSE,
    battery.PROTECTION,
    circuit.RATING,
    circuit.CURVE,
    circuit.CONDUCTOR,
)

#: what depends on the conductors once shared paths have settled their drop and rise
AFTER_PATHS: tuple[Offer, ...] = (
    circuit.NEUTRAL,
    circuit.PROTECTIVE,
    circuit.BREAKING_CAPACITY,
    string.ISOLATOR,
    string.SURGE,
    network.RCD,
    network.SURGE,
    earth.EARTHING,
    earth.BONDING,
    bus.TERMINATORS,
    bus.BIAS,
    fixing.ANCHOR,
    lifting.LIFTING,
    roof.HOOKS,
)

#: decisions that are always given, where only a remedy may propose another
GIVEN: tuple[Offer, ...] = (string.MODULES,)

BY_KIND = {offer.kind: offer for offer in (*BEFORE_PATHS, *AFTER_PATHS, *GIVEN)}


def spelled(kind: str, value: Any) -> str:
    """A choice as the job file would say it."""
    return BY_KIND[kind].spell(value)


def named(kind: str) -> str:
    """A kind of decision in words: `DC surge`, `breaking capacity`."""
    return " ".join(each.upper() if each in {"ac", "dc", "rcd"} else each for each in kind.split("_"))
