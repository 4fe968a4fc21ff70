"""Cell temperature, and readings carried to standard conditions and back."""

from typing import Annotated, Literal, NamedTuple

from ferrule.calculators.calculator import About, Calculator
from ferrule.calculators.coefficient import CurrentCoefficient
from ferrule.physics import cell, module
from ferrule.physics import translation as physics
from ferrule.quantity import (
    CurrentA,
    IrradianceWPerM2,
    Ratio,
    SpeedMPerS,
    TemperatureC,
    Unit,
    VoltageV,
)
from ferrule.working import Bound, Trace

SunWPerM2 = Annotated[IrradianceWPerM2, About("irradiance on the modules")]
LightWPerM2 = Annotated[float, Unit("W/m²", 1, 2_000), About("irradiance on the modules")]
#: heat lowers the voltage of every module: without its minus sign a reading is carried the wrong way
FallingPctPerK = Annotated[
    float, Unit("%/K", -5, 0), About("temperature coefficient of the voltage, with its minus sign")
]
CellC = Annotated[TemperatureC, About("temperature of the cells")]
LightFactor = Annotated[
    Ratio | None, About("change of the voltage with the logarithm of the light, where known")
]


class CellTemperature(NamedTuple):
    low_c: Annotated[TemperatureC, About("by the coolest of the published rises")]
    high_c: Annotated[TemperatureC, About("by the hottest, safe for a voltage that must not fall", "up")]


def cell_temperature(
    t: Trace,
    *,
    air_c: TemperatureC,
    mounting: Literal["close-roof", "raised-roof", "rack"],
    irradiance_w_per_m2: SunWPerM2,
) -> CellTemperature:
    """Cell temperature by the mounting of the modules."""

    def by(bound: Bound) -> float:
        return t.calculate(
            cell.cell_by_rise,
            air_c=air_c,
            rise_k=t.read("cell_temperature_rise", mounting, bound),
            irradiance_w_per_m2=irradiance_w_per_m2,
        )

    return CellTemperature(by("low"), by("high"))


class CellInWind(NamedTuple):
    cell_c: TemperatureC


def cell_in_wind(
    t: Trace,
    *,
    air_c: TemperatureC,
    wind_m_per_s: Annotated[SpeedMPerS, About("at 10 m height")],
    irradiance_w_per_m2: SunWPerM2,
    build: Annotated[
        Literal[
            "open_glass_glass", "close_roof_glass_glass", "open_glass_polymer", "insulated_glass_polymer"
        ],
        About("where the air reaches, and what covers front and back"),
    ],
) -> CellInWind:
    """Cell temperature with wind, by mounting and build of the modules."""
    return CellInWind(
        t.calculate(
            cell.cell_by_sapm,
            air_c=air_c,
            irradiance_w_per_m2=irradiance_w_per_m2,
            wind_m_per_s=wind_m_per_s,
            a=t.read("sapm_exponent", build, "a"),
            b=t.read("sapm_exponent", build, "b"),
            rise_k=t.read("sapm_cell_difference", build),
        )
    )


class Voltage(NamedTuple):
    low_v: Annotated[VoltageV, About("lower end, by the published span of the light factor", "down")]
    high_v: Annotated[VoltageV, About("upper end", "up")]


def voltage_to_standard(
    t: Trace,
    *,
    measured_v: Annotated[VoltageV, About("open-circuit voltage of module or string as measured")],
    voc_coefficient_pct_per_k: FallingPctPerK,
    cell_c: CellC,
    irradiance_w_per_m2: LightWPerM2,
    light_factor: LightFactor = None,
) -> Voltage:
    """Open-circuit voltage at standard conditions, from a reading on the roof."""

    def by(factor: float) -> float:
        return t.calculate(
            physics.open_voltage_to_stc,
            measured_v=measured_v,
            coefficient_pct_per_k=voc_coefficient_pct_per_k,
            cell_c=cell_c,
            light_factor=factor,
            irradiance_w_per_m2=irradiance_w_per_m2,
        )

    return Voltage(*sorted(by(factor) for factor in _light_factors(t, light_factor)))


def voltage_from_standard(
    t: Trace,
    *,
    voc_v: Annotated[VoltageV, About("open-circuit voltage of module or string at standard conditions")],
    voc_coefficient_pct_per_k: FallingPctPerK,
    cell_c: CellC,
    irradiance_w_per_m2: LightWPerM2,
    light_factor: LightFactor = None,
) -> Voltage:
    """Open-circuit voltage to expect on the roof, from that at standard conditions."""

    def by(factor: float) -> float:
        return t.calculate(
            physics.open_voltage_in_light,
            stc_v=voc_v,
            coefficient_pct_per_k=voc_coefficient_pct_per_k,
            cell_c=cell_c,
            light_factor=factor,
            irradiance_w_per_m2=irradiance_w_per_m2,
        )

    return Voltage(*sorted(by(factor) for factor in _light_factors(t, light_factor)))


def _light_factors(t: Trace, given: float | None) -> tuple[float, float]:
    if given is not None:
        return given, given
    return t.figure("light_factor", "low"), t.figure("light_factor", "high")


class Current(NamedTuple):
    current_a: CurrentA


def current_from_standard(
    t: Trace,
    *,
    isc_a: Annotated[CurrentA, About("short-circuit current at standard conditions")],
    isc_coefficient: CurrentCoefficient,
    cell_c: CellC,
    irradiance_w_per_m2: SunWPerM2,
) -> Current:
    """Short-circuit current to expect on the roof, from that at standard conditions."""
    return Current(
        t.calculate(
            module.current_at_cell,
            stc_a=isc_a,
            coefficient_a_per_k=isc_coefficient.in_amperes(t, isc_a),
            cell_c=cell_c,
            irradiance_w_per_m2=irradiance_w_per_m2,
        )
    )


CALCULATORS = (
    Calculator(
        "cell-temperature",
        cell_temperature,
        "a rise above the air in proportion to the light, by mounting",
        {"air": "34 °C", "mounting": "close-roof", "irradiance": "1000 W/m²"},
        tables=True,
    ),
    Calculator(
        "cell-temperature-noct",
        cell.cell_by_noct,
        "Ross, IEEE Photovoltaic Specialists Conference 1980; IEC 61215",
        {"air": "34 °C", "noct": "45 °C", "irradiance": "1000 W/m²"},
        result="cell_c",
        about={
            "noct_c": About("nominal operating cell temperature, from the sheet"),
            "irradiance_w_per_m2": About("irradiance on the modules"),
        },
    ),
    Calculator(
        "cell-temperature-wind",
        cell_in_wind,
        "King and others, Sandia report SAND2004-3535, equations 11 and 12",
        {"air": "20 °C", "wind": "1 m/s", "irradiance": "1000 W/m²", "build": "open_glass_polymer"},
        tables=True,
    ),
    Calculator(
        "voltage-to-standard",
        voltage_to_standard,
        "IEC 60891:2021 procedure 2 at no current",
        {
            "measured": "440 V",
            "voc_coefficient": "-0.26 %/K",
            "cell": "48 °C",
            "irradiance": "700 W/m²",
        },
        tables=True,
    ),
    Calculator(
        "voltage-from-standard",
        voltage_from_standard,
        "IEC 60891:2021 procedure 2 at no current",
        {"voc": "466.8 V", "voc_coefficient": "-0.26 %/K", "cell": "48 °C", "irradiance": "700 W/m²"},
        tables=True,
    ),
    Calculator(
        "current-to-standard",
        physics.short_current_to_stc,
        "IEC 60904-3 standard conditions; proportion to the light",
        {"measured": "9.8 A", "coefficient": "0.05 %/K", "cell": "48 °C", "irradiance": "700 W/m²"},
        result="current_a",
        about={
            "measured_a": About("short-circuit current as measured"),
            "coefficient_pct_per_k": About("temperature coefficient of the short-circuit current"),
            "cell_c": About("temperature of the cells"),
            "irradiance_w_per_m2": About("irradiance on the modules"),
        },
    ),
    Calculator(
        "current-from-standard",
        current_from_standard,
        "IEC 60904-3 standard conditions; proportion to the light",
        {"isc": "13.9 A", "isc_coefficient": "0.05 %/K", "cell": "48 °C", "irradiance": "700 W/m²"},
    ),
)
