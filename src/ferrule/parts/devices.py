"""The datasheets of the devices on the wall: inverter, battery, changeover unit, meter and the rest."""

from typing import Annotated, Any, Literal

from pydantic import Field, ValidationInfo, field_validator

from ferrule.document import Record
from ferrule.fact import Fact, missing
from ferrule.parts.body import Body
from ferrule.parts.box import BOX, Box
from ferrule.parts.metering import AccuracyClass, TransformerInputs
from ferrule.parts.port import Contacts, Ports
from ferrule.parts.terminals import Blocks
from ferrule.quantity import (
    AltitudeM,
    CurrentA,
    EnergyWh,
    TemperatureC,
    TimeS,
    Unit,
    VoltageV,
)

Earthing = Literal["TN-S", "TN-C-S", "TN-C", "TT", "IT"]
RcdType = Literal["AC", "A", "F", "B"]
Link = Literal["wired", "wireless", "mobile"]
NeutralInIsland = Literal["switched", "through"]

# A nought on a sheet is a gap and no rating; it would pass limits that it should miss.
RatedV = Annotated[float, Unit("V", 1, 10_000)]
RatedA = Annotated[float, Unit("A", 0.1, 100_000)]
RatedW = Annotated[float, Unit("W", 10, 1_000_000)]
LetThroughA2s = Annotated[float, Unit("A²s", 1, 1e12)]
InternalOhm = Annotated[float, Unit("Ω", 0.0001, 100)]
RatedVa = Annotated[float, Unit("VA", 10, 1_000_000)]
EfficiencyPct = Annotated[float, Unit("%", 50, 100)]
DischargeS = Annotated[float, Unit("s", 1, 86_400)]
Packs = Annotated[int, Unit("", 1, 1_000, whole=True)]


def _above_lowest(given: Any, info: ValidationInfo) -> Any:
    """A battery's window is easily written upside down."""
    least_v = info.data.get("voltage_low_v")
    if isinstance(given, float) and isinstance(least_v, float) and given <= least_v:
        raise ValueError(f"more than voltage_low, which is {least_v:g} V")
    return given


class Tracker(Record):
    """One direct-current input of an inverter, with a tracker of its own."""

    id: str
    voltage_max_v: Fact[RatedV] = missing("absolute maximum input voltage, from the inverter's sheet")
    tracking_low_v: Fact[RatedV] = missing("lower end of the tracking window, from the inverter's sheet")
    tracking_high_v: Fact[RatedV] = missing("upper end of the tracking window, from the inverter's sheet")
    full_power_low_v: Fact[RatedV] = missing("lower end of the full-power window")
    full_power_high_v: Fact[RatedV] = missing("upper end of the full-power window")
    start_v: Fact[RatedV] = missing("start voltage, from the inverter's sheet")
    current_max_a: Fact[RatedA] = missing("maximum operating input current, from the inverter's sheet")
    short_circuit_max_a: Fact[RatedA] = missing("maximum short-circuit current of the input")


class GridPort(Record):
    """The port towards the network."""

    power_w: Fact[RatedW] = missing("rated power to the grid, from the inverter's sheet")
    current_max_a: Fact[RatedA] = missing("maximum continuous AC output current, from the inverter's sheet")
    pass_through_max_a: Fact[CurrentA] = missing("maximum pass-through current to the backup port")


class BackupPort(Record):
    """The port that stays alive in an outage."""

    power_va: Fact[RatedVa] = missing("continuous backup power, from the inverter's sheet")
    phase_power_max_va: Fact[RatedVa] = missing("largest backup load on one phase")
    peak_power_va: Fact[RatedVa] = missing("short-time backup power, from the inverter's sheet")
    phase_peak_power_max_va: Fact[RatedVa] = missing("largest short-time backup power on one phase")
    peak_time_s: Fact[TimeS] = missing("how long the short-time backup power lasts")
    short_circuit_a: Fact[RatedA] = missing("short-circuit current in island mode, ask the maker")
    short_circuit_duration_s: Fact[TimeS] = missing(
        "how long the island short-circuit current lasts, ask the maker"
    )
    collapses_safely: Fact[bool] = missing(
        "whether the output falls below the touch voltage in time when the fault current is limited"
    )
    switch_over_s: Fact[TimeS] = missing("changeover time to island mode")
    neutral: Fact[NeutralInIsland] = missing("whether the neutral is switched or runs through in island mode")
    link: Fact[Literal["automatic", "fixed", "none"]] = missing(
        "whether the inverter makes a neutral-earth link in island"
    )
    link_monitored: Fact[bool] = missing("whether the inverter detects a stuck link or isolator contact")


class BatteryPort(Record):
    """The direct-current port for the battery."""

    voltage_low_v: Fact[RatedV] = missing("lowest battery voltage the inverter works with")
    voltage_high_v: Fact[RatedV] = missing("highest battery voltage the inverter works with")
    charge_max_a: Fact[RatedA] = missing("maximum charge current of the inverter")
    discharge_max_a: Fact[RatedA] = missing("maximum discharge current of the inverter")
    efficiency_pct: Fact[EfficiencyPct] = missing(
        "efficiency from battery to alternating current at full power, from the inverter's sheet"
    )

    @field_validator("voltage_high_v")
    @classmethod
    def _window(cls, given: Any, info: ValidationInfo) -> Any:
        return _above_lowest(given, info)


class Inverter(Record):
    """A hybrid inverter."""

    id: str
    kind: Literal["inverter"]
    name: str
    source: str
    terminals: Fact[Blocks] = missing("its terminals, port by port, from its manual")
    box: Box = missing(BOX)
    body: Body = Body()
    ports: Ports = []
    contacts: Contacts = []
    phases: Literal["1", "3"]
    separation: Fact[Literal["none", "simple"]] = missing("whether the AC side is separated from the DC side")
    smooth_dc_residual: Fact[Literal["excluded", "possible"]] = missing(
        "the maker's statement whether smooth DC residual current can occur"
    )
    leakage_max_a: Fact[CurrentA] = missing("protective conductor current in normal service")
    earthing: Fact[list[Earthing]] = missing("earthing systems the inverter may be connected to")
    backfeed_a: Fact[CurrentA] = missing("backfeed current into the PV input, from the inverter's sheet")
    pv_power_max_w: Fact[RatedW] = missing("maximum PV power, from the inverter's sheet")
    battery_feeds_pv_bus: Fact[bool] = missing("whether the battery can feed a fault on the PV input")
    trips_above_v: Fact[RatedV] = missing("AC voltage above which the inverter disconnects")
    altitude_max_m: Fact[AltitudeM] = missing(
        "highest altitude at which the inverter may be used, from its sheet"
    )
    full_power_altitude_m: AltitudeM | None = Field(
        default=None,
        description="altitude up to which it gives full power, where its sheet names a lower one",
    )
    start_order: Fact[list[Literal["battery", "pv", "ac"]]] = missing("order of starting, from the manual")
    start_wait_s: Fact[TimeS] = missing(
        "how long to wait between one source and the next when starting it, from the manual"
    )
    discharge_time_s: Fact[DischargeS] = missing(
        "how long its capacitors stay charged after it is switched off, from its cover or the manual"
    )
    trackers: list[Tracker]
    dc_switch: Fact[bool] = missing("whether a DC switch is built in")
    dc_switch_lockable: Fact[bool] = missing(
        "whether the built-in DC switch can be locked when it is open; not asked where there is none"
    )
    grid: GridPort
    backup: BackupPort | None = None
    battery: BatteryPort | None = None


class Battery(Record):
    """One battery pack (or stack with one pair of poles)."""

    id: str
    kind: Literal["battery"]
    name: str
    source: str
    terminals: Fact[Blocks] = missing("its terminals, port by port, from its manual")
    box: Box = missing(BOX)
    body: Body = Body()
    ports: Ports = []
    contacts: Contacts = []
    chemistry: Fact[Literal["lfp", "nmc", "lead"]] = missing("battery chemistry, from its plate")
    voltage_low_v: Fact[RatedV] = missing("lowest battery voltage in use, from its sheet")
    voltage_nominal_v: Fact[RatedV] = missing("nominal battery voltage, from its plate")
    voltage_high_v: Fact[RatedV] = missing("highest charge voltage, from its sheet")
    energy_wh: Fact[EnergyWh] = missing("rated energy, from its plate")
    charge_max_a: Fact[RatedA] = missing("maximum continuous charge current, from its sheet")
    discharge_max_a: Fact[RatedA] = missing("maximum continuous discharge current, from its sheet")
    short_circuit_a: Fact[RatedA] = missing("prospective short-circuit current at its poles, ask the maker")
    internal_ohm: Fact[InternalOhm] = missing("internal resistance, ask the maker")
    isolates: Fact[Literal["all-poles", "one-pole", "none"]] = missing("which poles its own switch isolates")
    charge_low_c: Fact[TemperatureC] = missing("lowest temperature at which it may be charged")
    charge_high_c: Fact[TemperatureC] = missing("highest temperature at which it may be charged")
    discharge_low_c: Fact[TemperatureC] = missing("lowest temperature at which it may be discharged")
    discharge_high_c: Fact[TemperatureC] = missing("highest temperature at which it may be discharged")
    parallel_max: Fact[Packs] = missing("how many packs may be paralleled")
    asleep_v: Fact[VoltageV] = missing("voltage the poles show while the battery sleeps")

    @field_validator("voltage_nominal_v", "voltage_high_v")
    @classmethod
    def _window(cls, given: Any, info: ValidationInfo) -> Any:
        return _above_lowest(given, info)


class Changeover(Record):
    """A changeover unit between the network, the inverter and the house."""

    id: str
    kind: Literal["changeover"]
    name: str
    source: str
    terminals: Fact[Blocks] = missing("its terminals, port by port, from its manual")
    box: Box = missing(BOX)
    body: Body = Body()
    ports: Ports = []
    contacts: Contacts = []
    phases: Literal["1", "3"]
    current_max_a: Fact[RatedA] = missing("rated current of the changeover unit")
    withstand_a: Fact[CurrentA] = missing("conditional short-circuit current of the changeover unit")
    neutral: Fact[NeutralInIsland] = missing("whether the changeover unit switches the neutral")
    link: Fact[Literal["automatic", "fixed", "none"]] = missing(
        "whether the changeover unit makes a neutral-earth link"
    )
    link_monitored: Fact[bool] = missing("whether a stuck contact of the changeover unit is detected")
    transit_s: Fact[TimeS] = missing("time between opening one side and closing the other")
    isolating: Fact[bool] = missing("whether the changeover unit's contacts are declared fit for isolation")
    bypass: Fact[bool] = missing("whether the changeover unit has a bypass position")


class Meter(Record):
    """An energy meter for the control loop."""

    id: str
    kind: Literal["meter"]
    name: str
    source: str
    terminals: Fact[Blocks] = missing("its terminals, port by port, from its manual")
    box: Box = missing(BOX)
    ports: Ports = []
    connection: Fact[Literal["direct", "transformer"]] = missing(
        "whether the meter is direct or by transformer"
    )
    current_max_a: Fact[RatedA] = missing("maximum current of the meter")
    accuracy: Fact[AccuracyClass] = missing("accuracy class of the meter for active energy, from its plate")
    transformers: TransformerInputs = TransformerInputs()


class Controller(Record):
    """A site controller that leads one or more inverters."""

    id: str
    kind: Literal["controller"]
    name: str
    source: str
    terminals: Fact[Blocks] = missing("its terminals, port by port, from its manual")
    box: Box = missing(BOX)
    transformers: TransformerInputs = TransformerInputs()
    body: Body = Body()
    ports: Ports = []
    contacts: Contacts = []


class Adapter(Record):
    """A network adapter."""

    id: str
    kind: Literal["adapter"]
    name: str
    source: str
    terminals: Fact[Blocks] = missing("its terminals, port by port, from its manual")
    box: Box = missing(BOX)
    links: Fact[list[Link]] = missing("how the adapter can be linked: wired, wireless, mobile")


class Generator(Record):
    """A rotating generator set."""

    id: str
    kind: Literal["generator"]
    name: str
    source: str
    terminals: Fact[Blocks] = missing("its terminals, port by port, from its manual")
    box: Box = missing(BOX)
    contacts: Contacts = []
    power_va: Fact[RatedVa] = missing("rated power of the generator")
    link: Fact[Literal["fixed", "none"]] = missing("whether the generator's neutral is joined to its frame")
    phases: Fact[Literal["1", "3"]] = missing("how many lines the generator feeds")
    breaker_a: Fact[RatedA | Literal["none"]] = missing(
        "rated current of the breaker on the generator itself, or 'none' where it has none"
    )
    short_circuit_a: Fact[RatedA] = missing("short-circuit current of the generator, ask the maker")
    short_circuit_duration_s: Fact[TimeS] = missing(
        "how long the generator gives its short-circuit current, ask the maker"
    )
    collapses_safely: Fact[bool] = missing(
        "whether the generator's voltage falls below the touch voltage in time in a short circuit"
    )
