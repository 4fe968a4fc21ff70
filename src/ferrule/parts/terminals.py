"""The terminals of a device: where its conductors land, and how their ends are to be prepared."""

from typing import Annotated, Any, Literal

from pydantic import AfterValidator, Field, StringConstraints, field_validator

from ferrule.document import Record
from ferrule.fact import Fact, missing
from ferrule.quantity import LengthMm, Size, Unit

Kind = Literal[
    "screw", "spring", "stud", "dc-plug", "ac-plug", "multi-pin", "rj45", "accessory", "aerial", "coupling"
]
Serves = Literal["mains", "pv", "battery", "signal", "protective"]
Strands = Literal["rigid", "flexible", "sleeved"]
PoleName = Annotated[str, StringConstraints(strip_whitespace=True, pattern=r"^[A-Za-z0-9+\-]{1,12}$")]
Word = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1)]
StripMm = Annotated[float, Unit("mm", 3, 100)]
TightenNM = Annotated[float, Unit("N·m", 0.05, 200)]
ClampMm = Annotated[float, Unit("mm", 1, 100)]
Count = Annotated[int, Unit("", 1, 64, whole=True)]

#: the kinds that a driver or a wrench tightens
TIGHTENED = frozenset({"screw", "stud"})
#: the kinds into which a whole plug goes, made up beforehand or bought so
PLUGGED = frozenset({"rj45", "accessory", "aerial", "coupling"})


class SizeRange(Record):
    """The sizes that a terminal takes, both included."""

    least: Size = Field(alias="from", description="the smallest size")
    most: Size = Field(alias="to", description="the largest size")

    @field_validator("most")
    @classmethod
    def _not_below(cls, most: Size, info: Any) -> Size:
        least = info.data.get("least")
        if least is not None and (least.system == "mm²") != (most.system == "mm²"):
            raise ValueError("both sizes in mm², or both in AWG and kcmil")
        if least is not None and most.area_mm2 < least.area_mm2:
            raise ValueError(f"not below the smallest size, which is {least}")
        return most

    def takes(self, size: Size) -> bool:
        """Whether a size lies within; one of another system goes by its cross-section."""
        return self.least.area_mm2 <= size.area_mm2 <= self.most.area_mm2


class Takes(Record):
    """The sizes a terminal takes of each class of conductor; 'none' where its maker forbids the class."""

    rigid: Fact[SizeRange | Literal["none"]] = missing("sizes of solid and stranded conductors it takes")
    flexible: Fact[SizeRange | Literal["none"]] = missing("sizes of bare fine-stranded conductors it takes")
    sleeved: Fact[SizeRange | Literal["none"]] = missing(
        "sizes of fine-stranded conductors with a ferrule that it takes"
    )


class Entry(Record):
    """The way by which a cable enters: a gland, or the shell of a plug."""

    thread: Word = Field(description="its thread, such as M25")
    clamps_from_mm: ClampMm = Field(description="thinnest cable its seal holds")
    clamps_to_mm: ClampMm = Field(description="thickest cable its seal holds")
    torque_n_m: TightenNM | None = Field(
        default=None, description="torque of its cap, where its maker says so"
    )

    @field_validator("clamps_to_mm")
    @classmethod
    def _not_below(cls, most_mm: float, info: Any) -> float:
        least_mm = info.data.get("clamps_from_mm")
        if least_mm is not None and most_mm < least_mm:
            raise ValueError(f"not below clamps_from, which is {least_mm:g} mm")
        return most_mm


class TerminalBlock(Record):
    """Terminals alike that belong together: one port of a device, with a pole for each conductor."""

    port: Word = Field(description="the port as the job names it: grid, PV1, BUS; earth for its earth stud")
    kind: Kind = Field(description="how a conductor is held there")
    serves: Serves = Field(description="the circuit it belongs to, which tells its voltage class")
    poles: list[PoleName] = Field(min_length=1, description="in the order in which the fitter sees them")
    sets: Count = Field(default=1, description="how many such sets side by side, as for strings in parallel")
    x_mm: Fact[LengthMm] = missing("where its first pole sits, from the left edge as the fitter faces it")
    y_mm: Fact[LengthMm] = missing("where its first pole sits, from the lower edge as the fitter faces it")
    pitch_mm: Fact[LengthMm] = missing("distance from pole to pole")
    takes: Takes = Takes()
    conductors: Fact[Count] = missing("how many conductors go under one terminal")
    twin: bool = Field(default=False, description="whether two conductors in one ferrule may go in as one")
    sleeve: Fact[Literal["needed", "allowed", "none"]] = missing(
        "whether a flexible conductor needs a ferrule"
    )
    sleeve_length_mm: LengthMm | None = Field(
        default=None, description="length of the ferrule's barrel it asks for"
    )
    strip_mm: Fact[StripMm] = missing("length to strip, from its sheet")
    torque_n_m: Fact[TightenNM] = missing("tightening torque, from its sheet; not asked of springs and plugs")
    bolt: Annotated[str, Field(pattern=r"^M\d{1,2}$")] | None = Field(
        default=None, description="bolt of a stud, such as M6"
    )
    tool: Fact[Word] = missing("the tool that closes or opens it: driver, key, crimper")
    entry: Entry | None = None
    order: list[Word] = Field(
        default=[], description="what is threaded over the cable before stripping, the outermost first"
    )
    pins: list[Count] = Field(default=[], description="the pin of each pole, where it is a plug with pins")
    mates: Word | None = Field(
        default=None, description="the family of plugs it mates with, where only one does"
    )
    in_box: bool = Field(default=False, description="whether its counterpart comes in the device's box")
    needed: bool = Field(default=False, description="whether nothing may ever leave it unconnected")

    @field_validator("poles")
    @classmethod
    def _each_once(cls, given: list[str]) -> list[str]:
        if twice := next((each for each in given if given.count(each) > 1), None):
            raise ValueError(f"each pole once, and '{twice}' is there twice")
        return given

    @field_validator("pins")
    @classmethod
    def _a_pin_a_pole(cls, given: list[int], info: Any) -> list[int]:
        poles = info.data.get("poles") or []
        if given and (len(given) != len(poles) or len(set(given)) < len(given)):
            raise ValueError(f"one pin for each of its {len(poles)} poles, none twice")
        return given


def _ports_once(given: list[TerminalBlock]) -> list[TerminalBlock]:
    ports = [block.port for block in given]
    if twice := next((port for port in ports if ports.count(port) > 1), None):
        raise ValueError(f"each port once, and '{twice}' is there twice")
    return given


Blocks = Annotated[list[TerminalBlock], AfterValidator(_ports_once)]


class BoardPart(Record):
    """A distribution board as it comes: its terminals, its rails."""

    id: str
    kind: Literal["board"]
    name: str
    source: str
    ways: Fact[Count] = missing("module widths on its rails for ways, from its plate or counted")
    terminals: Fact[Blocks] = missing("its terminals: incoming, way, bars for N and PE")
