"""The signal buses and signal contacts of this house."""

from typing import Literal

from pydantic import Field

from ferrule.document import Record
from ferrule.fact import Decision, Fact, missing, to_choose
from ferrule.parts.port import ActsOn, Address, BusKind, Mark, Parity, ProtocolName, SpeedBitPerS
from ferrule.quantity import LengthM, LengthMm, VoltageV


class BusNode(Record):
    """A port on a bus."""

    port: str = Field(description="device and port, such as INV1.BUS")
    address: Fact[Address] = missing("the address set on the device; not asked of who asks, nor of CAN")
    first_core: Fact[Mark] = missing(
        "the mark of the terminal on which the first core of the pair lands, the same core at every device; "
        "not asked of CAN"
    )
    tap_m: LengthM | None = Field(
        default=None,
        description="length of the tap between line and device, where the line does not run through it",
    )


class PowerBeside(Record):
    """A power cable that runs along beside a signal cable."""

    distance_mm: LengthMm = Field(description="between the two cables; 0 where they touch or share a duct")
    voltage_v: VoltageV = Field(description="highest voltage in the power cable")
    screened: bool = Field(default=False, description="whether the power cable is screened")
    divider: Literal["none", "aluminium", "steel"] = Field(
        default="none", description="earthed metal between the two"
    )


class BusLink(Record):
    """The cable between two ports of a bus."""

    start: str = Field(alias="from")
    end: str = Field(alias="to")
    length_m: Fact[LengthM] = missing("length of the signal cable between the two devices")
    power: Fact[PowerBeside | Literal["apart"]] = missing(
        "the nearest power cable that runs along beside it, or 'apart' where none does"
    )


class Bus(Record):
    """A signal bus of two wires."""

    id: str
    kind: BusKind
    cable: str
    protocol: Fact[ProtocolName] = missing("the protocol set on all devices of the bus")
    speed_bit_per_s: Fact[SpeedBitPerS] = missing("the speed set on all devices of the bus")
    parity: Fact[Parity] = missing("the parity set on all devices of the bus; not asked of CAN")
    client: Fact[str] = missing("the port that asks the others; not asked of CAN")
    reference: Fact[bool] = missing("whether a conductor joins the signal references of all its devices")
    screen: Fact[list[str]] = missing("the ports at which the cable's screen is earthed; [] if at none")
    terminators: Decision[list[str]] = to_choose(
        "the ports at which a terminator is on or fitted, besides those built in"
    )
    bias: Decision[list[str]] = to_choose("the ports at which a bias that can be switched is on")
    nodes: list[BusNode] = Field(min_length=2, max_length=64)
    links: list[BusLink] = Field(min_length=1, max_length=64)

    def named_links(self) -> list[tuple[str, BusLink]]:
        """Its cables, each with a name that tells it from the others."""
        return [(f"{link.start} to {link.end}", link) for link in self.links]


class SignalContact(Record):
    """Two wires between a contact and the input that watches it."""

    id: str
    start: str = Field(alias="from", description="an output such as CO.ISLAND, or a button in words")
    end: str = Field(alias="to", description="the input, such as INV1.STOP")
    acts_on: Fact[ActsOn] = missing(
        "whether the button or receiver acts by closing or by opening; not asked of a device's output"
    )
    dry: Fact[bool] = missing("whether the contact is free of any voltage of its own")
    cable: Fact[str] = missing("the cable of the two wires, by the id of its part")
    length_m: Fact[LengthM] = missing("length of its cable")
