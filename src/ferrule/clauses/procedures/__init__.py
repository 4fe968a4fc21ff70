"""What a family of standards must be able to answer: one subject a procedure.

Each family exports one `Procedures`; an edition that changed a procedure replaces that field. A subject a
family has not got yet is `NotCovered`, one it leaves alone is `NotRequired`.
"""

from typing import NamedTuple

from ferrule.clauses.procedures.backup import Backup, IslandFault
from ferrule.clauses.procedures.base import NotCovered, NotRequired, Unasked, covered
from ferrule.clauses.procedures.battery import BatteryCircuit
from ferrule.clauses.procedures.battery_place import BatteryEnergy, BatteryPlace
from ferrule.clauses.procedures.bus import SignalBus
from ferrule.clauses.procedures.buying import Buying
from ferrule.clauses.procedures.circuit import Conductor, Disconnection, OtherCores, ShortCircuit
from ferrule.clauses.procedures.colours import Colours
from ferrule.clauses.procedures.dc import DcConductor, DcIsolator, DcSurge
from ferrule.clauses.procedures.earth import Bonding, Earthing, NeutralEarth
from ferrule.clauses.procedures.ends import CableEnds
from ferrule.clauses.procedures.fixing import Fixing
from ferrule.clauses.procedures.labels import Labels
from ferrule.clauses.procedures.lifting import Lifting
from ferrule.clauses.procedures.metering import Metering, Radio
from ferrule.clauses.procedures.network import ResidualCurrent, SupplySurge, TwoWay, VoltageChange
from ferrule.clauses.procedures.place import FreeSpace, WorkingSpace
from ferrule.clauses.procedures.roof import RoofWork
from ferrule.clauses.procedures.string import (
    ArraySize,
    StringCurrent,
    StringFuse,
    StringHeat,
    StringVoltage,
)
from ferrule.clauses.procedures.surroundings import Air, Enclosure, Noise

__all__ = [
    "Air",
    "ArraySize",
    "Backup",
    "BatteryCircuit",
    "BatteryEnergy",
    "BatteryPlace",
    "Bonding",
    "Buying",
    "CableEnds",
    "Colours",
    "Conductor",
    "DcConductor",
    "DcIsolator",
    "DcSurge",
    "Disconnection",
    "Earthing",
    "Enclosure",
    "Fixing",
    "FreeSpace",
    "IslandFault",
    "Lifting",
    "Metering",
    "NeutralEarth",
    "Noise",
    "NotCovered",
    "NotRequired",
    "OtherCores",
    "Procedures",
    "Radio",
    "ResidualCurrent",
    "RoofWork",
    "ShortCircuit",
    "SignalBus",
    "StringCurrent",
    "StringFuse",
    "StringHeat",
    "StringVoltage",
    "SupplySurge",
    "TwoWay",
    "Unasked",
    "VoltageChange",
    "WorkingSpace",
    "covered",
]


class Procedures(NamedTuple):
    """The index of subjects."""

    string_voltage: StringVoltage | NotCovered | NotRequired = NotCovered("the highest string voltage")
    string_heat: StringHeat | NotCovered | NotRequired = NotCovered("the heat of cells at work")
    string_current: StringCurrent | NotCovered | NotRequired = NotCovered("the highest string current")
    string_fuse: StringFuse | NotCovered | NotRequired = NotCovered("string fuses")
    array_size: ArraySize | NotCovered | NotRequired = NotCovered("the usual size of an array")
    dc_conductor: DcConductor | NotCovered | NotRequired = NotCovered("the cables of an array")
    dc_isolator: DcIsolator | NotCovered | NotRequired = NotCovered("the isolator of an array")
    dc_surge: DcSurge | NotCovered | NotRequired = NotCovered("surge protection of an array")
    battery_circuit: BatteryCircuit | NotCovered | NotRequired = NotCovered("battery circuits")
    conductor: Conductor | NotCovered | NotRequired = NotCovered("a conductor with its device")
    short_circuit: ShortCircuit | NotCovered | NotRequired = NotCovered("short circuits")
    disconnection: Disconnection | NotCovered | NotRequired = NotCovered("automatic disconnection")
    second_fault: NotCovered | NotRequired = NotCovered("what ends a second earth fault of an IT system")
    other_cores: OtherCores | NotCovered | NotRequired = NotCovered("neutral and protective conductors")
    neutral_earth: NeutralEarth | NotCovered | NotRequired = NotCovered("the neutral-earth bond")
    earthing: Earthing | NotCovered | NotRequired = NotCovered("earth electrodes")
    bonding: Bonding | NotCovered | NotRequired = NotCovered("bonding")
    island_fault: IslandFault | NotCovered | NotRequired = NotCovered("faults in island mode")
    backup: Backup | NotCovered | NotRequired = NotCovered("backup")
    voltage_change: VoltageChange | NotCovered | NotRequired = NotCovered("voltage drop and rise")
    residual_current: ResidualCurrent | NotCovered | NotRequired = NotCovered("residual current devices")
    two_way: TwoWay | NotCovered | NotRequired = NotCovered("devices between two sources")
    supply_surge: SupplySurge | NotCovered | NotRequired = NotCovered("surge protection of the supply")
    signal_bus: SignalBus | NotCovered | NotRequired = NotCovered("signal buses")
    fixing: Fixing | NotCovered | NotRequired = NotCovered("fixings to wall and floor")
    lifting: Lifting | NotCovered | NotRequired = NotCovered("lifting by hand")
    free_space: FreeSpace | NotCovered | NotRequired = NotCovered("the air around devices")
    battery_place: BatteryPlace | NotCovered | NotRequired = NotCovered("the place of a battery")
    battery_energy: BatteryEnergy | NotCovered | NotRequired = NotCovered("the energy stored in a house")
    working_space: WorkingSpace | NotCovered | NotRequired = NotCovered("room to work at devices")
    roof_work: RoofWork | NotCovered | NotRequired = NotCovered("work on a roof")
    enclosure: Enclosure | NotCovered | NotRequired = NotCovered("water and dust around devices")
    air: Air | NotCovered | NotRequired = NotCovered("sun and height")
    noise: Noise | NotCovered | NotRequired = NotCovered("noise")
    metering: Metering | NotCovered | NotRequired = NotCovered("current transformers")
    cable_ends: CableEnds | NotCovered | NotRequired = NotCovered("cable ends")
    buying: Buying | NotCovered | NotRequired = NotCovered("what is cut and bought")
    labels: Labels | NotCovered | NotRequired = NotCovered("labels")
    colours: Colours | NotCovered | NotRequired = NotCovered("the colours of conductors")
    radio: Radio | NotCovered | NotRequired = NotCovered("radio levels")

    def needs(self) -> set[str]:
        """Every table, figure and series that some procedure reads."""
        return {name for p in self if not isinstance(p, NotCovered | NotRequired) for name in p.needs}
