"""What comes in the box of a device."""

from typing import Annotated

from pydantic import Field, StringConstraints

from ferrule.document import Record
from ferrule.fact import Fact
from ferrule.quantity import Unit

ItemName = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1)]
Boxed = Annotated[int, Unit("", 1, 1_000, whole=True)]

BOX = "what comes in its box besides the plugs of its terminals, from its packing list; [] if nothing"


class BoxItem(Record):
    """Something that lies in the box beside the device; as much less of it is ordered."""

    item: ItemName = Field(description="in the words of the order list, such as 'gland M20, 5 to 13 mm'")
    count: Boxed = Field(default=1, description="how many of it")


Box = Fact[list[BoxItem]]
