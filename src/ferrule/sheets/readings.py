"""The test sheet: every reading of the day with room to write it down."""

from collections.abc import Iterator

from ferrule.answering import Answer
from ferrule.proving.steps import steps
from ferrule.proving.words import catalogue
from ferrule.sheets.table import Column, Table, table
from ferrule.sheets.texts import say


def readings(result: Answer) -> Iterator[tuple[str, Table]]:
    """The readings in the order in which they are taken; proofs of dead stand in the isolation records."""
    words = catalogue("en")
    columns = (
        Column("step", say("readings.step"), width=20),
        Column("place", say("readings.place"), width=9),
        Column("what", say("readings.what"), width=48),
        Column("reading", say("readings.reading"), width=20),
        Column("unit", say("readings.unit"), width=6),
        Column("who", say("readings.who"), width=8),
    )
    rows = (
        (step.id, words.text(f"place.{step.place}"), words.text(each.text, each.words), None, each.unit, None)
        for step in steps(result.design)
        for each in step.readings
    )
    yield "steps", table("test-sheet", say("readings.title"), columns, rows, (say("readings.note"),))
