"""The steps of the day on paper, by moment: boxes to tick, what to read, what holds a step up."""

from collections.abc import Iterator, Mapping
from itertools import groupby

from ferrule.answering import Answer
from ferrule.proving.steps import Step, cautions, held, steps
from ferrule.proving.words import Catalogue, Language, catalogue
from ferrule.sheets.paper import Block, Checklist, Heading, Item, Notice
from ferrule.sheets.table import Column, Table, table
from ferrule.sheets.texts import say


def steps_of_the_day(result: Answer) -> Iterator[tuple[str, Block]]:
    """The notes of safety, numbered, then every step with the numbers of those it needs."""
    every, words = steps(result.design), catalogue("en")
    waiting = held(every)
    notes = {caution: str(at) for at, caution in enumerate(cautions(every), start=1)}
    yield "steps", Notice(words.text("label.cautions"), tuple(map(words.text, notes)), numbered=True)
    for phase, found in groupby(every, key=lambda step: step.phase):
        yield "steps", Heading(words.text(f"phase.{phase}"))
        yield "steps", Checklist(tuple(_item(step, step.id in waiting, notes, words) for step in found))


def beside(result: Answer, language: Language) -> Iterator[Table]:
    """The notes of safety and the steps in English and, beside it, in another language."""
    every, english, other = steps(result.design), catalogue("en"), catalogue(language)
    columns = (
        Column("id", say("beside.step"), width=18),
        Column("en", say("beside.en"), width=52),
        Column("other", say(f"beside.{language}"), width=52),
        Column("done", say("wires.done"), width=8),
    )
    notes = [(str(at), english.text(key), other.text(key), None) for at, key in enumerate(cautions(every), 1)]
    yield table(f"safety-{language}", say("beside.safety"), columns[:3], [row[:3] for row in notes])
    rows = [
        (step.id, english.text(step.text, step.words), other.text(step.text, step.words), None)
        for step in every
    ]
    yield table(f"steps-{language}", say("beside.steps"), columns, rows)


def _item(step: Step, waits: bool, notes: Mapping[str, str], words: Catalogue) -> Item:
    readings = tuple((words.text(each.text, each.words), each.unit) for each in step.readings)
    note = " · ".join(_note(step, notes, words))
    return Item(words.text(step.text, step.words), note, _stop(step, waits, words), readings)


def _stop(step: Step, waits: bool, words: Catalogue) -> str:
    if step.find_out:
        return f"{words.text('label.find_out')}: {'; '.join(step.find_out)}"
    return words.text("label.waits") if waits else ""


def _note(step: Step, notes: Mapping[str, str], words: Catalogue) -> Iterator[str]:
    yield f"{words.text(f'place.{step.place}')}, {step.id}"
    if step.cautions:
        yield f"{words.text('label.cautions')}: {', '.join(notes[each] for each in step.cautions)}"
    if step.tools:
        yield f"{words.text('label.tools')}: {', '.join(map(words.text, step.tools))}"
    if step.gate:
        yield f"{words.text('label.gate')}: {words.text(f'gate.{step.gate}')}"
