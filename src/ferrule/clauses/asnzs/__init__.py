"""AS/NZS 3000 and its neighbours: so far where a battery may stand."""

from ferrule.clauses.handwork import HANDWORK
from ferrule.clauses.handwork.battery_place import PlaceTables
from ferrule.clauses.procedures.base import NotRequired
from ferrule.grade import Source

PROCEDURES = HANDWORK._replace(
    battery_place=PlaceTables(),
    battery_energy=NotRequired(Source("AS/NZS 5139", "2019", "no limit found for one dwelling")),
)
