"""The job: one installation, whole."""

from typing import Literal

from ferrule.document import Record
from ferrule.fact import Fact, missing
from ferrule.job.array import Face, PvString
from ferrule.job.boards import Board
from ferrule.job.bus import Bus, SignalContact
from ferrule.job.devices import Device
from ferrule.job.earth import Earth
from ferrule.job.lifting import Crew, LiftingAid
from ferrule.job.places import Place
from ferrule.job.runs import Run
from ferrule.job.site import Site, Supply
from ferrule.parts import Part

Architecture = Literal["meter-led", "controller-led", "changeover-led"]


class Job(Record):
    """One description from which everything else is derived."""

    ferrule: Literal["1"]
    name: str
    rulebook: str
    architecture: Architecture
    firm: str | None = None
    site: Site
    supply: Supply
    crew: Fact[Crew] = missing("who lifts on this job, each a man or a woman: guidance has both")
    aids: Fact[list[LiftingAid]] = missing(
        "what lifts in place of people, each with its rated load and reach; [] if nothing is there"
    )
    places: list[Place] = []
    faces: list[Face] = []
    strings: list[PvString] = []
    devices: list[Device]
    runs: list[Run]
    boards: list[Board]
    buses: Fact[list[Bus]] = missing("the signal buses that join the devices; [] if none")
    contacts: list[SignalContact] = []
    earth: Earth = Earth()
    parts: list[Part] = []
