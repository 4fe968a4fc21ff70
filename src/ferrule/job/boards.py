"""Boards, the circuits that leave them, and the loads on these."""

from typing import Annotated, Literal

from pydantic import Field

from ferrule.document import Record
from ferrule.fact import Decision, Fact, assumed, missing, to_choose
from ferrule.job.array import SurgeDevice
from ferrule.parts.devices import LetThroughA2s, RatedA, RcdType
from ferrule.quantity import Unit

Curve = Literal["B", "C", "D"]
LoadPowerFactor = Annotated[float, Unit("", 0.1, 1)]
StartMultiple = Annotated[float, Unit("", 1, 100)]
ResidualA = Annotated[float, Unit("A", 0.001, 30)]
LoadA = Annotated[float, Unit("A", 0.001, 10_000)]
LoadW = Annotated[float, Unit("W", 0.1, 1_000_000)]


class Overcurrent(Record):
    """The overcurrent device at the head of a circuit; what is left out is chosen."""

    kind: Literal["mcb", "fuse-gG"] = assumed("mcb", "the overcurrent device is a miniature circuit breaker")
    curve: Decision[Curve] = to_choose("tripping characteristic")
    rating_a: Decision[RatedA] = to_choose("rated current")
    breaking_capacity_a: Decision[RatedA] = to_choose("breaking capacity")
    energy_class: Literal["1", "2", "3"] = assumed("3", "breakers are marked with energy limiting class 3")
    let_through_a2s: LetThroughA2s | None = Field(
        default=None, description="let-through energy at the fault current of its place, from its maker"
    )
    direction: Fact[Literal["both", "one"]] = missing(
        "whether the device may be fed from both sides, from its marking or sheet"
    )


class Rcd(Record):
    """A residual current device."""

    type: RcdType
    residual_a: ResidualA
    rating_a: RatedA
    selective: bool = False
    direction: Fact[Literal["both", "one"]] = missing(
        "whether the RCD may be fed from both sides, from its marking or sheet"
    )
    all_poles: Fact[bool] = missing("whether the RCD opens the neutral together with the lines")


class Load(Record):
    """Something that draws current."""

    name: str
    kind: Literal["lighting", "sockets", "resistive", "motor", "electronic", "charger"]
    power_w: Fact[LoadW] = missing("power the load takes in, from its plate")
    current_a: LoadA | None = Field(
        default=None, description="rated current from its plate, which counts before its power"
    )
    power_factor: LoadPowerFactor = assumed(1.0, "power factor 1")
    start_multiple: Fact[StartMultiple] = missing("starting current as a multiple of the running current")
    smooth_dc_residual: Fact[Literal["excluded", "possible"]] = missing(
        "whether the charger itself disconnects smooth DC residual current of 6 mA, from its sheet"
    )
    three_phase: bool = False
    shed: bool = Field(default=False, description="whether the island signal takes it off")


class Circuit(Record):
    """A way of a board: its protective devices, its run, and what hangs on it."""

    id: str
    run: str
    phases: list[str] = Field(min_length=1, description="line conductors it uses, as the supply names them")
    device: Overcurrent = Overcurrent()
    rcd: Decision[Rcd | Literal["none"]] = to_choose("residual current device")
    loads: list[Load] = []
    neutral_shared_with: list[str] = []


class Board(Record):
    """A distribution board."""

    id: str
    part: Fact[str] = missing("the board's part: its terminals and its rails, by the id of its part")
    rating_a: Fact[RatedA] = missing("rated current of the board's busbars, from its plate")
    rcd: Rcd | None = None
    strap: bool = assumed(False, "no board joins neutral to earth, other than where a PEN splits")
    surge: Decision[SurgeDevice | Literal["none"]] = to_choose("AC surge protection")
    circuits: list[Circuit]
