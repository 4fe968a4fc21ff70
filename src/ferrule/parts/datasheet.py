"""Any part: the union of the datasheets, told apart by `kind`."""

from typing import Annotated

from pydantic import Field

from ferrule.parts.anchor import Anchor
from ferrule.parts.devices import Adapter, Battery, Changeover, Controller, Generator, Inverter, Meter
from ferrule.parts.module import Module
from ferrule.parts.mount import Mount
from ferrule.parts.port import SignalCable
from ferrule.parts.terminals import BoardPart
from ferrule.parts.wiring import Cable

Part = Annotated[
    Module
    | Inverter
    | Battery
    | Changeover
    | Meter
    | Controller
    | Adapter
    | Generator
    | Cable
    | SignalCable
    | Anchor
    | Mount
    | BoardPart,
    Field(discriminator="kind"),
]
