"""What the commands share that show plain data of a job, to a person or to another program."""

import argparse
import json
from collections.abc import Callable, Iterable, Iterator
from typing import Any

from ferrule.cli.paint import Paint

Plain = dict[str, Any]
Told = Callable[[Plain, Paint], Iterator[str]]


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("job", help="the job file")
    parser.add_argument("--json", action="store_true", help="for another program instead of a person")


def show(
    given: argparse.Namespace, found: list[Plain], told: Callable[[Plain, Paint], Iterator[str]]
) -> None:
    """Print each as lines for a person, or all as JSON."""
    if given.json:
        print(json.dumps(found, ensure_ascii=False, indent=1))
    else:
        print("\n".join(line for each in found for line in told(each, Paint.for_terminal())))


def code(found: Iterable[Plain], *, stopped: bool) -> int:
    """The exit code: 1 where something cannot be built so, 3 where something has to be found out first."""
    if stopped:
        return 1
    return 3 if any("find_out" in each for each in found) else 0
