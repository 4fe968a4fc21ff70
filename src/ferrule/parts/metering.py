"""What a meter's sheet asks of its current transformers."""

from typing import Annotated, Literal

from ferrule.document import Record
from ferrule.fact import Fact, missing
from ferrule.quantity import ApparentPowerVa, Unit

RatioA = Annotated[float, Unit("A", 0.01, 10_000)]
AccuracyClass = Annotated[float, Unit("", 0.1, 10)]


class TransformerInputs(Record):
    """The inputs for current transformers."""

    secondary_a: Fact[RatioA] = missing("secondary current that the meter's inputs are made for")
    input_va: Fact[ApparentPowerVa] = missing("burden of one input of the meter, from its sheet")
    accuracy: Fact[AccuracyClass] = missing("accuracy class that the meter asks of its transformers")
    arrow: Fact[Literal["network", "house"]] = missing(
        "which way the arrows on the transformers point by the meter's manual; makers differ"
    )
