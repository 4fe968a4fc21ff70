"""Neutral and protective conductors (IEC 60364-5-52:2009 clause 524.2, IEC 60364-5-54:2011 clause 543)."""

from collections.abc import Sequence

from ferrule.clauses.iec60364 import tripping
from ferrule.clauses.iec60364.short_circuit import CORES
from ferrule.clauses.values import CableKind, Device
from ferrule.constraint import Constraint, at_least
from ferrule.physics import conductor, scale
from ferrule.quantity import Size
from ferrule.working import NotPrinted, Trace

#: methods in which a single conductor lies in a conduit, a duct or a wall
_PROTECTED = frozenset({"A1", "B1", "D1"})


class EqualCores:
    """As thick as the lines, apart from what the rules let be thinner."""

    needs = (
        *tripping.NEEDS,
        "neutral_reduced_above",
        "pe_equal_upto",
        "pe_fixed",
        "pe_fixed_upto",
        "pe_share_above",
        "adiabatic_k",
        "pe_minimum",
        "pe_reinforced",
        "pe_reinforced_above",
    )

    def neutral(self, t: Trace, *, line: Size, neutral: Size, lines: int) -> Constraint:
        """524.2: above 16 mm² the neutral of a three-phase circuit may be thinner, but nobody has shown here
        that its loads are even and free of third harmonics: a look.
        """
        line_mm2, neutral_mm2 = _areas_mm2(line, neutral)
        least_mm2 = t.figure("neutral_reduced_above") if lines > 2 else line_mm2
        return at_least(
            "neutral",
            "The neutral has {value}, the lines have {limit}",
            t,
            value=neutral_mm2,
            limit=line_mm2,
            unit="mm²",
            binding=neutral_mm2 < min(line_mm2, least_mm2),
        )

    def protective(self, t: Trace, *, line: Size, protective: Size) -> Constraint:
        """Table 54.2."""
        line_mm2, own_mm2 = _areas_mm2(line, protective)
        return at_least(
            "protective",
            "The protective conductor has {value}; for such lines the table asks for {limit}",
            t,
            value=own_mm2,
            limit=self._by_table_mm2(t, line_mm2),
            unit="mm²",
        )

    def protective_in_fault(
        self, t: Trace, *, line: Size, protective: Size, cable: CableKind, fault_a: float, device: Device
    ) -> Constraint:
        """543.1.2: thinner than the table asks, if it is shown to bear the fault; a look all the same."""
        line_mm2, own_mm2 = _areas_mm2(line, protective)
        needed_mm2 = t.calculate(
            conductor.smallest_area,
            let_through_a2s=self._let_through_a2s(t, device, fault_a),
            k_factor=t.read("adiabatic_k", CORES[cable.insulation], cable.conductor),
        )
        return at_least(
            "protective",
            "The protective conductor has {value} where the table asks for {limit}; by calculation the fault "
            "needs {needed_mm2}",
            t,
            value=own_mm2,
            limit=self._by_table_mm2(t, line_mm2),
            unit="mm²",
            binding=own_mm2 < needed_mm2,
            needed_mm2=needed_mm2,
        )

    @staticmethod
    def _by_table_mm2(t: Trace, line_mm2: float) -> float:
        """Table 54.2, for the metal of the lines."""
        if line_mm2 <= t.figure("pe_equal_upto"):
            return line_mm2
        if line_mm2 <= t.figure("pe_fixed_upto"):
            return t.figure("pe_fixed")
        return t.calculate(scale.scaled_area, area_mm2=line_mm2, factor=t.figure("pe_share_above"))

    @staticmethod
    def _let_through_a2s(t: Trace, device: Device, fault_a: float) -> float:
        if device.let_through_a2s is not None:
            return t.given("let_through_a2s", device.let_through_a2s, "maker's figure at this fault current")
        longest_a2s = tripping.longest_a2s(t, device, fault_a)
        class_a2s = tripping.class_a2s(t, device, fault_a)
        return longest_a2s if class_a2s is None else min(longest_a2s, class_a2s)

    def separate(self, t: Trace, *, protective: Size, metal: str, methods: Sequence[str]) -> Constraint:
        """543.1.3: a conductor of its own must not be too thin to last."""
        covered = "protected" if all(method in _PROTECTED for method in methods) else "unprotected"
        return at_least(
            "separate",
            "The protective conductor runs by itself with {value}; it needs {limit} to last",
            t,
            value=_areas_mm2(protective)[0],
            limit=t.read("pe_minimum", covered, metal),
            unit="mm²",
        )

    def combined(self, t: Trace, *, protective: Size, metal: str) -> Constraint:
        """543.4: a conductor that is neutral and earth at once must not break."""
        return at_least(
            "combined",
            "Neutral and protective conductor are one here, with {value}; it needs {limit} at least",
            t,
            value=_areas_mm2(protective)[0],
            limit=t.read("pe_minimum", "pen", metal),
            unit="mm²",
        )

    def reinforced(
        self, t: Trace, *, protective: Size, metal: str, leakage_a: float, doubled: bool
    ) -> Constraint | None:
        """543.7: above 10 mA in normal service one conductor of 10 mm² of copper, or a second one."""
        if leakage_a <= t.figure("pe_reinforced_above") or doubled:
            return None
        return at_least(
            "reinforced",
            "{leakage_a} flow in the protective conductor all the time; it has {value} and needs {limit}",
            t,
            value=_areas_mm2(protective)[0],
            limit=t.read("pe_reinforced", metal),
            unit="mm²",
            mend="run a second protective conductor of the same size on a terminal of its own",
            leakage_a=leakage_a,
        )


def _areas_mm2(*sizes: Size) -> tuple[float, ...]:
    for size in sizes:
        if size.system != "mm²":
            raise NotPrinted(f"the rules give sizes in mm², not {size}")
    return tuple(size.area_mm2 for size in sizes)
