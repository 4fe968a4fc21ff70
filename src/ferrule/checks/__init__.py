"""What is asked of a design: one file a subject, each a list of questions."""

from ferrule.checks import (
    array_size,
    dc_conductor,
    dc_isolator,
    dc_surge,
    input_current,
    neutral_earth,
    overload,
    residual_current,
    string_fuse,
    string_length,
    string_operating,
    string_voltage,
    supply,
    supply_surge,
    two_way,
    voltage_change,
)
from ferrule.checks.question import Question

QUESTIONS: tuple[Question, ...] = (
    *string_voltage.QUESTIONS,
    *string_length.QUESTIONS,
    *string_operating.QUESTIONS,
    *string_fuse.QUESTIONS,
    *input_current.QUESTIONS,
    *dc_isolator.QUESTIONS,
    *dc_surge.QUESTIONS,
    *dc_conductor.QUESTIONS,
    *array_size.QUESTIONS,
    *overload.QUESTIONS,
    *voltage_change.QUESTIONS,
    *residual_current.QUESTIONS,
    *two_way.QUESTIONS,
    *supply.QUESTIONS,
    *supply_surge.QUESTIONS,
    *neutral_earth.QUESTIONS,
)
