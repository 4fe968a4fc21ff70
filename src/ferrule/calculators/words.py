"""The words that inputs of several calculators take."""

from typing import Annotated, Literal

from ferrule.calculators.calculator import About
from ferrule.clauses.values import CableKind, Laid
from ferrule.quantity import Size, ThermalResistivityKmPerW, Unit
from ferrule.working import NotPrinted, Trace

Method = Annotated[
    Literal["A1", "A2", "B1", "B2", "C", "D1", "D2", "E", "F", "G"],
    About("installation method (IEC 60364-5-52 table A.52.3)"),
]
Insulation = Annotated[Literal["pvc", "xlpe"], About("insulation of the cable")]
Metal = Annotated[Literal["cu", "al"], About("metal of the conductor")]
Strands = Annotated[Literal["class2", "class5", "class5-tinned"], About("class of the strands (IEC 60228)")]
Grouping = Annotated[
    Literal["bunched", "wall", "ceiling", "perforated_tray", "ladder"],
    About("how the circuits that lie together are arranged"),
]
Circuits = Annotated[
    int, Unit("", 1, 20, whole=True), About("loaded circuits that lie together, this one included")
]
Loaded = Annotated[Literal["2", "3"], About("loaded conductors: 2 of a single phase, 3 of three phases")]
Ambient = Annotated[float, Unit("°C", -40, 90), About("temperature of the air or the soil around the cable")]
Soil = Annotated[ThermalResistivityKmPerW | None, About("thermal resistivity of the soil, where it is known")]
Phases = Annotated[
    Literal["1", "3"], About("1 where the neutral returns the current, 3 where the lines share it alike")
]
Device = Annotated[Literal["mcb", "fuse-gG"], About("miniature circuit breaker or general-purpose fuse")]
Curve = Annotated[Literal["B", "C", "D"], About("tripping characteristic of a breaker")]

_SINGLE_CORE = frozenset({"A1", "B1", "F", "G"})


def cable(method: str, insulation: str, metal: str) -> CableKind:
    """The kind of cable that is laid like this: of several cores, where the method is not for single ones."""
    return CableKind(insulation, metal, "class2", "single-core" if method in _SINGLE_CORE else "multicore")


def copper_ohm_per_km(t: Trace, size: Size, strands: str) -> float:
    """Resistance of a copper conductor at 20 °C, in Ω/km. Raises `NotPrinted` for American sizes."""
    if size.system != "mm²":
        raise NotPrinted(f"resistances are tabulated for mm², not for {size}")
    return t.read("conductor_resistance", size.name, f"cu_{strands.replace('-', '_')}")


def laid(method: str, ambient_c: float, circuits: int, grouping: str, soil_km_per_w: float | None) -> Laid:
    """One stretch of it; its length makes no difference to what it carries."""
    return Laid(1.0, method, ambient_c, circuits, grouping, soil_km_per_w)
