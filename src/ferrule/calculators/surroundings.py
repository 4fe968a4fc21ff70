"""What reaches the neighbours, and what heat and height leave of a converter."""

from typing import Annotated, NamedTuple

from ferrule.calculators.calculator import About, Calculator
from ferrule.physics import climate, sound
from ferrule.quantity import Count, LengthM, SharePct, SoundDba, TemperatureC, Unit
from ferrule.working import Trace

Devices = Annotated[Count, Unit("", 1, 100, whole=True), About("devices of the same level, side by side")]


class Noise(NamedTuple):
    level_dba: Annotated[SoundDba, About("at that distance", "up")]


def noise(
    t: Trace,
    *,
    level_dba: Annotated[SoundDba, About("of one device at 1 m, from its sheet")],
    distance_m: Annotated[LengthM, About("to the window, 1 m or more")],
    devices: Devices = 1,
) -> Noise:
    """Sound that arrives at a window in the open, without what air and ground take away."""
    together_dba = t.calculate(sound.level_of_equal, level_dba=level_dba, count=devices)
    return Noise(t.calculate(sound.level_at_distance, level_dba=together_dba, distance_m=distance_m))


class HotPower(NamedTuple):
    left_pct: Annotated[SharePct, About("of its rated power", "down")]


def hot_power(
    t: Trace,
    *,
    air_c: Annotated[TemperatureC, About("hottest air around the device")],
    full_power_c: Annotated[TemperatureC, About("hottest air with full power, from its sheet")],
    derating_pct_per_k: Annotated[climate.DeratingPctPerK, About("lost for each kelvin above")],
) -> HotPower:
    """Power that heat leaves of a converter, by the figures of its sheet."""
    return HotPower(
        t.calculate(
            climate.power_left_in_heat,
            air_c=air_c,
            full_power_c=full_power_c,
            derating_pct_per_k=derating_pct_per_k,
        )
    )


CALCULATORS = (
    Calculator(
        "noise", noise, "ISO 9613-2:1996, 7.1", {"level": "42 dB(A)", "distance": "4 m", "devices": "2"}
    ),
    Calculator(
        "hot-power",
        hot_power,
        "a device's own derating, as its sheet states it",
        {"air": "48 °C", "full_power": "40 °C", "derating": "2.5 %/K"},
    ),
)
