"""The highest current of strings (IEC 60364-7-712:2017 clause 712.433)."""

from ferrule.physics import scale, strings
from ferrule.working import Trace


class BrightestCloudEdge:
    """I_sc_max: a quarter more than rated, for light at a cloud's edge exceeds standard conditions."""

    needs = ("pv_current_factor",)

    def highest_a(self, t: Trace, *, short_circuit_a: float, count: int) -> float:
        together_a = t.calculate(strings.parallel_current, string_a=short_circuit_a, strings=count)
        return t.calculate(scale.scaled_current, current_a=together_a, factor=t.figure("pv_current_factor"))
