"""NFPA 70, the National Electrical Code of the United States: the slice there is so far."""

from ferrule.clauses.handwork import HANDWORK
from ferrule.clauses.handwork.battery_place import EnergyTables, PlaceTables
from ferrule.clauses.handwork.labels import ListedLabels
from ferrule.clauses.nec.conductor import AmpacityTwice
from ferrule.clauses.nec.neutral_earth import SourceBond
from ferrule.clauses.nec.roof import TestedAlways
from ferrule.clauses.nec.string_voltage import LowestAmbient
from ferrule.clauses.nec.working_space import ClearWorkingSpace

PROCEDURES = HANDWORK._replace(
    string_voltage=LowestAmbient(),
    conductor=AmpacityTwice(),
    neutral_earth=SourceBond(),
    roof_work=TestedAlways(),
    battery_place=PlaceTables(),
    battery_energy=EnergyTables(),
    labels=ListedLabels(),
    working_space=ClearWorkingSpace(),
)
