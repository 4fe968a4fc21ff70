"""A temperature coefficient as its sheet prints it: relative (%/K) or absolute (V/K, A/K)."""

from typing import Annotated, Any, Literal, NamedTuple

from ferrule.quantity import QuantityError, Unit

CoefficientUnit = Literal["%/K", "V/K", "A/K"]


class Coefficient(NamedTuple):
    """A change per kelvin, in the unit the datasheet uses."""

    value: float
    unit: CoefficientUnit

    def absolute(self, base: float) -> float:
        """In V/K or A/K; `base` is the value at 25 °C, in V or A."""
        return base * self.value / 100 if self.unit == "%/K" else self.value


class _Written:
    """Tells pydantic in which units a sheet may print a coefficient.

    `falls` is for what heat lowers in every module: a coefficient without its minus sign would take a cold
    morning for a mild one.
    """

    def __init__(self, *units: CoefficientUnit, falls: bool, such_as: str) -> None:
        self.units, self.falls, self.such_as = units, falls, such_as

    def parse(self, given: Any) -> Coefficient:
        """Read `-0.28 %/K`, `-137 mV/K` or `5.9 mA/K`. Raises `QuantityError`."""
        if isinstance(given, Coefficient):
            return given
        for unit in self.units:
            try:
                if str(given).strip()[-1:].isdigit():
                    break
                return Coefficient(Unit(unit, -10, 0 if self.falls else 10).parse(str(given)), unit)
            except QuantityError:
                continue
        minus = ", with its minus sign: heat lowers it" if self.falls else ""
        raise QuantityError(f"a coefficient such as {self.such_as}{minus}")

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> Any:
        from pydantic_core import core_schema

        return core_schema.no_info_plain_validator_function(
            self.parse,
            json_schema_input_schema=core_schema.str_schema(),
            serialization=core_schema.plain_serializer_function_ser_schema(lambda c: f"{c.value:g} {c.unit}"),
        )


VoltageCoefficient = Annotated[
    Coefficient, _Written("%/K", "V/K", falls=True, such_as="'-0.28 %/K' or '-0.137 V/K'")
]
CurrentCoefficient = Annotated[
    Coefficient, _Written("%/K", "A/K", falls=False, such_as="'0.05 %/K' or '5.9 mA/K'")
]
PowerCoefficient = Annotated[Coefficient, _Written("%/K", falls=True, such_as="'-0.35 %/K'")]
