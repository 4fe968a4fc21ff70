"""Calculators of the trade, each by itself: `ferrule calc`."""

from ferrule.calculators import (
    battery,
    bus,
    cables,
    cells,
    earth,
    faults,
    fixing,
    lifting,
    loads,
    strings,
    surges,
    surroundings,
    testing,
)
from ferrule.calculators.calculator import (
    About,
    BadInput,
    Calculator,
    Field,
    NoAnswer,
    Outcome,
    Result,
)

__all__ = ["CALCULATORS", "About", "BadInput", "Calculator", "Field", "NoAnswer", "Outcome", "Result"]

#: every calculator by its name, in the order in which a job meets them
CALCULATORS: dict[str, Calculator] = {
    calculator.name: calculator
    for group in (
        strings,
        cells,
        cables,
        faults,
        earth,
        surges,
        battery,
        loads,
        fixing,
        lifting,
        bus,
        surroundings,
        testing,
    )
    for calculator in group.CALCULATORS
}
