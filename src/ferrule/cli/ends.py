"""`ferrule ends JOB`: what to do to each cable end, before and after it is stripped."""

import argparse
import json
from collections.abc import Iterator
from typing import Any

from ferrule.answering import answer
from ferrule.checks.subjects import PLACES
from ferrule.cli.paint import Paint
from ferrule.constraint import Verdict
from ferrule.display import word
from ferrule.fact import Unknown
from ferrule.job.load import load
from ferrule.quantity import Size
from ferrule.sheets.ends import CoreEnd, End, ends
from ferrule.sheets.endsheet import before, bend, piece, sheath


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("job", help="the job file")
    parser.add_argument("--place", choices=PLACES, help="only the ends at this place")
    parser.add_argument("--json", action="store_true", help="for another program instead of a person")


def run(given: argparse.Namespace) -> int:
    found = [end for end in ends(answer(load(given.job))) if given.place in (None, end.place)]
    if given.json:
        print(json.dumps([_plain(end) for end in found], ensure_ascii=False, indent=1))
    else:
        paint = Paint.for_terminal()
        print("\n".join(line for end in found for line in _told(end, paint)))
    return 3 if any(end.find_out for end in found) else 0


def _plain(value: Any) -> Any:
    """Named fields as an object, what is not known as what to find out."""
    if isinstance(value, Unknown):
        return {"find_out": value.ask}
    if isinstance(value, Size):
        return str(value)
    if hasattr(value, "model_dump"):
        return value.model_dump(mode="json")
    if isinstance(value, tuple):
        fields = getattr(value, "_fields", None)
        plain = [_plain(each) for each in value]
        return dict(zip(fields, plain, strict=True)) if fields else plain
    return value


def _told(end: End, paint: Paint) -> Iterator[str]:
    yield f"{paint.strong(f'{end.at}: {end.lead}')}  {end.cable} ({end.place})"
    for line in (*before(end), sheath(end), bend(end)):
        yield from paint.wrapped(line, 2, 4) if line else ()
    for core in end.cores:
        yield from paint.wrapped(_core(core), 4, 8)
    for ask in end.find_out:
        yield from paint.wrapped(paint.verdict(Verdict.UNKNOWN, f"find out: {ask}"), 2, 4)


def _core(core: CoreEnd) -> str:
    said = [f"{core.core} {core.colour}".strip(), core.lands, piece(core)]
    for name, fact in (("strip_mm", core.strip_mm), ("torque_n_m", core.torque_n_m), ("tool", core.tool)):
        if fact is not None and not isinstance(fact, Unknown):
            said.append(f"{'strip ' if name == 'strip_mm' else ''}{word(name, fact)}")
        elif isinstance(fact, Unknown) and not isinstance(core.piece, Unknown):
            said.append(f"{name.partition('_')[0]} unknown")
    return "  ".join(filter(None, said))
