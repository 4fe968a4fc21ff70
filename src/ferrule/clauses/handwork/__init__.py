"""What every family shares because no electrical standard of one country owns it: lifting, hanging, the
place of a device, signals. Their figures stand in the volume `handwork-2025`.
"""

from ferrule.clauses.handwork.bus import TwistedPair
from ferrule.clauses.handwork.buying import TradeCounts
from ferrule.clauses.handwork.colours import ByName
from ferrule.clauses.handwork.ends import PreparedEnds
from ferrule.clauses.handwork.fixing import StatedStyle
from ferrule.clauses.handwork.free_space import UsualGaps
from ferrule.clauses.handwork.lifting import FilterAndEquation
from ferrule.clauses.handwork.metering import MeasuringTransformer, PlannedLevels
from ferrule.clauses.handwork.roof import SurveyFirst
from ferrule.clauses.handwork.surroundings import IpCode, NightLimit, SunAndHeight
from ferrule.clauses.procedures import Procedures

#: each family's index starts from this one
HANDWORK = Procedures(
    air=SunAndHeight(),
    buying=TradeCounts(),
    cable_ends=PreparedEnds(),
    colours=ByName(),
    enclosure=IpCode(),
    metering=MeasuringTransformer(),
    radio=PlannedLevels(),
    noise=NightLimit(),
    roof_work=SurveyFirst(),
    signal_bus=TwistedPair(),
    fixing=StatedStyle(),
    lifting=FilterAndEquation(),
    free_space=UsualGaps(),
)
