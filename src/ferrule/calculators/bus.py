"""Signal buses of two wires: what a meter should read on one."""

from typing import Annotated, Literal, NamedTuple

from ferrule.calculators.calculator import About, Calculator
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.clauses.procedures.bus import SignalBus
from ferrule.physics.bus import Bias, Link, Network, Node
from ferrule.quantity import LengthM, ResistanceOhm, Size, Unit, VoltageV
from ferrule.working import Trace

BiasV = Annotated[float, Unit("V", 1, 48)]
Kind = Annotated[Literal["rs485", "can"], About("which bus")]
Devices = Annotated[int, Unit("", 2, 64, whole=True), About("devices on the bus, both ends included")]
Here = Annotated[bool, About("whether a terminator is on at the end where the meter is")]
There = Annotated[bool, About("whether one is on at the other end")]
Between = Annotated[int, Unit("", 0, 64, whole=True), About("terminators on in between, where none belongs")]
Load = Annotated[float, Unit("", 0.01, 32), About("unit loads of each receiver: 1, or 0.125 for an eighth")]
Resistor = Annotated[float, Unit("Ω", 10, 1e6), About("each of the two bias resistors, at the meter's end")]
Length = Annotated[LengthM, About("from end to end; the devices are spread evenly")]
Core = Annotated[Size, About("size of a core of the signal cable")]

Supply = Annotated[BiasV | None, About("supply of the bias, if other than the usual one")]

THIN = Size("mm²", "0.22")


class BusResistance(NamedTuple):
    reading_ohm: Annotated[ResistanceOhm, About("between the lines, everything without power")]
    low_ohm: Annotated[ResistanceOhm, About("as little as it may be, parts being what they are", "down")]
    high_ohm: Annotated[
        ResistanceOhm | None, About("as much as it may be; none where nothing bounds it", "up")
    ]


def bus_resistance(
    t: Trace,
    *,
    code: Code,
    devices: Devices,
    here: Here,
    there: There,
    between: Between = 0,
    load: Load = 1.0,
    kind: Kind = "rs485",
    bias_ohm: Resistor | None = None,
    length_m: Length = 0.0,
    size: Core = THIN,
) -> BusResistance:
    """What an ohmmeter reads between the lines at one end of a bus without power."""
    clause = covered(code.procedures.signal_bus)
    bias = None if bias_ohm is None else Bias(bias_ohm, bias_ohm, 0.0)
    network = _line(t, clause, kind, devices, (here, between, there), load, bias, length_m, size)
    found = clause.resistance(t, network=network, at=0)
    return BusResistance(found.value, found.low, found.high)


class BusIdleVoltage(NamedTuple):
    reading_v: Annotated[VoltageV, About("between the lines while nobody sends")]
    low_v: Annotated[VoltageV, About("as little as it may be, parts being what they are", "down")]
    high_v: Annotated[VoltageV, About("as much as it may be", "up")]
    enough: Annotated[bool, About("whether every receiver takes that for idle")]


def bus_idle_voltage(
    t: Trace,
    *,
    code: Code,
    devices: Devices,
    bias_ohm: Resistor,
    here: Here,
    there: There,
    between: Between = 0,
    load: Load = 1.0,
    supply_v: Supply = None,
    length_m: Length = 0.0,
    size: Core = THIN,
) -> BusIdleVoltage:
    """What a voltmeter reads between the lines of an RS-485 bus while nobody sends, at the biased end."""
    clause = covered(code.procedures.signal_bus)
    bias = Bias(bias_ohm, bias_ohm, t.figure("bus_bias_supply") if supply_v is None else supply_v)
    network = _line(t, clause, "rs485", devices, (here, between, there), load, bias, length_m, size)
    found = clause.idle(t, network=network, at=0)
    return BusIdleVoltage(
        found.value, found.low, found.high or 0.0, found.value >= t.figure("bus_idle_least")
    )


def _line(
    t: Trace,
    clause: SignalBus,
    kind: Literal["rs485", "can"],
    devices: int,
    terminators: tuple[bool, int, bool],
    load: float,
    bias: Bias | None,
    length_m: float,
    size: Size,
) -> Network:
    """A line of like devices, evenly spread; the terminators in between all sit in its middle."""
    here, between, there = terminators
    input_ohm = clause.input_ohm(t, kind=kind, load=load)
    terminator_ohm = clause.terminator_ohm(t)
    core_ohm = clause.core_ohm(t, area_mm2=t.given("area_mm2", size.area_mm2), length_m=length_m)
    middle = devices // 2
    fitted = {0: int(here), devices - 1: int(there)}
    fitted[middle] = fitted.get(middle, 0) + between
    nodes = tuple(
        Node(terminator_ohm / fitted[at] if fitted.get(at) else None, input_ohm, bias if at == 0 else None)
        for at in range(devices)
    )
    links = tuple(Link(at, at + 1, core_ohm / (devices - 1)) for at in range(devices - 1))
    return Network(nodes, links)


CALCULATORS = (
    Calculator(
        "bus-resistance",
        bus_resistance,
        "Kirchhoff's laws with the loads of TIA-485-A:1998 or ISO 11898-2:2003",
        {"devices": "3", "here": "yes", "there": "yes", "load": "0.125", "length": "18 m"},
    ),
    Calculator(
        "bus-idle-voltage",
        bus_idle_voltage,
        "Kirchhoff's laws with the loads of TIA-485-A:1998",
        {"devices": "3", "bias": "560 ohm", "here": "yes", "there": "yes", "load": "0.125"},
    ),
)
