"""The findings of a job as a person reads them on a terminal."""

import textwrap
from collections import Counter
from collections.abc import Iterator

from ferrule import display
from ferrule.answer import Answer
from ferrule.checks.question import Finding
from ferrule.checks.subjects import PLACES
from ferrule.choose.offers import spelled
from ferrule.cli.paint import MARKS, Paint
from ferrule.constraint import Verdict

WIDTH = 110
_INDENT = 16


def report(result: Answer, paint: Paint) -> Iterator[str]:
    """All lines: the head, each place from roof to grid with its findings, choices, and what it rests on."""
    yield from _head(result, paint)
    for place in PLACES:
        here = sorted(
            (f for f in result.findings if f.place == place), key=lambda f: (-f.verdict, f.id, f.subject)
        )
        if here:
            yield ""
            yield paint.strong(place)
            for finding in here:
                yield from _finding(finding, paint)
    yield from _choices(result, paint)
    yield from _grounds(result, paint)


def _head(result: Answer, paint: Paint) -> Iterator[str]:
    job = result.loaded.job
    yield paint.strong(job.name)
    yield paint.quiet(
        f"{job.architecture}, rulebook {result.code.rulebook.edition}, revision {result.loaded.revision[:12]}"
    )
    counts = Counter(finding.verdict for finding in result.findings)
    told = ", ".join(f"{counts[v]} {display.WORDS[v]}" for v in reversed(Verdict) if counts[v])
    yield f"{'Cleared' if result.cleared else 'Not cleared'} to build: {told}."


def _finding(finding: Finding, paint: Paint) -> Iterator[str]:
    verdict = finding.verdict
    word = f"{MARKS[verdict]} {display.WORDS[verdict]}"
    name = f"{finding.id}  {finding.subject}"
    yield f"  {paint.verdict(verdict, f'{word:<13}')} {name}"
    told = finding.constraints if verdict is not Verdict.PASS else (finding.governed_by,)
    for constraint in told:
        if constraint.verdict is verdict:
            shown = display.margin(constraint)
            yield from _wrapped(display.filled(constraint) + (f"  ({shown})" if shown else ""))
    for remedy in finding.remedies:
        yield from _wrapped("→ " + display.remedy(remedy))


def _choices(result: Answer, paint: Paint) -> Iterator[str]:
    if result.choices:
        yield ""
        yield paint.strong("chosen, because the job left it open")
    for choice in result.choices:
        governed = choice.governed_by
        why = "the smallest on offer passes"
        if governed is not None:
            why = f"{spelled(choice.decided.kind, governed.value)} would not do: {display.filled(governed.constraint)}"
        yield from _wrapped(
            f"{choice.decided.kind.replace('_', ' ')} of {choice.decided.owner}: "
            f"{spelled(choice.decided.kind, choice.value)}; {why}",
            indent=2,
        )


def _grounds(result: Answer, paint: Paint) -> Iterator[str]:
    if result.assumptions:
        yield ""
        yield paint.strong("taken for granted")
        for each in result.assumptions:
            yield from _wrapped(f"{each.text}  [{each.path}]", indent=2)
    if result.from_memory:
        yield ""
        yield paint.strong("figures nobody here has seen printed")
        yield from _wrapped(", ".join(result.from_memory), indent=2)
        yield from _wrapped(
            "read them in your own copy: ferrule rules confirm FIGURE --by NAME --page PAGE", indent=2
        )
    yield ""
    yield paint.quiet("This advises. A licensed person decides, and local rules prevail.")


def _wrapped(text: str, indent: int = _INDENT) -> Iterator[str]:
    pad = " " * indent
    yield from textwrap.wrap(text, WIDTH, initial_indent=pad, subsequent_indent=pad + "  ")
