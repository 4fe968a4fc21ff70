"""BS 7671 and its British neighbours: so far where a battery may stand."""

from ferrule.clauses.handwork import HANDWORK
from ferrule.clauses.handwork.battery_place import PlaceTables
from ferrule.clauses.procedures.base import NotRequired
from ferrule.grade import Source

PROCEDURES = HANDWORK._replace(
    battery_place=PlaceTables(),
    battery_energy=NotRequired(Source("PAS 63100", "2024", "no limit found for one dwelling")),
)
