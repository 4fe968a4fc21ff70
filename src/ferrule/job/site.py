"""The place and what the network brings to it."""

from typing import Annotated, Any, Literal

from pydantic import Field, ValidationInfo, field_validator

from ferrule.document import Record
from ferrule.fact import Fact, missing
from ferrule.parts.devices import Earthing, RatedA
from ferrule.quantity import (
    AltitudeM,
    AngleDeg,
    ApparentPowerVa,
    FlashDensityPerKm2Year,
    LengthM,
    PowerW,
    TemperatureC,
    Unit,
    VoltageV,
)

ColdFactor = Annotated[float, Unit("", 1, 2)]

# What a house can be fed with; a nought written for "not known" would pass limits that the network misses.
LineVoltageV = Annotated[float, Unit("V", 50, 1_000)]
NetworkFaultA = Annotated[float, Unit("A", 50, 200_000)]
RisePct = Annotated[float, Unit("%", 0.1, 20)]
NetworkLoopOhm = Annotated[float, Unit("Ω", 0.001, 10_000)]

_ROUNDING = 0.95  # figures of an enquiry come rounded; no contradiction is found nearer than this


class Site(Record):
    """Where the house stands and the weather the design has to bear."""

    place: str
    building: Fact[Literal["dwelling", "other", "ground"]] = missing(
        "whether it is a dwelling, another building or a ground-mounted array"
    )
    area: Fact[Literal["purely-residential", "residential", "mixed"]] = missing(
        "what is built around it: purely-residential, residential with some shops, or mixed with workshops"
    )
    altitude_m: Fact[AltitudeM] = missing("altitude of the site")
    coldest_c: Fact[TemperatureC] = missing("coldest design air temperature of the place, and its source")
    hottest_c: Fact[TemperatureC] = missing("hottest design air temperature of the place, and its source")
    cold_factor: ColdFactor | None = Field(
        default=None,
        description="multiple of Voc that the rules of this place declare, beside or instead of its coldest",
    )
    work_day_c: TemperatureC | None = Field(
        default=None,
        description="temperature of the walls on the day anchors are set, for resin; left out, the coldest "
        "of each place is taken",
    )
    lightning_density_per_km2_year: Fact[FlashDensityPerKm2Year] = missing(
        "ground flash density of the place, from a lightning map"
    )
    lightning_protection: Fact[Literal["none", "separated", "bonded"]] = missing(
        "whether the house has a lightning protection system, and whether the array keeps its distance "
        "from it"
    )

    @field_validator("hottest_c")
    @classmethod
    def _above_the_coldest(cls, given: Any, info: ValidationInfo) -> Any:
        coldest_c = info.data.get("coldest_c")
        if isinstance(given, float) and isinstance(coldest_c, float) and given <= coldest_c:
            raise ValueError(f"more than coldest, which is {coldest_c:g} °C")
        return given


class LiveConductor(Record):
    """One line conductor of the supply: its voltage to neutral and its angle."""

    name: str
    voltage_v: LineVoltageV
    angle_deg: AngleDeg = 0.0


class MainFuse(Record):
    """The device at the origin that belongs to the network."""

    kind: Literal["fuse-gG", "mcb"]
    rating_a: RatedA


class Utility(Record):
    """What the network operator allows."""

    export_max_w: Fact[PowerW | Literal["none"]] = missing(
        "largest export the network operator allows, or 'none' for no limit"
    )
    unbalance_max_va: Fact[ApparentPowerVa | Literal["none"]] = missing(
        "largest difference between phases the network operator allows, or 'none' for no limit"
    )
    rise_max_pct: Fact[RisePct | Literal["none"]] = missing(
        "largest voltage rise the network operator allows, or 'none' for no limit"
    )


class SupplyLine(Record):
    """The last kilometre of line that feeds the house, for the risk of surges; the rest of it counts as
    overhead.
    """

    surroundings: Literal["rural", "suburban", "urban"]
    overhead_m: LengthM = 0.0
    cable_m: LengthM = 0.0
    high_overhead_m: LengthM = Field(default=0.0, description="overhead line of high voltage")
    high_cable_m: LengthM = Field(default=0.0, description="cable of high voltage")


class Supply(Record):
    """The network at the point of supply."""

    live: list[LiveConductor] = Field(min_length=1, max_length=3)
    highest_v: Fact[VoltageV] = missing("highest voltage line to neutral the network may show")
    earthing: Fact[Earthing] = missing("earthing system of the supply")
    pen_split: Fact[Literal["supply", "board"]] = missing(
        "where the PEN of a TN-C-S supply is split into neutral and protective conductor: supply where that "
        "is done before the tails, board where it runs on to the main board; not asked of other systems"
    )
    main_fuse: Fact[MainFuse] = missing("kind and rating of the main fuse")
    demand_max_a: RatedA | None = Field(
        default=None,
        description="largest current the house is reckoned to draw from one line at once; without it, "
        "everything counts as on",
    )
    fault_current_max_a: Fact[NetworkFaultA] = missing(
        "highest prospective fault current at the origin, for breaking capacity"
    )
    loop_max_ohm: Fact[NetworkLoopOhm] = missing(
        "highest earth loop impedance at the origin, for disconnection"
    )
    neutral_loop_max_ohm: NetworkLoopOhm | None = Field(
        default=None,
        description="highest loop impedance line to neutral at the origin, for short circuits in a TT system",
    )
    utility: Utility = Utility()
    line: SupplyLine | None = Field(
        default=None, description="the line that feeds the house, where the risk of surges is calculated"
    )

    @field_validator("highest_v")
    @classmethod
    def _not_below_nominal(cls, given: Any, info: ValidationInfo) -> Any:
        nominal_v = max((line.voltage_v for line in info.data.get("live", ())), default=0.0)
        if isinstance(given, float) and given < nominal_v:
            raise ValueError(f"not below the voltage of the lines, which is {nominal_v:g} V")
        return given

    @field_validator("loop_max_ohm", "neutral_loop_max_ohm")
    @classmethod
    def _not_below_the_least(cls, given: Any, info: ValidationInfo) -> Any:
        """Through its highest impedance a loop carries its lowest fault current, which cannot be more than
        the highest: one of the two is wrong, and a breaker chosen by it too weak or too slow.
        """
        highest_a = info.data.get("fault_current_max_a")
        nominal_v = max((line.voltage_v for line in info.data.get("live", ())), default=0.0)
        if isinstance(given, float) and isinstance(highest_a, float):
            least_a = nominal_v / given
            if highest_a < least_a * _ROUNDING:
                raise ValueError(
                    f"not below {nominal_v / highest_a:.3g} Ω: {nominal_v:g} V would drive {least_a:,.0f} A "
                    f"through it, more than fault_current_max, which is {highest_a:,.0f} A"
                )
        return given
