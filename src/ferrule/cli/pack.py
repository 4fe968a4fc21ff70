"""`ferrule pack JOB -o DIR`: the papers the crew carries."""

import argparse
import datetime
import sys
from pathlib import Path

from ferrule.answering import answer
from ferrule.cli.check import exit_code
from ferrule.cli.refused import Refused
from ferrule.job.load import load
from ferrule.proving.words import LANGUAGES
from ferrule.sheets.files import files
from ferrule.sheets.pack import pack


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("job", help="the job file")
    parser.add_argument("-o", "--output", required=True, metavar="DIR", help="the folder to write into")
    parser.add_argument(
        "--date", type=_day, help="the date on the papers, as 2026-05-31; without it they bear none"
    )
    others = [language for language in LANGUAGES if language != "en"]
    parser.add_argument("--beside", choices=others, help="safety notes and steps in this language as well")
    parser.add_argument("--paper", choices=["a4", "letter"], default="a4", help="size of the paper (a4)")


def _day(given: str) -> datetime.date:
    try:
        return datetime.date.fromisoformat(given)
    except ValueError:
        raise argparse.ArgumentTypeError(f"{given!r} is no date; write it as 2026-05-31") from None


def run(given: argparse.Namespace) -> int:
    """Made whether or not the job is cleared, and marked where it is not; ends as `check` does."""
    _tell("asking every question")
    result = answer(load(given.job))
    day = (given.date.year, given.date.month, given.date.day) if given.date else None
    folder = Path(given.output)
    made = []
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, content in files(pack(result, day, given.paper, given.beside), _tell):
            (folder / name).write_bytes(content)
            made.append(name)
    except (OSError, ValueError) as error:
        raise Refused(f"{folder} cannot be written ({getattr(error, 'strerror', None) or error})") from None
    _tell("")
    print("\n".join(str(folder / name) for name in made))
    if not result.cleared:
        print("Not cleared to build; every page says so.")
    return exit_code(result)


def _tell(what: str) -> None:
    """One line that tells a person what is going on, and nobody else."""
    if sys.stderr.isatty():
        print(f"\r\x1b[K{what}", end="", file=sys.stderr, flush=True)
