"""The findings of a job as a person reads them on a terminal."""

import textwrap
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby, zip_longest
from typing import NamedTuple

from ferrule import display
from ferrule.answering import Answer
from ferrule.checks.question import Finding, Subject
from ferrule.checks.subjects import PLACES
from ferrule.choose import Choice
from ferrule.choose.offers import named
from ferrule.cli.missing import told
from ferrule.cli.paint import MARKS, Paint
from ferrule.constraint import Constraint, Verdict
from ferrule.display.missing import Fact, missing

_MARGIN = 2
_MARGIN_HEAD = "margin"
_ROW = 4
_INNER = 6
_TEXT = 16  # where the words begin that stand behind mark and verdict
_SUBJECTS = 18  # so wide may subjects alike stand side by side


def report(result: Answer, paint: Paint, code: int) -> Iterator[str]:
    """All lines: the head, each place from roof to grid with its findings, what was chosen, what it all rests
    on, and how it ends; `code` is the exit code.
    """
    yield from _head(result, paint)
    facts = missing(result)
    good = [_Good.of(alike) for alike in _alike(result.findings)]
    widths = _Widths.of(good)
    for place in PLACES:
        here = [each for each in result.findings if each.place == place]
        if here:
            yield ""
            yield paint.strong(place)
            yield from _bad(here, paint)
            yield from _good([row for row in good if row.place == place], widths, paint)
    if facts:
        yield ""
        yield paint.strong("to find out, by where you stand")
        yield from told(facts, paint)
    yield from _choices(result.choices, paint)
    yield from _grounds(result, paint)
    yield from _end(result, facts, paint, code)


def short(subject: Subject) -> str:
    """A subject without its kind, which its question tells already: `S1`, `house@island`."""
    return str(subject).partition("/")[2]


def _head(result: Answer, paint: Paint) -> Iterator[str]:
    job, edition = result.loaded.job, result.code.rulebook.edition
    yield paint.strong(job.name)
    yield paint.quiet(f"{job.architecture}, rulebook {edition}, revision {result.loaded.revision[:12]}")


def _bad(here: list[Finding], paint: Paint) -> Iterator[str]:
    """What stops the job first, then what is to be found out, then what is to be looked at."""
    here = sorted(here, key=lambda finding: (-finding.verdict, finding.id, finding.subject))
    yield from _missed(here, Verdict.FAIL, paint)
    if waiting := sum(finding.verdict is Verdict.UNKNOWN for finding in here):
        yield _marked(
            Verdict.UNKNOWN, f"{waiting} wait{'s' if waiting == 1 else ''} for facts, see below", paint
        )
    yield from _missed(here, Verdict.CAUTION, paint)


def _marked(verdict: Verdict, text: str, paint: Paint) -> str:
    word = f"{MARKS[verdict]} {display.WORDS[verdict]}"
    room = " " * (_TEXT - _MARGIN - len(word)) if text else ""
    return f"{' ' * _MARGIN}{paint.verdict(verdict, word)}{room}{text}"


def _missed(here: Iterable[Finding], verdict: Verdict, paint: Paint) -> Iterator[str]:
    """The findings of this verdict: each limit missed, and what would mend it; those alike together."""
    alike: dict[tuple[str, tuple[str, ...]], list[str]] = {}
    for finding in here:
        if finding.verdict is verdict:
            alike.setdefault((finding.id, tuple(_said(finding))), []).append(short(finding.subject))
    for (question, said), subjects in alike.items():
        first, *rest = paint.wrapped(f"{question}  {', '.join(subjects)}", _TEXT)
        yield _marked(verdict, first.lstrip(), paint)
        yield from rest
        for text in said:
            yield from paint.wrapped(text, _INNER, _INNER + 2)


def _said(finding: Finding) -> Iterator[str]:
    for constraint in sorted(finding.constraints, key=lambda each: -each.verdict):
        if constraint.verdict in {Verdict.FAIL, Verdict.CAUTION}:
            yield _with_margin(constraint)
    for remedy in finding.remedies:
        yield "→ " + display.remedy(remedy)


def _with_margin(constraint: Constraint) -> str:
    shown = display.margin(constraint)
    return display.filled(constraint) + (f" ({shown})" if shown else "")


def _alike(findings: Iterable[Finding]) -> list[list[Finding]]:
    """The good findings in order, those together of which the same is to be said."""
    alike: dict[tuple[str, ...], list[Finding]] = {}
    for finding in sorted(findings, key=lambda each: (each.id, each.subject)):
        if finding.verdict is Verdict.PASS:
            kept = finding.governed_by
            said = (kept.name, display.filled(kept), *display.comparison(kept))
            alike.setdefault((finding.place, finding.id, *said), []).append(finding)
    return list(alike.values())


class _Good(NamedTuple):
    """What is said of good findings alike; `words` where nothing is measured. `name` tells the limit where
    there are several.
    """

    place: str
    id: str
    subjects: tuple[str, ...]
    share: str
    value: str
    sign: str
    limit: str
    name: str
    words: str

    @classmethod
    def of(cls, alike: Sequence[Finding]) -> "_Good":
        first, kept = alike[0], alike[0].governed_by
        value, sign, limit = display.comparison(kept)
        several = len({each.name for each in first.constraints}) > 1
        return cls(
            first.place,
            first.id,
            tuple(short(finding.subject) for finding in alike),
            display.room(kept),
            value,
            sign,
            limit,
            display.name(kept) if several else "",
            "" if sign else display.filled(kept),
        )

    def lines(self, widths: "_Widths", paint: Paint) -> Iterator[str]:
        """The cells in line with those of all places; words take as many lines as they need."""
        beside = _INNER + widths.subject + 2
        names = textwrap.wrap(", ".join(self.subjects), widths.subject, break_long_words=False)
        if self.words:
            said = [line.lstrip() for line in paint.wrapped(self.words, beside)]
        else:
            said = [self._figures(widths)]
            if self.name and beside + widths.figures + 2 + len(self.name) > paint.width:
                said.append(" " * (widths.share + 2) + self.name)
            elif self.name:
                said = [f"{said[0]:<{widths.figures}}  {self.name}"]
        for name, text in zip_longest(names, said, fillvalue=""):
            yield f"{' ' * _INNER}{name:<{widths.subject}}  {text}".rstrip()

    def _figures(self, widths: "_Widths") -> str:
        return f"{self.share:>{widths.share}}  {self.value:>{widths.value}} {self.sign} {self.limit}"


class _Widths(NamedTuple):
    """The widest of each kind of cell."""

    subject: int
    share: int
    value: int
    limit: int

    @classmethod
    def of(cls, rows: Sequence[_Good]) -> "_Widths":
        one = max((len(subject) for row in rows for subject in row.subjects), default=0)
        side_by_side = max((len(", ".join(row.subjects)) for row in rows), default=0)
        return cls(
            max(one, min(side_by_side, _SUBJECTS)),
            max(len(_MARGIN_HEAD), *(len(row.share) for row in rows), 0),
            max((len(row.value) for row in rows), default=0),
            max((len(row.limit) for row in rows), default=0),
        )

    @property
    def figures(self) -> int:
        return self.share + 2 + self.value + 3 + self.limit


def _good(rows: Sequence[_Good], widths: _Widths, paint: Paint) -> Iterator[str]:
    """Question by question, with what each was asked of, how much room is left, value and limit."""
    if not rows:
        return
    word = _marked(Verdict.PASS, "", Paint())
    measured = any(row.sign for row in rows)
    head = " " * (_INNER + widths.subject + 2 - len(word)) + f"{_MARGIN_HEAD:>{widths.share}}"
    yield _marked(Verdict.PASS, "", paint) + (paint.quiet(head) if measured else "")
    for question, same in groupby(rows, key=lambda row: row.id):
        yield f"{' ' * _ROW}{question}"
        for row in same:
            yield from row.lines(widths, paint)


def _choices(choices: Iterable[Choice], paint: Paint) -> Iterator[str]:
    """What was chosen, those alike together, with what the next smaller one lacked."""
    owners: dict[tuple[str, str], list[str]] = {}
    for choice in choices:
        chosen = f"{named(choice.decided.kind)} {display.plainly(choice.decided.kind, choice.value)}"
        carried = ", which the firm carries" if choice.carried else ""
        reasons = display.why(choice)
        owners.setdefault((chosen, carried + (reasons and f"; {reasons}")), []).append(choice.decided.owner)
    if owners:
        yield ""
        yield paint.strong("chosen, because the job left it open")
    for (chosen, why), alike in owners.items():
        yield from paint.wrapped(f"{chosen} for {', '.join(alike)}{why}", _MARGIN, _INNER)


def _grounds(result: Answer, paint: Paint) -> Iterator[str]:
    if assumptions := result.assumptions:
        yield ""
        yield paint.strong("taken for granted")
        for each in assumptions:
            yield from paint.wrapped(f"{each.text}  [{each.path}]", _MARGIN, _INNER)
    if result.from_memory:
        yield ""
        yield paint.strong("figures nobody here has seen printed")
        yield from paint.wrapped(", ".join(result.from_memory), _MARGIN)
        yield from paint.wrapped(
            "read them in your own copy: ferrule rules confirm FIGURE --by NAME --page PAGE", _MARGIN
        )


def _end(result: Answer, facts: Sequence[Fact], paint: Paint, code: int) -> Iterator[str]:
    """The line from roof to grid with the worst of each place, what to do next, the counts, and what the exit
    code means.
    """
    yield ""
    worst = {finding.place: finding.verdict for finding in sorted(result.findings, key=lambda f: f.verdict)}
    yield "  ".join(
        f"{place} {paint.verdict(worst[place], MARKS[worst[place]])}" for place in PLACES if place in worst
    )
    counts = Counter(finding.verdict for finding in result.findings)
    yield from paint.wrapped(f"Next: {_next(result, facts)}", 0, 2)
    yield paint.quiet("This advises. A licensed person decides, and local rules prevail.")
    tally = ", ".join(f"{counts[verdict]} {display.WORDS[verdict]}" for verdict in reversed(Verdict))
    cleared = "Cleared" if result.cleared else "Not cleared"
    ended = f"{cleared} to build: {tally}. Exit {code}: {_meaning(result, counts)}."
    yield from map(paint.strong, paint.wrapped(ended, 0))


def _next(result: Answer, facts: Sequence[Fact]) -> str:
    """The one thing to do first."""
    failing = [finding for finding in result.findings if finding.verdict is Verdict.FAIL]
    if failing:
        first = min(failing, key=lambda finding: (PLACES.index(finding.place), finding.id, finding.subject))
        asked = f"{first.id} {short(first.subject)}"
        return f"mend {asked} ({first.place}); why: ferrule explain JOB {asked}"
    if facts:
        most = max(facts, key=lambda fact: len(fact.findings))
        waiting = len(most.findings)
        told_waiting = "1 finding waits" if waiting == 1 else f"{waiting} findings wait"
        return f"find out, {most.where}: {most.ask} ({told_waiting})"
    if result.from_memory:
        return f"read {result.from_memory[0]} in your own copy and confirm it"
    if result.worst is Verdict.CAUTION:
        return "mend what is marked look, or write down why it may stay"
    return "build it as described here"


def _meaning(result: Answer, counts: Counter[Verdict]) -> str:
    if counts[Verdict.FAIL]:
        return "something fails"
    if result.cleared:
        return "nothing fails and nothing is unknown"
    unknown = ["something is unknown"] if counts[Verdict.UNKNOWN] else []
    memory = ["it rests on figures nobody here has seen printed"] if result.from_memory else []
    return f"nothing fails, but {' and '.join([*unknown, *memory])}"
