"""`ferrule labels JOB`: every label, with its text, size, colours, place and how many."""

import argparse
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from ferrule.answering import answer
from ferrule.cli.paint import Paint
from ferrule.cli.refused import Refused
from ferrule.constraint import Verdict
from ferrule.display import word
from ferrule.fact import Missing
from ferrule.job.load import load
from ferrule.sheets.labels import Label, labels
from ferrule.sheets.labelsheet import listed, shaped


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("job", help="the job file")
    parser.add_argument("--language", default="en", help="of the labels: en or de (default en)")
    parser.add_argument("--csv", metavar="FILE", help="write the list for a label printer, too")
    parser.add_argument("--json", action="store_true", help="for another program instead of a person")


def run(given: argparse.Namespace) -> int:
    result = answer(load(given.job))
    try:
        found, asks = labels(result, given.language), list[str]()
    except Missing as missing:
        found, asks = [], list(missing.asks)
    asks = list(dict.fromkeys((*asks, *(ask for each in found for ask in each.find_out))))
    if given.csv:
        from ferrule.sheets.csvfile import csv_bytes

        try:
            Path(given.csv).write_bytes(csv_bytes(listed(result, given.language)))
        except OSError as error:
            raise Refused(f"{given.csv} cannot be written ({error.strerror})") from None
    if given.json:
        plain = {"labels": [_plain(each) for each in found], "find_out": asks}
        print(json.dumps(plain, ensure_ascii=False, indent=1))
    else:
        print("\n".join(_told(found, asks, Paint.for_terminal())))
    return 3 if asks else 0


def _plain(label: Label) -> dict[str, Any]:
    shape = shaped(label)
    return {
        **label._asdict(), "source": str(label.source), "grade": label.grade.word, "width_mm": shape.width_mm,
        "tall_mm": shape.height_mm, "find_out": list(label.find_out),
    }  # fmt: skip


def _told(found: list[Label], asks: list[str], paint: Paint) -> Iterator[str]:
    for each in found:
        count = "?" if each.copies is None else str(each.copies)
        yield paint.strong(f"{each.place}: {each.at}") + f"  {count} × {each.name}"
        yield from paint.wrapped(each.text, 2) if each.text else ()
        sign = f", {each.sign}" if each.sign else ""
        shape = shaped(each)
        size = f"{shape.width_mm:.0f} × {word('height_mm', shape.height_mm)}"
        yield f"  {each.ink} on {each.ground}{sign}; letters {word('height_mm', each.height_mm)}, {size}"
    for ask in asks:
        yield from paint.wrapped(paint.verdict(Verdict.UNKNOWN, f"find out: {ask}"), 0, 4)
    total = sum(each.copies or 0 for each in found)
    yield f"{total} labels of {len({each.name for each in found})} kinds."
