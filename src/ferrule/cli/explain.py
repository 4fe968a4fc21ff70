"""`ferrule explain JOB ID SUBJECT`: the whole working of one finding."""

import argparse
import sys
from difflib import get_close_matches

from ferrule import display
from ferrule.answer import answer
from ferrule.cli.paint import MARKS, Paint
from ferrule.job.load import load


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("job", help="the job file")
    parser.add_argument("id", help="the question's id, such as string.cold_voltage")
    parser.add_argument("subject", help="what it was asked of, such as string/S1")


def run(given: argparse.Namespace) -> int:
    result = answer(load(given.job))
    finding = next((f for f in result.findings if f.id == given.id and str(f.subject) == given.subject), None)
    if finding is None:
        known = [f"{f.id} {f.subject}" for f in result.findings]
        near = get_close_matches(f"{given.id} {given.subject}", known, n=3, cutoff=0.4)
        print(
            f"no finding {given.id} {given.subject} in {given.job}; near: {'; '.join(near)}", file=sys.stderr
        )
        return 2
    paint = Paint.for_terminal()
    print(paint.strong(f"{finding.id}  {finding.subject}"))
    print(finding.text)
    for constraint in sorted(finding.constraints, key=lambda c: -c.verdict):
        governs = "  governs" if constraint is finding.governed_by else ""
        word = f"{MARKS[constraint.verdict]} {display.WORDS[constraint.verdict]}"
        print()
        print(f"{paint.verdict(constraint.verdict, word)}  {constraint.name}{governs}")
        print(f"  {display.filled(constraint)}  {display.margin(constraint)}".rstrip())
        for line in display.working(constraint.steps):
            print(f"    {line}")
    for remedy in finding.remedies:
        print(f"→ {display.remedy(remedy)}")
    return 0
