"""Earth electrode and its conductor (IEC 60364-5-54:2011 clause 542, IEC 60364-4-41:2005 clause 411.5)."""

from collections.abc import Iterator

from ferrule.constraint import Constraint, at_least, at_most
from ferrule.physics import electrode
from ferrule.quantity import Size
from ferrule.working import Tables, Trace


class OwnElectrode:
    """A conductor that lasts in the ground, a touch voltage that may last, a resistance that stays."""

    needs = ("earthing_conductor_minimum", "touch_voltage_ac", "electrode_stable", "conductor_sizes")

    def conductor(self, tables: Tables, *, size: Size) -> Iterator[Constraint]:
        """542.3.1, of copper and protected; buried bare it must be larger."""
        t = Trace(tables)
        yield at_least(
            "earthing_minimum",
            "The earthing conductor has {value} of copper; it needs {limit}",
            t,
            value=size.area_mm2,
            limit=t.read("earthing_conductor_minimum", "cu"),
            unit="mm²",
        )

    def touch_voltage(
        self, tables: Tables, *, electrode_ohm: float, residual_a: float
    ) -> Iterator[Constraint]:
        """411.5.3: R_A · I_Δn ≤ 50 V."""
        t = Trace(tables)
        t.given("electrode_ohm", electrode_ohm, "earth electrode")
        t.given("residual_a", residual_a, "largest rated residual current")
        yield at_most(
            "touch_voltage",
            "Until the RCD of {residual_a} trips the electrode may rise to {value}; {limit} may last",
            t,
            value=t.calculate(electrode.touch_voltage, electrode_ohm=electrode_ohm, current_a=residual_a),
            limit=t.figure("touch_voltage_ac"),
            unit="V",
            mend="lower its resistance with more or deeper rods, or take an RCD of less residual current",
            residual_a=residual_a,
        )  # fmt: skip

    def stable(self, tables: Tables, *, electrode_ohm: float) -> Iterator[Constraint]:
        """BS 7671 table 41.5 note 2: drying and freezing soil may change a poor electrode out of bounds."""
        t = Trace(tables)
        yield at_most(
            "stable",
            "The electrode has {value}; above {limit} it may not stay what it is",
            t,
            value=electrode_ohm,
            limit=t.figure("electrode_stable"),
            unit="Ω",
            binding=False,
            mend="lower the electrode's resistance with more or deeper rods",
        )

    def sizes(self, tables: Tables) -> tuple[Size, ...]:
        return tuple(Size.parse(name) for name in tables.series("conductor_sizes").words())
