"""The sheets that do the job with a dead phone: what to bring, what lands where, the steps, what to measure.

Short on purpose: a line a lead's end, a sentence a step, a line a reading. The pack has all the rest.
"""

from collections.abc import Iterable, Iterator
from itertools import groupby

from ferrule.answering import Answer
from ferrule.proving.steps import Step, steps
from ferrule.proving.words import Catalogue, catalogue
from ferrule.sheets import cover
from ferrule.sheets.paper import Block, Chapter, Checklist, Heading, Item, Paper
from ferrule.sheets.table import Table
from ferrule.sheets.texts import say
from ferrule.sheets.wires import brief


def pocket(result: Answer, whole: Paper, tables: Iterable[Table]) -> Paper:
    """A short paper beside the whole pack, with its head and foot."""
    sheets = (
        Chapter(f"sheet-{name}", say(f"pocket.{name}"), say(f"pocket.{name}"), tuple(blocks))
        for name, blocks in _sheets(result, tables)
    )
    return whole._replace(
        subtitle=say("pocket.title"), cover=cover.short(result), chapters=tuple(sheets), attachments=()
    )


def _sheets(result: Answer, tables: Iterable[Table]) -> Iterator[tuple[str, list[Block]]]:
    made = {each.id: each for each in tables}
    if "order" in made:
        yield "order", [made["order"]]
    yield "wiring", [*brief(result)]
    yield "steps", [*_steps(steps(result.design), catalogue("en"))]
    yield "tests", [made["test-sheet"]]


def _steps(every: Iterable[Step], words: Catalogue) -> Iterator[Block]:
    for phase, found in groupby(every, key=lambda step: step.phase):
        yield Heading(words.text(f"phase.{phase}"))
        yield Checklist(tuple(_step(step, words) for step in found), columns=2)


def _step(step: Step, words: Catalogue) -> Item:
    stop = f"{words.text('label.find_out')}: {'; '.join(step.find_out)}" if step.find_out else ""
    return Item(_first_sentence(words.text(step.text, step.words)), "", stop)


def _first_sentence(text: str) -> str:
    """What to do; the sentences behind it say how, and stand in the pack."""
    first, _, rest = text.partition(". ")
    return f"{first}." if rest else first
