"""The datasheet of a photovoltaic module."""

from typing import Annotated, Any, Literal

from pydantic import ValidationInfo, field_validator

from ferrule.document import Record
from ferrule.fact import Fact, assumed, missing
from ferrule.parts.coefficient import CurrentCoefficient, PowerCoefficient, VoltageCoefficient
from ferrule.quantity import CurrentA, LengthMm, MassKg, TemperatureC, Unit, VoltageV, bare_name

# What one module gives; beyond these ranges a value is a slip, and zero would pass every limit.
ModuleVoltageV = Annotated[float, Unit("V", 1, 500)]
ModuleCurrentA = Annotated[float, Unit("A", 0.1, 100)]
ModulePowerW = Annotated[float, Unit("W", 1, 2_000)]
SideMm = Annotated[float, Unit("mm", 100, 5_000)]
Diodes = Annotated[int, Unit("", 0, 24, whole=True)]
RearGainPct = Annotated[float, Unit("%", 0, 60)]


class Electronics(Record):
    """Electronics built into or clipped to the module."""

    open_terminal_v: Fact[VoltageV] = missing("voltage the module's electronics show at open terminals")


class ClampZone(Record):
    """Where a side of the frame may be clamped, from each of its corners."""

    side: Literal["long", "short"]
    from_mm: LengthMm
    to_mm: LengthMm

    @field_validator("to_mm")
    @classmethod
    def _beyond(cls, given: float, info: ValidationInfo) -> float:
        start_mm = info.data.get("from_mm")
        if start_mm is not None and given <= start_mm:
            raise ValueError(f"more than from, which is {start_mm:g} mm")
        return given


class Module(Record):
    """A module at standard test conditions (1000 W/m², cell 25 °C, AM 1.5) and its limits."""

    id: str
    kind: Literal["module"]
    name: str
    source: str
    technology: Fact[Literal["mono", "poly", "thin-film"]] = missing("module technology, from its sheet")
    power_w: Fact[ModulePowerW] = missing("module power at standard conditions, from its sheet")
    voc_v: Fact[ModuleVoltageV] = missing("module open-circuit voltage, from its sheet")
    isc_a: Fact[ModuleCurrentA] = missing("module short-circuit current, from its sheet")
    vmp_v: Fact[ModuleVoltageV] = missing("module voltage at maximum power, from its sheet")
    imp_a: Fact[ModuleCurrentA] = missing("module current at maximum power, from its sheet")
    voc_coefficient: Fact[VoltageCoefficient] = missing(
        "temperature coefficient of Voc, from the module's sheet"
    )
    isc_coefficient: Fact[CurrentCoefficient] = missing(
        "temperature coefficient of Isc, from the module's sheet"
    )
    power_coefficient: Fact[PowerCoefficient] = missing(
        "temperature coefficient of power, from the module's sheet"
    )
    vmp_coefficient: VoltageCoefficient | None = None
    noct_c: Fact[TemperatureC] = missing("nominal operating cell temperature, from the module's sheet")
    series_fuse_max_a: Fact[CurrentA] = missing("maximum series fuse rating, from the module's label")
    system_voltage_max_v: Fact[VoltageV] = missing("maximum system voltage, from the module's label")
    plugs: Fact[str] = missing(
        "family of the plugs on the module's leads, from its sheet: only plugs of one family mate"
    )
    connector_voltage_max_v: Fact[VoltageV] = missing("rated voltage of the module's connectors")
    length_mm: Fact[SideMm] = missing("length of the module's long side, from its sheet")
    width_mm: Fact[SideMm] = missing("length of the module's short side, from its sheet")
    mass_kg: Fact[MassKg] = missing("mass of the module, from its sheet")
    clamps: Fact[list[ClampZone]] = missing("where its frame may be clamped, from its manual")
    bypass_diodes: Fact[Diodes] = missing("number of bypass diodes, from the module's sheet")
    rear_gain_pct: RearGainPct = assumed(0.0, "no gain from light on the rear side")
    electronics: Electronics | None = None

    @field_validator("vmp_v", "imp_a")
    @classmethod
    def _less_than_without_load(cls, given: Any, info: ValidationInfo) -> Any:
        """Two columns of a sheet are easily swapped: under load a module gives less of both."""
        other = {"vmp_v": "voc_v", "imp_a": "isc_a"}[str(info.field_name)]
        most = info.data.get(other)
        if isinstance(given, float) and isinstance(most, float) and given >= most:
            raise ValueError(f"less than {bare_name(other)}, which is {most:g}")
        return given
