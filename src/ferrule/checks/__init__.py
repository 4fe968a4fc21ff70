"""What is asked of a design: one file a subject, each a list of questions."""

from ferrule.checks import neutral_earth, overload, string_voltage
from ferrule.checks.question import Question

QUESTIONS: tuple[Question, ...] = (
    *string_voltage.QUESTIONS,
    *overload.QUESTIONS,
    *neutral_earth.QUESTIONS,
)
