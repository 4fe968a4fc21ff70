"""Earthing and bonding."""

from typing import Annotated, Literal

from pydantic import Field

from ferrule.document import Record
from ferrule.fact import Decision, Fact, assumed, missing, to_choose
from ferrule.quantity import LengthM, Size, Unit

ElectrodeOhm = Annotated[float, Unit("Ω", 0.01, 100_000)]


class Electrode(Record):
    """The consumer's own earth electrode."""

    kind: Literal["rod", "tape", "foundation", "ring"]
    resistance_ohm: Fact[ElectrodeOhm] = missing("resistance of the earth electrode, measured")


class Bonding(Record):
    """A bonding conductor from the main earthing terminal (or a local one) to a part."""

    id: str
    to: Literal["water", "gas", "structure", "heating", "array", "other"]
    role: Literal["main", "supplementary", "array"]
    protected: bool = assumed(True, "bonding conductors are protected against damage")
    circuit: Fact[str] = missing("the circuit whose exposed metal a supplementary conductor bonds")
    size: Decision[Size] = to_choose("size of the bonding conductor")
    length_m: Fact[LengthM] = missing("length of the bonding conductor")


class EarthLead(Record):
    """A protective conductor of its own to the earth stud of a device, besides those in its cables."""

    id: str
    to: str = Field(description="the device")
    at: str = Field(description="the board at whose bar it starts, or a device at whose earth stud")
    size: Fact[Size] = missing("size of the conductor, as the device's maker asks at least")
    length_m: Fact[LengthM] = missing("length of the conductor")


class Earth(Record):
    """The earthing of the house."""

    electrode: Fact[Electrode | Literal["none"]] = missing("the consumer's earth electrode, or 'none'")
    conductor: Decision[Size] = to_choose("size of the earthing conductor")
    extraneous: Fact[list[Literal["water", "gas", "structure", "heating"]]] = missing(
        "which metal parts enter the house from outside: water, gas or heating pipes, structural steel; "
        "[] if none"
    )
    insulation_monitor: Fact[bool] = missing("whether an insulation monitor watches the IT system")
    conductor_length_m: Fact[LengthM] = missing(
        "length of the earthing conductor, from electrode to main board"
    )
    cable: Fact[str] = missing("the conductor used for earthing and bonding, by the id of its part")
    leads: list[EarthLead] = []
    bonding: list[Bonding] = []
