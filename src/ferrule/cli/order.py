"""`ferrule order JOB`: what to buy; with `--against OLDJOB` only what changes in order and cut list."""

import argparse
import json
from typing import Any

from ferrule.answering import Answer, answer
from ferrule.cli import plain
from ferrule.cli.paint import Paint
from ferrule.fact import Unknown
from ferrule.job.load import load
from ferrule.sheets import difference, van
from ferrule.sheets.order import Line, contents, listed, order
from ferrule.sheets.text import lines
from ferrule.sheets.texts import say


def arguments(parser: argparse.ArgumentParser) -> None:
    plain.arguments(parser)
    shown = parser.add_mutually_exclusive_group()
    shown.add_argument(
        "--against", metavar="OLDJOB", help="only what differs from this job, in order and cut list"
    )
    shown.add_argument("--van", action="store_true", help="the delivery and van check instead")


def run(given: argparse.Namespace) -> int:
    result = answer(load(given.job))
    width = Paint.for_terminal().width
    if given.against:
        found = difference.difference(answer(load(given.against)), result)
        if given.json:
            print(json.dumps([each._asdict() for each in found], ensure_ascii=False, indent=1))
        elif found:
            print("\n".join(lines(difference.listed(found), width)))
        else:
            print(say("difference.none"))
    elif given.json:
        print(json.dumps(_plain(result, given.van), ensure_ascii=False, indent=1))
    else:
        print("\n".join(lines(van.listed(result) if given.van else listed(result), width)))
    return 3 if any(isinstance(line.needed, Unknown) for line in order(result)) else 0


def _plain(result: Answer, van_check: bool) -> Any:
    if van_check:
        return [each._asdict() for each in van.checks(result)]
    unread = [box.device for box in contents(result) if isinstance(box.items, Unknown)]
    return {"lines": [_line(line) for line in order(result)], "boxes_unknown": unread}


def _line(line: Line) -> dict[str, Any]:
    amounts = {"buy": line.buy, "needed": line.needed}
    told = {
        key: {"find_out": each.ask} if isinstance(each, Unknown) else each for key, each in amounts.items()
    }
    places = [{"place": place, "count": count} for place, count in line.places]
    return {
        "group": line.group, "kind": line.kind, "item": line.item, **told, "boxed": line.boxed,
        "spare": line.spare, "unit": line.unit, "for": list(line.of), "places": places,
    }  # fmt: skip
