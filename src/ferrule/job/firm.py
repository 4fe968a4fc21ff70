"""What a firm carries in its vans and the margins it wants."""

from typing import Annotated

from pydantic import Field

from ferrule.document import Record
from ferrule.job.boards import Curve
from ferrule.quantity import CurrentA, SharePct, Size, Unit

SoldM = Annotated[float, Unit("m", 1, 10_000)]


class Margins(Record):
    """Room a firm wants to leave below a limit when it chooses, in percent of the limit."""

    conductor_pct: SharePct = 0.0
    device_pct: SharePct = 0.0

    def wanted(self, kind: str) -> float:
        """The margin wanted for a kind of decision, as a share."""
        return {"conductor": self.conductor_pct, "rating": self.device_pct}.get(kind, 0.0) / 100


class Firm(Record):
    """A firm's preferences; a choice follows them where it can and says so."""

    ferrule: str = "1"
    name: str
    sizes: list[Size] = []
    curve: Curve | None = None
    ratings_a: list[CurrentA] = []
    breaking_capacity_a: list[CurrentA] = []
    anchors: list[str] = Field(default=[], description="ids of the anchors and screws in the van")
    lengths: dict[str, list[SoldM]] = Field(
        default={},
        description="lengths in which its wholesaler sells a cable, by the cable's name in the cut list; "
        "none for one sold by the whole metre",
    )
    margins: Margins = Margins()
