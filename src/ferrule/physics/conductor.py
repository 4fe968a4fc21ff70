"""What a conductor does to the current in it: resistance, drop, heating."""

import math

from ferrule.quantity import (
    Ratio,
    TemperatureC,
    formula,
)


@formula("sqrt((limit_c - ambient_c) / (limit_c - reference_c))")
def ambient_factor(*, limit_c: TemperatureC, ambient_c: TemperatureC, reference_c: TemperatureC) -> Ratio:
    """Share of its tabulated current a conductor may carry at another ambient temperature.

    Heat given off grows with the temperature difference to the surroundings, heat made with the square of
    the current. IEC 60364-5-52:2009 tables B.52.14 and B.52.15 are this formula rounded to two places.
    Zero at or above the limit.
    """
    if ambient_c >= limit_c:
        return 0.0
    return math.sqrt((limit_c - ambient_c) / (limit_c - reference_c))
