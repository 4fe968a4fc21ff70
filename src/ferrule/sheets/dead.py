"""The isolation records on paper: what feeds a place, what to open and lock, to prove, what stays live."""

from collections.abc import Iterator

from ferrule.answering import Answer
from ferrule.proving import told
from ferrule.proving.isolation import PROOF, Record, isolation
from ferrule.proving.words import Catalogue, catalogue
from ferrule.sheets.paper import Block, Checklist, Facts, Heading, Item, Notice, Paragraph
from ferrule.sheets.texts import say


def records(result: Answer) -> Iterator[tuple[str, Block]]:
    """The record of each area, in the chapter of its place."""
    words = catalogue("en")
    for record in isolation(result.design):
        yield from ((record.place, block) for block in _record(record, words))


def _record(record: Record, words: Catalogue) -> Iterator[Block]:
    yield Heading(say("dead.title", area=record.area.id))
    if record.book_supplier:
        yield Paragraph(words.text("label.book"))
    if record.find_out:
        yield Checklist(tuple(Item(say("dead.find_out"), stop=ask) for ask in record.find_out))
    if record.feeds:
        yield Heading(words.text("label.feeds"), 3)
        yield Facts(tuple(_feeds(record, words)))
    if record.points:
        yield Heading(words.text("label.points"), 3)
        yield Checklist(tuple(_points(record, words)))
    yield Heading(words.text("label.prove"), 3)
    yield from _proofs(record, words)
    if record.remains:
        live = tuple(words.word(told.remain(each)) for each in record.remains)
        yield Notice(words.text("label.remains"), live)


def _feeds(record: Record, words: Catalogue) -> Iterator[tuple[str, str]]:
    for feed in record.feeds:
        where = f"{words.word(told.positions(feed))}: {words.word(told.terminals(feed))}"
        yield words.word(told.source(feed)), where


def _points(record: Record, words: Catalogue) -> Iterator[Item]:
    for point in record.points:
        said = [words.word(each) for each in (told.point(point), told.lock(point), told.who(point))]
        yield Item("{}: {}; {}".format(*said))


def _proofs(record: Record, words: Catalogue) -> Iterator[Block]:
    for proof in PROOF:
        if proof != "pairs":
            yield Checklist((Item(words.text(f"proof.{proof}")),))
        elif record.pairs:
            tested = (Item("", write=((words.word(told.pair(pair)), "V"),)) for pair in record.pairs)
            yield Checklist(tuple(tested), columns=2)
