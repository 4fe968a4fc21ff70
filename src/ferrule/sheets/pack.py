"""The install pack: one paper from an answer, and the lists and drawings beside it.

A new list or drawing is one line in `LEAVES` (on paper and as a file) or in `BESIDE` (as a file only). A new
chapter is one word in `CHAPTERS`, and its title `chapter.NAME` in the texts.
"""

import json
from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from ferrule import export
from ferrule.answering import Answer
from ferrule.checks.subjects import PLACES
from ferrule.proving.words import Language
from ferrule.sheets import (
    cover,
    cutlist,
    day,
    dead,
    drawings,
    endsheet,
    findings,
    labelsheet,
    order,
    portside,
    readings,
    sizes,
    torque,
    van,
    wires,
)
from ferrule.sheets.paper import (
    Attachment,
    Block,
    Chapter,
    Checklist,
    Drawing,
    Heading,
    Item,
    Paper,
    Paragraph,
    Size,
)
from ferrule.sheets.pocket import pocket
from ferrule.sheets.table import Table
from ferrule.sheets.texts import say

#: the chapters behind the open questions, in order; the places first
CHAPTERS = (*PLACES, "drawings", "cables", "order", "labels", "steps", "beside", "sizes")

#: what makes the lists, drawings and other blocks on paper, each with the chapter it stands in (in that of a
#: place behind its findings); tables and drawings become files of their own, too
LEAVES: tuple[Callable[[Answer], Iterable[tuple[str, Block]]], ...] = (
    dead.records,
    wires.wires,
    portside.drawings,
    endsheet.ends_by_place,
    torque.torques_by_place,
    order.ordered,
    van.checked,
    cutlist.cutting,
    labelsheet.schedule,
    drawings.drawings,
    day.steps_of_the_day,
    readings.readings,
    sizes.chosen,
)

#: lists that the paper tells in another form
BESIDE: tuple[Callable[[Answer], Table], ...] = (
    findings.listed,
    endsheet.listed,
    torque.listed,
    labelsheet.listed,
)

_UNDATED = (2000, 1, 1)  # for the metadata, which must have some date; the paper itself says that it has none


class Pack(NamedTuple):
    """The paper, the few sheets that serve without it, and everything that is also a file of its own."""

    paper: Paper
    pocket: Paper
    tables: tuple[Table, ...]
    drawings: tuple[Drawing, ...]


def pack(
    result: Answer,
    given: tuple[int, int, int] | None = None,
    size: Size = "a4",
    beside: Language | None = None,
) -> Pack:
    """Everything the crew carries. `given` is the date the user gives; the clock is not asked. `beside` is a
    second language for notes of safety and steps.
    """
    leaves = [leaf for made in LEAVES for leaf in made(result)]
    leaves += [("beside", each) for each in day.beside(result, beside)] if beside else []
    contents = [block for _, block in leaves]
    date = "-".join(f"{each:02}" for each in given) if given else ""
    short = result.loaded.revision[:12]
    foot = say("pack.foot_dated", date=date, revision=short) if date else say("pack.foot", revision=short)
    job = result.loaded.job
    paper = Paper(
        title=job.name,
        subtitle=say("pack.title"),
        author=result.loaded.firm.name,
        day=given or _UNDATED,
        size=size,
        band="" if result.cleared else say("pack.band"),
        foot=(_shortened(job.name), foot),
        cover=cover.cover(result, date),
        chapters=tuple(_chapters(result, leaves)),
        attachments=_attachments(result),
    )
    tables = [each for each in contents if isinstance(each, Table)]
    return Pack(
        paper,
        pocket(result, paper, tables),
        (*(made(result) for made in BESIDE), *tables),
        tuple(each for each in contents if isinstance(each, Drawing)),
    )


def _chapters(result: Answer, leaves: list[tuple[str, Block]]) -> Iterator[Chapter]:
    if questions := tuple(cover.open_questions(result)):
        yield Chapter("open", say("open.title"), "", questions)
    for name in CHAPTERS:
        here = [block for chapter, block in leaves if chapter == name]
        if blocks := (*findings.of_place(result, name), *here):
            title = say(f"chapter.{name}")
            yield Chapter(name, title, title, blocks)
    yield Chapter("rests", say("rests.title"), "", tuple(_rests(result)))


def _rests(result: Answer) -> Iterator[Block]:
    if result.assumptions:
        yield Heading(say("rests.assumed"))
        yield Paragraph(say("rests.assumed_intro"))
        yield Checklist(tuple(Item(each.text, each.path) for each in result.assumptions))
    yield Heading(say("rests.attached"))
    yield Paragraph(say("rests.attached_intro", job=_JOB, results=_RESULTS))


_JOB, _RESULTS = "job.json", "results.json"


def _attachments(result: Answer) -> tuple[Attachment, ...]:
    results = json.dumps(export.answer(result), ensure_ascii=False)
    return (
        Attachment(_JOB, result.loaded.canonical, "application/json", say("pack.job_file")),
        Attachment(_RESULTS, results + "\n", "application/json", say("pack.results_file")),
    )


_FOOT = 60  # letters that fit beside revision and page


def _shortened(name: str) -> str:
    """A name as the foot of a page takes it; the cover has it whole."""
    name = " ".join(name.split())
    return name if len(name) <= _FOOT else name[: _FOOT - 1] + "…"
