"""`ferrule check JOB`: every finding, by place from roof to grid, the worst first."""

import argparse

from ferrule.answering import Answer, answer
from ferrule.cli.paint import Paint
from ferrule.cli.report import report
from ferrule.constraint import Verdict
from ferrule.job.load import load


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("job", help="the job file")
    parser.add_argument("--json", action="store_true", help="for another program instead of a person")


def run(given: argparse.Namespace) -> int:
    result = answer(load(given.job))
    code = exit_code(result)
    if given.json:
        import json

        from ferrule import export

        print(json.dumps(export.answer(result), ensure_ascii=False, indent=1))
    else:
        print("\n".join(report(result, Paint.for_terminal(), code)))
    return code


def exit_code(result: Answer) -> int:
    """0 cleared, 1 something fails, 3 nothing fails but it is not cleared."""
    if result.worst is Verdict.FAIL:
        return 1
    return 0 if result.cleared else 3
