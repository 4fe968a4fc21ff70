"""What is cut, bought and carried, by common practice."""

import math
from collections.abc import Iterable, Iterator

from ferrule.clauses.procedures.buying import End, Sort
from ferrule.physics import cutting
from ferrule.working import NotPrinted, Trace

_CHOICES = ("first", "second", "third", "fourth")
_ROUNDING = 1e-9  # a quotient this close to a whole number is that number


class TradeCounts:
    """Every figure here is trade knowledge; a firm's own lengths come before them."""

    needs = (
        "cut_end",
        "cut_stretch",
        "cut_step",
        "cut_waste",
        "cable_lengths",
        "cable_by_metre",
        "patch_lengths",
        "spare_share",
        "spare_least",
    )

    def cut_m(self, t: Trace, *, route_m: float, stretches: int, ends: Iterable[End]) -> float:
        length_m = t.calculate(
            cutting.cut_length,
            route_m=route_m,
            ends_m=math.fsum(t.read("cut_end", end) for end in ends),
            stretches=stretches,
            stretch_m=t.figure("cut_stretch"),
        )
        # Steps to a metre, not metres to a step: 0.1 has no exact float, 10 has.
        steps_per_m = round(1 / t.figure("cut_step"))
        return math.ceil(length_m * steps_per_m - _ROUNDING) / steps_per_m

    def cut_waste_mm(self, t: Trace) -> float:
        return t.figure("cut_waste")

    def by_metre(self, t: Trace, *, area_mm2: float) -> bool:
        return area_mm2 >= t.figure("cable_by_metre")

    def cable_lengths_m(self, t: Trace, *, cable: Sort) -> tuple[float, ...]:
        return tuple(_printed(t, cable))

    def patch_m(self, t: Trace, *, needed_m: float) -> float:
        for length_m in t.tables.series("patch_lengths").numbers():
            if length_m >= needed_m:
                return length_m
        raise NotPrinted(f"a patch cable of {needed_m:g} m, which is longer than those on sale")

    def spares(self, t: Trace, *, count: int) -> int:
        share = math.ceil(count * t.figure("spare_share") / 100 - _ROUNDING)
        return max(share, int(t.figure("spare_least"))) if count else 0


def _printed(t: Trace, cable: Sort) -> Iterator[float]:
    for choice in _CHOICES:
        try:
            yield t.read("cable_lengths", cable, choice)
        except NotPrinted:
            return
