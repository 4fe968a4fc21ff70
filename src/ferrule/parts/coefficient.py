"""A temperature coefficient as its sheet prints it: relative (%/K) or absolute (V/K, A/K)."""

from typing import Any, Literal, NamedTuple

from ferrule.quantity import QuantityError, Unit

_UNITS: tuple[Literal["%/K", "V/K", "A/K"], ...] = ("%/K", "V/K", "A/K")


class Coefficient(NamedTuple):
    """A change per kelvin, in the unit the datasheet uses."""

    value: float
    unit: Literal["%/K", "V/K", "A/K"]

    def absolute(self, base: float) -> float:
        """In V/K or A/K; `base` is the value at 25 °C, in V or A."""
        return base * self.value / 100 if self.unit == "%/K" else self.value

    @classmethod
    def parse(cls, given: Any) -> "Coefficient":
        """Read `-0.28 %/K`, `-137 mV/K` or `5.9 mA/K`. Raises `QuantityError`."""
        if isinstance(given, cls):
            return given
        for unit in _UNITS:
            try:
                if str(given).strip()[-1:].isdigit():
                    break
                return cls(Unit(unit, -10, 10).parse(str(given)), unit)
            except QuantityError:
                continue
        raise QuantityError("a coefficient such as '-0.28 %/K', '-0.137 V/K' or '5.9 mA/K'")

    @classmethod
    def __get_pydantic_core_schema__(cls, source: Any, handler: Any) -> Any:
        from pydantic_core import core_schema

        return core_schema.no_info_plain_validator_function(
            cls.parse,
            json_schema_input_schema=core_schema.str_schema(),
            serialization=core_schema.plain_serializer_function_ser_schema(lambda c: f"{c.value:g} {c.unit}"),
        )
