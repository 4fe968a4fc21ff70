"""IEC 60364 and its relatives, the international base of most low-voltage rules."""

from ferrule.clauses.handwork import HANDWORK
from ferrule.clauses.handwork.battery_place import PlaceTables
from ferrule.clauses.handwork.labels import ListedLabels
from ferrule.clauses.iec60364.array_size import UsualRatio
from ferrule.clauses.iec60364.backup import ChosenCircuits
from ferrule.clauses.iec60364.battery import ShortAndFused
from ferrule.clauses.iec60364.bonding import HalfTheProtective
from ferrule.clauses.iec60364.conductor import OverloadProtection
from ferrule.clauses.iec60364.dc_conductor import HotRoof
from ferrule.clauses.iec60364.dc_isolator import LoadBreakSwitch
from ferrule.clauses.iec60364.dc_surge import CriticalLength
from ferrule.clauses.iec60364.disconnection import AutomaticDisconnection
from ferrule.clauses.iec60364.earthing import OwnElectrode
from ferrule.clauses.iec60364.island_fault import LimitedSource
from ferrule.clauses.iec60364.neutral_earth import SwitchedBond
from ferrule.clauses.iec60364.other_cores import EqualCores
from ferrule.clauses.iec60364.residual_current import TypeByWaveform
from ferrule.clauses.iec60364.short_circuit import FaultEnergy
from ferrule.clauses.iec60364.string_current import BrightestCloudEdge
from ferrule.clauses.iec60364.string_fuse import ReverseCurrent
from ferrule.clauses.iec60364.string_heat import RiseByMounting
from ferrule.clauses.iec60364.string_voltage import ColdestMorning
from ferrule.clauses.iec60364.supply_surge import RiskLevel
from ferrule.clauses.iec60364.two_way import BetweenSources
from ferrule.clauses.iec60364.voltage_change import AnnexG
from ferrule.clauses.iec60364.working_space import Gangway
from ferrule.clauses.procedures.base import NotRequired
from ferrule.grade import Source

PROCEDURES = HANDWORK._replace(
    string_voltage=ColdestMorning(),
    string_heat=RiseByMounting(),
    string_current=BrightestCloudEdge(),
    string_fuse=ReverseCurrent(),
    array_size=UsualRatio(),
    dc_conductor=HotRoof(),
    dc_isolator=LoadBreakSwitch(),
    dc_surge=CriticalLength(),
    battery_circuit=ShortAndFused(),
    conductor=OverloadProtection(),
    short_circuit=FaultEnergy(),
    disconnection=AutomaticDisconnection(),
    other_cores=EqualCores(),
    neutral_earth=SwitchedBond(),
    earthing=OwnElectrode(),
    bonding=HalfTheProtective(),
    island_fault=LimitedSource(),
    backup=ChosenCircuits(),
    voltage_change=AnnexG(),
    residual_current=TypeByWaveform(),
    two_way=BetweenSources(),
    supply_surge=RiskLevel(),
    battery_place=PlaceTables(binding=False),
    battery_energy=NotRequired(Source("IEC 60364-5-57", "2022", "no limit found for a house")),
    labels=ListedLabels(),
    working_space=Gangway(),
)
