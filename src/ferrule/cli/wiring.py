"""`ferrule wiring JOB`: every lead, where its conductors land, and whether all of it holds together."""

import argparse
import json
from collections.abc import Iterator
from typing import Any

from ferrule import export
from ferrule.answering import Answer, answer
from ferrule.checks.question import Finding
from ferrule.checks.subjects import PLACES
from ferrule.clauses.procedures import covered
from ferrule.cli.paint import Paint
from ferrule.constraint import Verdict
from ferrule.display import filled, number
from ferrule.fact import Unknown
from ferrule.job.load import load
from ferrule.sheets.schedule import Conductor, Row, schedule

#: the questions whose answers say whether the wiring holds together
_ASKED = {"lead.landed", "device.wired", "terminal.fits", "board.ways", "earth.neutral_bond"}


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("job", help="the job file")
    parser.add_argument("--place", choices=PLACES, help="only the leads that end at this place")
    parser.add_argument("--json", action="store_true", help="for another program instead of a person")


def run(given: argparse.Namespace) -> int:
    result = answer(load(given.job))
    rows = [row for row in schedule(result) if given.place in {None, *row.places}]
    found = [finding for finding in result.findings if finding.id in _ASKED]
    if given.json:
        faults = [export.finding(each) for each in found if each.verdict > Verdict.CAUTION]
        plain = {"leads": [_plain(row) for row in rows], "faults": faults}
        print(json.dumps(plain, ensure_ascii=False, indent=1))
    else:
        print("\n".join(_told(result, rows, found, Paint.for_terminal())))
    worst = max((finding.verdict for finding in found), default=Verdict.PASS)
    return 1 if worst is Verdict.FAIL else 3 if worst is Verdict.UNKNOWN else 0


def _plain(row: Row) -> dict[str, Any]:
    conductors = [{**each._asdict(), "size": _size(each)} for each in row.conductors]
    length = {"find_out": row.length_m.ask} if isinstance(row.length_m, Unknown) else row.length_m
    return {**row._asdict(), "length_m": length, "conductors": conductors}


def _size(conductor: Conductor) -> Any:
    size = conductor.size
    return {"find_out": size.ask} if isinstance(size, Unknown) else str(size)


def _told(result: Answer, rows: list[Row], found: list[Finding], paint: Paint) -> Iterator[str]:
    for row in rows:
        yield from _lead(row, paint)
    for finding in found:
        for each in finding.constraints:
            if each.verdict is Verdict.FAIL:
                yield from paint.wrapped(
                    paint.verdict(each.verdict, f"stop: {finding.subject}: {filled(each)}"), 0, 4
                )
    asks = dict.fromkeys(ask for finding in found for each in finding.constraints for ask in each.find_out)
    yield from (
        line
        for ask in asks
        for line in paint.wrapped(paint.verdict(Verdict.UNKNOWN, f"find out: {ask}"), 0, 4)
    )
    stops = sum(finding.verdict is Verdict.FAIL for finding in found)
    count = sum(len(row.conductors) for row in rows)
    yield (
        f"{len(rows)} leads with {count} conductors. Of {len(found)} findings on the wiring "
        f"{stops or 'none'} stop; to find out: {len(asks) or 'nothing'}."
    )
    colours, rulebook = covered(result.code.procedures.colours), result.code.rulebook
    lines, neutral = _either(colours.old_lines(rulebook)), _either(colours.old_neutral(rulebook))
    yield from paint.wrapped(
        f"Older wiring may have lines in {lines} and a neutral in {neutral}: what a conductor is, a meter "
        "tells and never its colour.",
        0,
    )


def _either(colours: tuple[str, ...]) -> str:
    *most, last = colours
    return f"{', '.join(most)} or {last}" if most else last


def _lead(row: Row, paint: Paint) -> Iterator[str]:
    length = "length not known" if isinstance(row.length_m, Unknown) else f"{number(row.length_m)} m"
    yield (
        paint.strong(row.lead)
        + f"  {row.start} to {row.end}: {row.cable}"
        + (f", {length}" if row.length_m else "")
    )
    yield from (f"  find out: {ask}" for ask in row.asks)
    for each in row.conductors:
        start, end = (text or "cut back, insulated" for text in (each.start, each.end))
        yield f"  {each.name:<10}{each.colour:<14}{start:<30}{end}"
