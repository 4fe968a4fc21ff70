"""How hot cells get in the sun, by mounting: what an operating voltage falls to."""

from ferrule.physics import cell
from ferrule.working import Trace

#: The cell is at its hottest in the full sun that standard conditions are defined with.
_FULL_SUN_W_PER_M2 = 1000.0


class RiseByMounting:
    """The air's temperature and a rise that the mounting is known for.

    No standard sets it; the rulebook's table keeps the low and the high of published models and figures, of
    which the high one is safe for a voltage that must not fall.
    """

    needs = ("cell_temperature_rise",)

    def hottest_cell_c(self, t: Trace, *, hottest_c: float, mounting: str) -> float:
        return t.calculate(
            cell.cell_by_rise,
            air_c=hottest_c,
            rise_k=t.read("cell_temperature_rise", mounting, "high"),
            irradiance_w_per_m2=_FULL_SUN_W_PER_M2,
        )
