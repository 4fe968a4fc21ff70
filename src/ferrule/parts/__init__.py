"""Datasheets: what a part's maker states, in one typed record a kind."""

from ferrule.parts.anchor import Anchor
from ferrule.parts.datasheet import Part
from ferrule.parts.devices import Adapter, Battery, Changeover, Controller, Generator, Inverter, Meter
from ferrule.parts.module import Module
from ferrule.parts.mount import Mount
from ferrule.parts.port import SignalCable
from ferrule.parts.terminals import BoardPart
from ferrule.parts.wiring import Cable

__all__ = [
    "Adapter",
    "Anchor",
    "Battery",
    "BoardPart",
    "Cable",
    "Changeover",
    "Controller",
    "Generator",
    "Inverter",
    "Meter",
    "Module",
    "Mount",
    "Part",
    "SignalCable",
]
