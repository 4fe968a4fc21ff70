"""The findings of a place in plain words, and all of them as a list."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from ferrule import display
from ferrule.answering import Answer
from ferrule.checks.question import Finding
from ferrule.constraint import Constraint, Verdict
from ferrule.sheets.paper import Answers, Block, Entry, Heading
from ferrule.sheets.table import Cell, Column, Table, table
from ferrule.sheets.texts import say


def of_place(result: Answer, place: str) -> Iterator[Block]:
    """What stops, waits or wants a look first; then what holds, with the room that is left."""
    here = [each for each in result.findings if each.place == place]
    attend = sorted((each for each in here if each.verdict is not Verdict.PASS), key=_order)
    if attend:
        yield Heading(say("findings.attend"))
        yield from map(_entry, _alike(attend))
    holding = sorted((each for each in here if each.verdict is Verdict.PASS), key=_order)
    if holding:
        yield Heading(say("findings.good"))
        yield _holding(_alike(holding))


def _order(finding: Finding) -> tuple[int, str, str]:
    return -finding.verdict, finding.id, str(finding.subject)


def _alike(findings: Iterable[Finding]) -> list[list[Finding]]:
    """Findings of which the same is to be said, together, in the order of the first of each."""
    groups: dict[tuple[str, ...], list[Finding]] = {}
    for finding in findings:
        groups.setdefault((finding.id, finding.place, *_said(finding), *_mend(finding)), []).append(finding)
    return list(groups.values())


def _entry(same: Sequence[Finding]) -> Entry:
    """Findings alike that do not pass."""
    first = same[0]
    return Entry(
        first.verdict, display.WORDS[first.verdict], first.text, _of(same), _said(first), _mend(first)
    )


def subjects(same: Iterable[Finding]) -> str:
    """What findings are about, without its kind, which their question tells: `S1, house@island`."""
    return ", ".join(str(each.subject).partition("/")[2] for each in same)


def _of(same: Sequence[Finding]) -> str:
    return say("findings.of_id", subjects=subjects(same), id=same[0].id)


def _said(finding: Finding) -> tuple[str, ...]:
    """Each limit that is not kept, the worst first; of a good finding the one that governs."""
    if finding.verdict is Verdict.PASS:
        return (display.filled(finding.governed_by), *display.comparison(finding.governed_by))
    missed = [each for each in finding.constraints if each.verdict in {Verdict.FAIL, Verdict.CAUTION}]
    said = [_sentence(each) for each in sorted(missed, key=lambda each: -each.verdict)]
    # What several limits wait for is asked once.
    asks = dict.fromkeys(ask for each in finding.constraints for ask in each.find_out)
    return (*said, say("findings.find_out", asks="; ".join(asks))) if asks else tuple(said)


def _sentence(constraint: Constraint) -> str:
    margin = display.margin(constraint)
    return display.filled(constraint) + (f" ({margin})" if margin else "")


def _mend(finding: Finding) -> tuple[str, ...]:
    return tuple(map(display.remedy, finding.remedies))


def _holding(groups: Iterable[Sequence[Finding]]) -> Answers:
    of, found, limit, room = (say(f"findings.{each}") for each in ("of", "found", "limit", "room"))
    questions = groupby(groups, key=lambda same: same[0].text)
    return Answers(
        (of, found, limit, room),
        tuple((asked, tuple(map(_kept, rows))) for asked, rows in questions),
    )


def _kept(same: Sequence[Finding]) -> tuple[str, str, str, str]:
    """What findings alike are of, what was found, the limit that governs, the room it leaves."""
    kept = same[0].governed_by
    limit = " ".join(display.comparison(kept)).strip()
    if limit and len({each.name for each in same[0].constraints}) > 1:
        limit = say("findings.governs", limit=limit, name=display.name(kept))
    return subjects(same), display.filled(kept), limit, display.room(kept)


def listed(result: Answer) -> Table:
    """Every finding on a row of its own."""
    columns = (
        *_columns(place=10, id=26, subject=18, verdict=10, found=70),
        *(Column(key, say(f"findings.{key}"), 14, "number", digits=4) for key in ("value", "limit_alone")),
        *_columns(unit=8),
        Column("margin", say("findings.margin"), 10, "number", digits=4),
        *_columns(governed_by=22, grade=10, mend=50),
    )
    return table("findings", say("findings.list"), columns, map(_row, result.findings))


def _columns(**widths: int) -> Iterator[Column]:
    return (Column(key, say(f"findings.{key}"), width) for key, width in widths.items())


def _row(finding: Finding) -> tuple[Cell, ...]:
    kept, grade = finding.governed_by, finding.grade
    return (
        finding.place, finding.id, str(finding.subject), finding.verdict.word, display.filled(kept),
        kept.value, kept.limit, kept.unit, kept.margin, display.name(kept),
        grade.word if grade is not None else "",
        "; ".join(_mend(finding)),
    )  # fmt: skip
