"""The datasheet of a photovoltaic module."""

from typing import Literal

from ferrule.document import Record
from ferrule.fact import Fact, assumed, missing
from ferrule.parts.coefficient import Coefficient
from ferrule.quantity import CurrentA, PowerW, SharePct, TemperatureC, VoltageV


class Electronics(Record):
    """Electronics built into or clipped to the module."""

    open_terminal_v: Fact[VoltageV] = missing("voltage the module's electronics show at open terminals")


class Module(Record):
    """A module at standard test conditions (1000 W/m², cell 25 °C, AM 1.5) and its limits."""

    id: str
    kind: Literal["module"]
    name: str
    source: str
    technology: Fact[Literal["mono", "poly", "thin-film"]] = missing("module technology, from its sheet")
    power_w: Fact[PowerW] = missing("module power at standard conditions, from its sheet")
    voc_v: Fact[VoltageV] = missing("module open-circuit voltage, from its sheet")
    isc_a: Fact[CurrentA] = missing("module short-circuit current, from its sheet")
    vmp_v: Fact[VoltageV] = missing("module voltage at maximum power, from its sheet")
    imp_a: Fact[CurrentA] = missing("module current at maximum power, from its sheet")
    voc_coefficient: Fact[Coefficient] = missing("temperature coefficient of Voc, from the module's sheet")
    isc_coefficient: Fact[Coefficient] = missing("temperature coefficient of Isc, from the module's sheet")
    power_coefficient: Fact[Coefficient] = missing(
        "temperature coefficient of power, from the module's sheet"
    )
    vmp_coefficient: Coefficient | None = None
    noct_c: Fact[TemperatureC] = missing("nominal operating cell temperature, from the module's sheet")
    series_fuse_max_a: Fact[CurrentA] = missing("maximum series fuse rating, from the module's label")
    system_voltage_max_v: Fact[VoltageV] = missing("maximum system voltage, from the module's label")
    connector_voltage_max_v: Fact[VoltageV] = missing("rated voltage of the module's connectors")
    bypass_diodes: Fact[int] = missing("number of bypass diodes, from the module's sheet")
    rear_gain_pct: SharePct = assumed(0.0, "no gain from light on the rear side")
    electronics: Electronics | None = None
