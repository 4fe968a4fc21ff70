"""`ferrule isolation JOB`: what feeds each place, where it is opened, what to prove, what stays live."""

import argparse
import json
from collections.abc import Iterable, Iterator
from typing import Any

from ferrule.answering import answer
from ferrule.checks.subjects import PLACES
from ferrule.cli.paint import Paint
from ferrule.fact import Unknown
from ferrule.job.load import load
from ferrule.proving import told
from ferrule.proving.isolation import PROOF, Record, isolation
from ferrule.proving.words import LANGUAGES, Catalogue, catalogue


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("job", help="the job file")
    parser.add_argument("--place", choices=PLACES, help="only what is at this place")
    parser.add_argument("--language", choices=LANGUAGES, default="en", help="of the texts (default en)")
    parser.add_argument("--json", action="store_true", help="for another program instead of a person")


def run(given: argparse.Namespace) -> int:
    design = answer(load(given.job)).design
    records = [record for record in isolation(design) if given.place in (None, record.place)]
    if given.json:
        print(json.dumps([_plain(record) for record in records], ensure_ascii=False, indent=1))
    else:
        paint, words = Paint.for_terminal(), catalogue(given.language)
        print("\n".join(line for record in records for line in _told(record, words, paint)))
    return 3 if any(record.find_out for record in records) else 0


def _plain(record: Record) -> dict[str, Any]:
    return {
        "area": str(record.area),
        "place": record.place,
        "book_supplier": record.book_supplier,
        "feeds": [
            {
                **feed._asdict(),
                "points": [point.id for point in feed.points],
            }
            for feed in record.feeds
        ],
        "points": [
            {**point._asdict(), "id": point.id, "lock": _known(point.lock)} for point in record.points
        ],
        "prove": list(PROOF),
        "pairs": [pair._asdict() for pair in record.pairs],
        "remains": [{**each._asdict(), "wait_s": _known(each.wait_s)} for each in record.remains],
        "find_out": list(record.find_out),
    }


def _known(fact: Any) -> Any:
    return {"unknown": fact.ask} if isinstance(fact, Unknown) else fact


def _told(record: Record, words: Catalogue, paint: Paint) -> Iterator[str]:
    yield paint.strong(f"{words.text(f'place.{record.place}')}  {record.area}")
    if record.book_supplier:
        yield f"  {words.text('label.book')}"
    yield from _listed(words.text("label.feeds"), _feeds(record, words), paint)
    yield from _listed(words.text("label.points"), _points(record, words), paint)
    yield from _listed(words.text("label.prove"), _proofs(record, words), paint)
    yield from _listed(words.text("label.remains"), _remains(record, words), paint)
    yield from _listed(words.text("label.find_out"), record.find_out, paint)
    yield ""


def _listed(head: str, lines: Iterable[str], paint: Paint) -> Iterator[str]:
    for at, line in enumerate(lines):
        if at == 0:
            yield f"  {head}"
        yield from paint.wrapped(line, 4, 6)


def _feeds(record: Record, words: Catalogue) -> Iterator[str]:
    for feed in record.feeds:
        shown = [words.word(each) for each in (told.source(feed), told.positions(feed), told.terminals(feed))]
        yield "{} ({}): {}".format(*shown)


def _points(record: Record, words: Catalogue) -> Iterator[str]:
    for point in record.points:
        shown = [words.word(each) for each in (told.point(point), told.lock(point), told.who(point))]
        yield "[ ] {}: {}; {}".format(*shown)


def _proofs(record: Record, words: Catalogue) -> Iterator[str]:
    for proof in PROOF:
        yield f"[ ] {words.text(f'proof.{proof}')}"
        if proof == "pairs":
            yield from (f"    [ ] {words.word(told.pair(pair))} ____ V" for pair in record.pairs)


def _remains(record: Record, words: Catalogue) -> Iterator[str]:
    return (words.word(told.remain(each)) for each in record.remains)
