"""AS/NZS 3000 and its neighbours: so far where a battery may stand."""

from ferrule.clauses.handwork import HANDWORK
from ferrule.clauses.handwork.battery_place import PlaceTables

PROCEDURES = HANDWORK._replace(
    battery_place=PlaceTables(),
)
