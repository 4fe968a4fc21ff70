"""How large an array suits an inverter: a convention, no standard's rule."""

from collections.abc import Iterator

from ferrule.constraint import Constraint, at_least, at_most
from ferrule.physics import strings
from ferrule.working import Tables, Trace


class UsualRatio:
    """Array power over inverter power within the usual band of house roofs."""

    needs = ("dc_ac_ratio_usual_least", "dc_ac_ratio_usual_most")

    def usual(
        self, tables: Tables, *, array_w: float, inverter_w: float, battery: bool
    ) -> Iterator[Constraint]:
        """A small array leaves the inverter idle, a large one is cut off at noon if no battery takes it."""
        t = Trace(tables)
        yield at_least(
            "array_not_small",
            "The array has {value} times the inverter's power; from {limit} on is usual",
            t,
            value=t.calculate(strings.dc_ac_ratio, array_w=array_w, inverter_w=inverter_w),
            limit=t.figure("dc_ac_ratio_usual_least"),
            unit="",
            binding=False,
        )
        if battery:
            return
        t = Trace(tables)
        yield at_most(
            "array_not_large",
            "The array has {value} times the inverter's power; up to {limit} is usual without a battery",
            t,
            value=t.calculate(strings.dc_ac_ratio, array_w=array_w, inverter_w=inverter_w),
            limit=t.figure("dc_ac_ratio_usual_most"),
            unit="",
            binding=False,
        )
