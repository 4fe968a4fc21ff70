"""`ferrule rules`: what a rulebook holds, whether it is sound, and what somebody confirmed of it."""

import argparse
import json
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

from ferrule import display
from ferrule.clauses import bind
from ferrule.cli.refused import Refused
from ferrule.rules import Rulebook, confirm, editions, load, problems, read_confirmed
from ferrule.rules.listing import describe, listing

_DEFAULT = "iec-2024"


def arguments(parser: argparse.ArgumentParser) -> None:
    verbs = parser.add_subparsers(dest="verb", required=True, metavar="VERB")
    common = argparse.ArgumentParser(add_help=False)
    common.add_argument("--rulebook", default=_DEFAULT, help=f"the edition (default: {_DEFAULT})")
    common.add_argument("--firm", type=Path, default=Path(), help="folder of firm.yaml and confirmed.yaml")
    common.add_argument("--json", action="store_true", help="for another program instead of a person")
    verbs.add_parser("list", parents=[common], help="every table, figure and series with its grade")
    show = verbs.add_parser("show", parents=[common], help="one table, figure or series, with its source")
    show.add_argument("name", metavar="TABLE")
    verbs.add_parser("check", help="whether every rulebook is complete, sourced and fits its procedures")
    confirming = verbs.add_parser("confirm", parents=[common], help="record that you read a figure yourself")
    confirming.add_argument("name", metavar="FIGURE", help="a figure, a table, or one cell: name[row,column]")
    confirming.add_argument("--by", required=True, help="your name")
    confirming.add_argument("--page", required=True, help="page or clause of your own copy")
    confirming.add_argument(
        "--date", default=date.today().isoformat(), help="day you read it (default: today)"
    )


def run(given: argparse.Namespace) -> int:
    return {"list": _list, "show": _show, "check": _check, "confirm": _confirm}[given.verb](given)


def _confirmed(given: argparse.Namespace) -> Path:
    """The firm's file of confirmations. A folder that is not there is a slip, not an empty one."""
    folder: Path = given.firm
    if not folder.is_dir():
        raise Refused(f"--firm {folder}: no such folder; name the one that holds firm.yaml")
    return folder / "confirmed.yaml"


def _rulebook(given: argparse.Namespace) -> Rulebook:
    return load(given.rulebook, read_confirmed(_confirmed(given)))


def _list(given: argparse.Namespace) -> int:
    entries = listing(_rulebook(given))
    if given.json:
        print(json.dumps(entries, ensure_ascii=False, indent=1))
        return 0
    width = max(len(entry["name"]) for entry in entries)
    for entry in entries:
        unit = f" [{entry['unit']}]" if entry["unit"] else ""
        print(f"{entry['name']:<{width}}  {entry['kind']:<6}  {entry['grade']:<9}  {entry['title']}{unit}")
    return 0


def _show(given: argparse.Namespace) -> int:
    entry = describe(_rulebook(given), given.name)
    print(json.dumps(entry, ensure_ascii=False, indent=1) if given.json else "\n".join(_shown(entry)))
    return 0


def _shown(entry: dict[str, Any]) -> Iterator[str]:
    unit = f", in {entry['unit']}" if entry["unit"] else ""
    yield f"{entry['name']}: {entry['title']}{unit}"
    if entry["note"]:
        yield entry["note"]
    if "rows" in entry:
        yield f"source: {entry['source']}; between rows: {entry['between']}"
        yield from _grid(entry)
    elif entry["kind"] == "series":
        yield f"source: {entry['source']} ({entry['grade']})"
        yield ", ".join(str(value) for value in entry["values"])
    else:
        for value in entry["values"]:
            keys = f"{', '.join(value['keys'])}: " if value["keys"] else ""
            shown = display.quantity(value["value"], entry["unit"], 6)
            yield f"{keys}{shown}  ({value['source']}; {value['grade']})"


def _grid(entry: dict[str, Any]) -> Iterator[str]:
    """The table's cells; a letter behind a cell says how sure it is."""
    columns = entry["columns"] or [""]
    rows = [[row["row"], *(_cell(cell) for cell in row["cells"])] for row in entry["rows"]]
    heads = [entry["row"]["key"], *columns]
    widths = [max(len(str(line[at])) for line in [heads, *rows]) for at in range(len(heads))]
    for line in [heads, *rows]:
        yield "  ".join(f"{text:>{width}}" for text, width in zip(line, widths, strict=True)).rstrip()
    yield "behind a figure: s from one source, m from memory, c confirmed; none: two or more sources"


def _cell(cell: dict[str, Any] | None) -> str:
    if cell is None:
        return "–"
    return f"{cell['value']}{ {'single': 's', 'memory': 'm', 'confirmed': 'c'}.get(cell['grade'], ' ') }"


def _check(_given: argparse.Namespace) -> int:
    found = 0
    for edition in editions():
        mistakes = problems(edition)
        found += len(mistakes)
        print("\n".join(mistakes) if mistakes else f"{edition}: sound, every figure with source and grade")
        if not mistakes:
            bind(load(edition))
    return 1 if found else 0


def _confirm(given: argparse.Namespace) -> int:
    path = _confirmed(given)
    noted = confirm(path, given.rulebook, given.name, by=given.by, page=given.page, date=given.date)
    print(f"{given.name}: read by {noted.by} on {noted.date}, {noted.page}; kept in {path}")
    return 0
