"""Temperature coefficients as datasheets print them: relative (%/K) or absolute (V/K, A/K)."""

from dataclasses import dataclass
from typing import ClassVar, Self

from ferrule.physics import module
from ferrule.quantity import QuantityError, Unit, split
from ferrule.working import Trace


@dataclass(frozen=True, slots=True)
class Coefficient:
    """A change per kelvin in the unit it was written in."""

    value: float
    unit: str

    units: ClassVar[tuple[str, str]]
    allowed: ClassVar[str]
    highest: ClassVar[float] = 10.0

    @classmethod
    def parse(cls, text: str) -> Self:
        """Read `-0.28 %/K` or `-137 mV/K`. Raises `QuantityError`; a bare number says too little."""
        for unit in cls.units:
            try:
                if split(text)[1]:
                    return cls(Unit(unit, -10, cls.highest).parse(text), unit)
            except QuantityError:
                continue
        raise QuantityError(cls.allowed)

    def __str__(self) -> str:
        return f"{self.value:g} {self.unit}"


class VoltageCoefficient(Coefficient):
    """The coefficient of a voltage, which heat lowers: without its minus sign a cold morning looks mild."""

    __slots__ = ()
    units = ("%/K", "V/K")
    allowed = "a coefficient such as '-0.28 %/K' or '-0.137 V/K', with its minus sign"
    highest = 0.0

    def in_volts(self, t: Trace, stc_v: float) -> float:
        """In V/K; `stc_v` is the voltage at standard conditions."""
        if self.unit == "V/K":
            return self.value
        return t.calculate(module.coefficient_in_volts, stc_v=stc_v, coefficient_pct_per_k=self.value)


class CurrentCoefficient(Coefficient):
    """The coefficient of a current."""

    __slots__ = ()
    units = ("%/K", "A/K")
    allowed = "a coefficient such as '0.05 %/K' or '5.9 mA/K'"

    def in_amperes(self, t: Trace, stc_a: float) -> float:
        """In A/K; `stc_a` is the current at standard conditions."""
        if self.unit == "A/K":
            return self.value
        return t.calculate(module.coefficient_in_amperes, stc_a=stc_a, coefficient_pct_per_k=self.value)
