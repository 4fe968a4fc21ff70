"""`ferrule parts find TEXT`: modules of the open table, and a part file made from one."""

import argparse
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import yaml

from ferrule import display
from ferrule.cli.files import write_new
from ferrule.cli.refused import Refused
from ferrule.parts.open_table import Entry, TableMissing, find

_MOST = 40


def arguments(parser: argparse.ArgumentParser) -> None:
    verbs = parser.add_subparsers(dest="verb", required=True, metavar="VERB")
    finding = verbs.add_parser("find", help="list modules by words of their name; write one as a part file")
    finding.add_argument("text", metavar="TEXT", help="words of the name, in any order: '60 250'")
    finding.add_argument(
        "--write", metavar="NUMBER", help="the number in the list, or the id, of the one to write"
    )
    finding.add_argument(
        "-o", dest="folder", type=Path, default=Path("parts"), help="folder for the file (default: parts)"
    )


def run(given: argparse.Namespace) -> int:
    try:
        found = find(given.text)
    except TableMissing as missing:
        raise Refused(missing) from None
    if not found:
        raise Refused(f"no module's name has all the words of '{given.text}'; try fewer")
    if given.write is None:
        _list(found)
        return 0
    entry = _picked(found, given.write)
    path = given.folder / f"{entry.id}.yaml"
    write_new(path, part_file(entry))
    unknown = sum(isinstance(value, dict) for value in entry.part().values())
    print(f"{path}: {entry.name}; {unknown} figures the table lacks are left to find out")
    return 0


def _list(found: Sequence[Entry]) -> None:
    shown = found[:_MOST]
    width = max(len(entry.name) for entry in shown)
    for at, entry in enumerate(shown, start=1):
        figures = (
            display.quantity(entry.number(key), unit)
            for key, unit in (("power", "W"), ("voc", "V"), ("isc", "A"))
        )
        power, voc, isc = figures
        print(f"{at:>3}  {entry.name:<{width}}  {power:>7}  Voc {voc:>7}  Isc {isc:>7}")
    if len(found) > len(shown):
        print(f"and {len(found) - len(shown)} more; add a word")


def _picked(found: Sequence[Entry], wanted: str) -> Entry:
    """The entry of that number or id. Raises `Refused` where none or more than one is meant."""
    if wanted.isdecimal() and 1 <= int(wanted) <= len(found):
        return found[int(wanted) - 1]
    named = [entry for entry in found if wanted in {entry.id, entry.name}]
    if len(named) == 1:
        return named[0]
    raise Refused(f"'{wanted}' is no number from 1 to {len(found)}, nor the id of one of them alone")


def part_file(entry: Entry) -> str:
    """The text of a part file."""
    part: dict[str, Any] = {"ferrule": 1, "part": entry.part()}
    return yaml.safe_dump(part, allow_unicode=True, sort_keys=False, width=100)
