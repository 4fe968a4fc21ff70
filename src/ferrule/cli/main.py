"""The commands, their arguments, and how each ends.

Exit codes: 0 cleared, 1 something fails, 2 unreadable, 3 nothing fails but it is not cleared.
"""

import argparse
import sys
from collections.abc import Callable, Sequence
from importlib import import_module

#: command -> the module that runs it, and its one line of help
COMMANDS = {
    "check": "answer every question of a job",
    "explain": "show the whole working of one finding",
    "new": "write a starter job in which everything is still to be found out",
    "parts": "find a module in the open table and write its part file",
    "rules": "list, show, check and confirm the figures of a rulebook",
    "schema": "print the JSON Schema of a job file, for editors",
}


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; returns its exit code."""
    given = _parser(arguments).parse_args(arguments)
    run: Callable[[argparse.Namespace], int] = import_module(f"ferrule.cli.{given.command}").run
    try:
        return run(given)
    except BrokenPipeError:
        sys.stderr.close()
        return 0
    except Exception as error:
        # Their modules are loaded only by the commands that read files or rulebooks.
        if type(error).__name__ not in {"Unreadable", "RulebookError", "Refused"}:
            raise
        print(error, file=sys.stderr)
        return 2


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
