"""Where signals land on a device: the ports of its buses, and its contacts."""

from typing import Annotated, Any, Literal, TypeVar

from pydantic import AfterValidator, Field, StringConstraints, ValidationInfo, field_validator

from ferrule.document import Record
from ferrule.fact import Fact, missing
from ferrule.parts.wiring import OuterMm
from ferrule.quantity import LengthM, Size, Unit, VoltageV

BusKind = Literal["rs485", "can"]
Parity = Literal["even", "odd", "none"]
ActsOn = Literal["closing", "opening"]
SpeedBitPerS = Annotated[float, Unit("bit/s", 300, 20e6)]
ResistorOhm = Annotated[float, Unit("Ω", 10, 1e6)]
BiasV = Annotated[float, Unit("V", 1, 48)]
Mark = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=12)]
ProtocolName = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1)]
UnitLoads = Annotated[float, Unit("", 0.01, 32)]
Address = Annotated[int, Unit("", 0, 65_535, whole=True)]
T = TypeVar("T", "Port", "Contact")

Pairs = Annotated[int, Unit("", 1, 100, whole=True)]


class PortBias(Record):
    """The two resistors by which a port holds the idle bus."""

    up_ohm: ResistorOhm = Field(description="from its supply to the plus line")
    down_ohm: ResistorOhm = Field(description="from the minus line to its reference")
    supply_v: BiasV
    switchable: bool = Field(default=False, description="whether it can be switched off")


class Port(Record):
    """A port of a signal bus of two wires."""

    id: str
    kind: BusKind
    role: Fact[Literal["client", "server", "either"]] = missing(
        "whether the port asks (client), answers (server) or can be set to do either; not asked of CAN"
    )
    protocols: Fact[list[ProtocolName]] = missing("the protocols the port speaks, from the manual")
    speeds_bit_per_s: Fact[list[SpeedBitPerS]] = missing("the speeds the port can be set to, from the manual")
    parities: Fact[list[Parity]] = missing("the parities the port can be set to; not asked of CAN")
    terminator: Fact[Literal["none", "switchable", "built-in"]] = missing(
        "whether the port has a terminator: none, switchable, or built-in where it is always on"
    )
    terminator_of_ohm: ResistorOhm | None = Field(
        default=None, description="resistance of its terminator, where other than that of the standard"
    )
    ends: Literal["both", "last", "none"] | None = Field(
        default=None,
        description="which ends of the line its maker wants terminated where it leads, if not both: the last "
        "only, or none",
    )
    bias: Fact[PortBias | Literal["none"]] = missing(
        "the bias resistors of the port, or 'none'; not asked of CAN"
    )
    fail_safe: Fact[bool] = missing(
        "whether its receiver takes 0 V between the lines for idle, without bias; not asked of CAN"
    )
    load: Fact[UnitLoads] = missing("unit loads of its receiver: 1, or 0.125 for an eighth; not asked of CAN")
    address_low: Address | None = Field(default=None, description="lowest address it can be set to")
    address_high: Address | None = Field(default=None, description="highest address it can be set to")
    plus: Fact[Mark] = missing(
        "mark of the terminal that is positive while nobody sends, such as B or +, from the manual or by a "
        "meter, for makers swap A and B; not asked of CAN"
    )
    minus: Fact[Mark] = missing("mark of the terminal beside it; not asked of CAN")
    reference: Fact[bool] = missing("whether the port has a terminal for the signal reference")
    screen: Literal["earthed", "open"] | None = Field(
        default=None, description="what its maker wants done with the cable's screen there, where he says so"
    )
    length_max_m: LengthM | None = Field(
        default=None, description="longest bus its maker allows, where he states one"
    )

    @field_validator("minus")
    @classmethod
    def _another(cls, given: Any, info: ValidationInfo) -> Any:
        if given == info.data.get("plus"):
            raise ValueError(f"another mark than plus, which is '{given}'")
        return given


class Contact(Record):
    """A dry contact: an output that closes and opens, or an input that watches one."""

    id: str
    kind: Literal["input", "output"]
    use: Literal["stop", "power-limit", "start", "island", "other"] = Field(
        description="what it is for: emergency stop, limit of power, start of a generator, island mode"
    )
    acts_on: Fact[ActsOn] = missing(
        "whether it acts when the contact closes or when it opens, from the manual; then try it"
    )
    length_max_m: LengthM | None = Field(
        default=None, description="longest cable its maker allows to it, where he states one"
    )


def _each_once(given: list[T]) -> list[T]:
    """Ports or contacts of one device are told apart by their ids."""
    ids = [each.id for each in given]
    if twice := next((each for each in ids if ids.count(each) > 1), None):
        raise ValueError(f"each id once, and '{twice}' is there twice")
    return given


Ports = Annotated[list[Port], AfterValidator(_each_once)]
Contacts = Annotated[list[Contact], AfterValidator(_each_once)]


class SignalCable(Record):
    """A cable of twisted pairs for a signal bus."""

    id: str
    kind: Literal["signal-cable"]
    name: str
    source: str
    core: Fact[Size] = missing("size of its cores, from its sheet or print")
    pairs: Fact[Pairs] = missing("how many twisted pairs it has")
    screened: Fact[bool] = missing("whether it has a screen")
    voltage_max_v: Fact[VoltageV] = missing("voltage its insulation is rated for")
    outer_mm: Fact[OuterMm] = missing("its outer diameter, from its sheet")
    strands: Literal["class1", "class2", "class5"] | None = Field(
        default=None, description="class of its conductors, where its sheet says so"
    )
