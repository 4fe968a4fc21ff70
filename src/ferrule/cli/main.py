"""The commands, their arguments, and how each ends.

Exit codes: 0 cleared, 1 something fails, 2 unreadable, 3 nothing fails but it is not cleared.
"""

import argparse
import gc
import os
import sys
from collections.abc import Callable, Sequence
from importlib import import_module
from typing import NoReturn

from ferrule.cli.refused import Refused

#: command -> its one line of help; the module of its name beside this one runs it
COMMANDS = {
    "array": "show how the modules lie on each face, with rails, hooks and the parts it takes",
    "calc": "run one calculator of the trade, or list them",
    "check": "answer every question of a job",
    "cuts": "list every piece of cable to cut, and the lengths to buy for them",
    "draw": "draw one drawing of the house, as SVG or DXF",
    "ends": "show what to do to each cable end: what to thread on first, strip, press on and tighten",
    "explain": "show the whole working of one finding",
    "isolation": "show what feeds each place, where it is opened and locked, what to prove, what stays live",
    "labels": "list every label: its text, size, colours, place and how many",
    "new": "write a starter job in which everything is still to be found out",
    "order": "list what to buy, and check the van; or tell what changes from another job",
    "pack": "make the papers the crew carries: one PDF, its lists and its drawings",
    "parts": "find a module in the open table and write its part file",
    "rules": "list, show, check and confirm the figures of a rulebook",
    "steps": "show the steps of the day, from unloading to handing over, by moment or by place",
    "wall": "show what hangs where on each wall, with measures from its left end and the floor",
    "wiring": "list every lead and where each conductor lands, and say whether it all holds together",
    "schema": "print the JSON Schema of a job, part or firm file, for editors",
}

#: what a shell reports of a program whose reader went away: 128 and the number of SIGPIPE
_READER_GONE = 141

#: errors in what a person gave; their modules are loaded only by the commands that can raise them
_EXPECTED = {"Unreadable", "RulebookError", "Unbound"}


def program() -> NoReturn:
    """The whole life of a process that runs one command and ends with its exit code."""
    # pydantic looks through every installed package for plugins, of which this program uses none.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    # What is made in a moment is needed to its end: looking for garbage would find none, then or at the end.
    gc.disable()
    code = main()
    gc.freeze()
    sys.exit(code)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; returns its exit code."""
    given = _parser(arguments).parse_args(arguments)
    run: Callable[[argparse.Namespace], int] = import_module(f"ferrule.cli.{given.command}").run
    try:
        code = run(given)
        sys.stdout.flush()
    except BrokenPipeError:
        # The interpreter flushes once more when it ends; there must be somewhere for that to go.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return _READER_GONE
    except Exception as error:
        if not isinstance(error, Refused) and type(error).__name__ not in _EXPECTED:
            raise
        print(error, file=sys.stderr)
        return 2
    return code


def _parser(arguments: Sequence[str] | None) -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="ferrule",
        description="Every electrical answer of a house's solar, battery and backup installation, "
        "from one job file. It advises; a licensed person decides, and local rules prevail.",
    )
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    asked = next((a for a in (sys.argv[1:] if arguments is None else arguments) if a in COMMANDS), None)
    for name, line in COMMANDS.items():
        command = commands.add_parser(name, help=line, description=line)
        if name == asked:
            import_module(f"ferrule.cli.{name}").arguments(command)
    return parser
