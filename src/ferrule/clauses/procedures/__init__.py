"""What a family of standards must be able to answer: one subject a procedure.

Each family exports one `Procedures`; an edition that changed a procedure replaces that field. A subject a
family has not got yet is `NotCovered`, one it leaves alone is `NotRequired`.
"""

from dataclasses import dataclass, fields

from ferrule.clauses.procedures.base import NotCovered, NotRequired, Unasked, covered
from ferrule.clauses.procedures.circuit import Conductor
from ferrule.clauses.procedures.dc import DcConductor, DcIsolator, DcSurge
from ferrule.clauses.procedures.earth import NeutralEarth
from ferrule.clauses.procedures.network import ResidualCurrent, SupplySurge, TwoWay, VoltageChange
from ferrule.clauses.procedures.string import (
    ArraySize,
    StringCurrent,
    StringFuse,
    StringHeat,
    StringVoltage,
)

__all__ = [
    "ArraySize",
    "Conductor",
    "DcConductor",
    "DcIsolator",
    "DcSurge",
    "NeutralEarth",
    "NotCovered",
    "NotRequired",
    "Procedures",
    "ResidualCurrent",
    "StringCurrent",
    "StringFuse",
    "StringHeat",
    "StringVoltage",
    "SupplySurge",
    "TwoWay",
    "Unasked",
    "VoltageChange",
    "covered",
]


@dataclass(frozen=True)
class Procedures:
    """The index of subjects."""

    string_voltage: StringVoltage | NotCovered | NotRequired = NotCovered("the highest string voltage")
    string_heat: StringHeat | NotCovered | NotRequired = NotCovered("the heat of cells at work")
    string_current: StringCurrent | NotCovered | NotRequired = NotCovered("the highest string current")
    string_fuse: StringFuse | NotCovered | NotRequired = NotCovered("string fuses")
    array_size: ArraySize | NotCovered | NotRequired = NotCovered("the usual size of an array")
    dc_conductor: DcConductor | NotCovered | NotRequired = NotCovered("the cables of an array")
    dc_isolator: DcIsolator | NotCovered | NotRequired = NotCovered("the isolator of an array")
    dc_surge: DcSurge | NotCovered | NotRequired = NotCovered("surge protection of an array")
    conductor: Conductor | NotCovered | NotRequired = NotCovered("a conductor with its device")
    neutral_earth: NeutralEarth | NotCovered | NotRequired = NotCovered("the neutral-earth bond")
    voltage_change: VoltageChange | NotCovered | NotRequired = NotCovered("voltage drop and rise")
    residual_current: ResidualCurrent | NotCovered | NotRequired = NotCovered("residual current devices")
    two_way: TwoWay | NotCovered | NotRequired = NotCovered("devices between two sources")
    supply_surge: SupplySurge | NotCovered | NotRequired = NotCovered("surge protection of the supply")

    def needs(self) -> set[str]:
        """Every table, figure and series that some procedure reads."""
        bound = (getattr(self, subject.name) for subject in fields(self))
        return {name for p in bound if not isinstance(p, NotCovered | NotRequired) for name in p.needs}
