"""Lightning exposure of an array's lines."""

from typing import Annotated, Literal, NamedTuple

from ferrule.calculators.calculator import About, Calculator
from ferrule.physics import surge
from ferrule.quantity import FlashDensityPerKm2Year, LengthM
from ferrule.working import Trace


class SurgeLength(NamedTuple):
    length_m: Annotated[LengthM, About("from this length on the array's lines need surge protection", "down")]


def surge_critical_length(
    t: Trace,
    *,
    building: Annotated[
        Literal["dwelling", "other", "ground"], About("dwelling, other building or array on the ground")
    ],
    lightning_density_per_km2_year: Annotated[
        FlashDensityPerKm2Year, About("flashes to ground at the place")
    ],
) -> SurgeLength:
    """The route length from which an array without lightning protection needs surge protection."""
    return SurgeLength(
        t.calculate(
            surge.critical_length,
            constant=t.read("surge_critical_length", building),
            flashes_per_km2_year=lightning_density_per_km2_year,
        )
    )


CALCULATORS = (
    Calculator(
        "surge-critical-length",
        surge_critical_length,
        "IEC 60364-7-712:2017 clause 712.443",
        {"building": "dwelling", "lightning_density": "1.8 /km²/year"},
        tables=True,
    ),
)
