"""IEC 60364 and its relatives, the international base of most low-voltage rules."""

from ferrule.clauses.iec60364.conductor import OverloadProtection
from ferrule.clauses.iec60364.neutral_earth import SwitchedBond
from ferrule.clauses.iec60364.string_voltage import ColdestMorning
from ferrule.clauses.procedures import Procedures

PROCEDURES = Procedures(
    string_voltage=ColdestMorning(),
    conductor=OverloadProtection(),
    neutral_earth=SwitchedBond(),
)
