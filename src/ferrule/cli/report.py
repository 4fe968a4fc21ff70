"""The findings of a job as a person reads them on a terminal."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from ferrule import display
from ferrule.answering import Answer
from ferrule.checks.question import Finding, Subject
from ferrule.checks.subjects import PLACES
from ferrule.choose import Choice
from ferrule.choose.offers import named, spelled
from ferrule.cli.paint import MARKS, Paint
from ferrule.constraint import Constraint, Verdict

_MARGIN = 2
_ROW = 4
_INNER = 6
_TEXT = 16  # where the words begin that stand behind mark and verdict


def report(result: Answer, paint: Paint, code: int) -> Iterator[str]:
    """All lines: the head, each place from roof to grid with its findings, what was chosen, what it all rests
    on, and how it ends; `code` is the exit code.
    """
    yield from _head(result, paint)
    good = [_Good.of(finding) for finding in result.findings if finding.verdict is Verdict.PASS]
    widths = _Widths.of(good)
    for place in PLACES:
        rest = [each for each in result.findings if each.place == place and each.verdict is not Verdict.PASS]
        rows = sorted(row for row in good if row.place == place)
        if rest or rows:
            yield ""
            yield paint.strong(place)
            yield from _bad(rest, paint)
        if rows:
            yield _marked(Verdict.PASS, "", paint)
        for row in rows:
            yield row.line(widths, paint)
    yield from _choices(result.choices, paint)
    yield from _grounds(result, paint)
    yield from _end(result, paint, code)


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
    yield from _to_find_out(here, paint)
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


def _to_find_out(here: Iterable[Finding], paint: Paint) -> Iterator[str]:
    """Each thing to find out once, with the findings that wait for it."""
    waiting: dict[str, dict[str, list[str]]] = {}
    for finding in here:
        for constraint in finding.constraints:
            for ask in constraint.find_out:
                subjects = waiting.setdefault(ask, {}).setdefault(finding.id, [])
                if short(finding.subject) not in subjects:
                    subjects.append(short(finding.subject))
    for ask, findings in waiting.items():
        first, *rest = paint.wrapped(ask, _TEXT)
        yield _marked(Verdict.UNKNOWN, first.lstrip(), paint)
        yield from rest
        told = "; ".join(f"{question} {', '.join(subjects)}" for question, subjects in findings.items())
        yield from map(paint.quiet, paint.wrapped(f"for {told}", _TEXT))


class _Good(NamedTuple):
    """What one line says of a good finding; `words` where nothing is measured."""

    place: str
    id: str
    subject: str
    value: str
    sign: str
    limit: str
    share: str
    words: str

    @classmethod
    def of(cls, finding: Finding) -> "_Good":
        kept = finding.governed_by
        compared = display.comparison(kept)
        words = "" if any(compared) else display.filled(kept)
        share = display.margin(kept).removesuffix(" margin")
        return cls(finding.place, finding.id, short(finding.subject), *compared, share, words)

    def line(self, widths: "_Widths", paint: Paint) -> str:
        """The cells in line with those of all places; words are cut where the line ends, figures never."""
        name = f"{' ' * _ROW}{self.id:<{widths.id}}  {self.subject:<{widths.subject}}"
        if not self.words:
            return (
                f"{name}  {self.share:>{widths.share}}  {self.value:>{widths.value}} {self.sign} {self.limit}"
            )
        line = f"{name}  {self.words}"
        return line if len(line) <= paint.width else f"{line[: paint.width - 1].rstrip()}…"


class _Widths(NamedTuple):
    """The widest of each kind of cell."""

    id: int
    subject: int
    share: int
    value: int

    @classmethod
    def of(cls, rows: Sequence[_Good]) -> "_Widths":
        return cls(*(max((len(getattr(row, cell)) for row in rows), default=0) for cell in cls._fields))


def _choices(choices: Iterable[Choice], paint: Paint) -> Iterator[str]:
    """What was chosen, those alike together, with what the next smaller one lacked."""
    owners: dict[tuple[str, str], list[str]] = {}
    for choice in choices:
        chosen = f"{named(choice.decided.kind)} {spelled(choice.decided.kind, choice.value)}"
        owners.setdefault((chosen, _why(choice)), []).append(choice.decided.owner)
    if owners:
        yield ""
        yield paint.strong("chosen, because the job left it open")
    for (chosen, why), alike in owners.items():
        yield from paint.wrapped(f"{chosen} for {', '.join(alike)}{why}", _MARGIN, _INNER)


def _why(choice: Choice) -> str:
    carried = ", which the firm carries" if choice.carried else ""
    lacking = choice.governed_by
    governed = ""
    if lacking is not None:
        value, told = spelled(choice.decided.kind, lacking.value), display.filled(lacking.constraint)
        short = "would not do"
        if lacking.constraint.verdict is Verdict.PASS:
            short = f"leaves less room than the {display.percent(lacking.wanted)} that the firm wants"
        governed = f"; {value} {short}: {told}"
    missed = "" if choice.passes else "; nothing on offer keeps every limit, see its findings"
    return f"{carried}{governed}{missed}"


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


def _end(result: Answer, paint: Paint, code: int) -> Iterator[str]:
    """The line from roof to grid with the worst of each place, the counts, and what the exit code means."""
    yield ""
    worst = {finding.place: finding.verdict for finding in sorted(result.findings, key=lambda f: f.verdict)}
    yield "  ".join(
        f"{place} {paint.verdict(worst[place], MARKS[worst[place]])}" for place in PLACES if place in worst
    )
    counts = Counter(finding.verdict for finding in result.findings)
    if counts[Verdict.CAUTION]:
        yield from paint.wrapped(
            "look: a recommendation is missed; mend it, or write down why it may stay.", 0
        )
    yield paint.quiet("This advises. A licensed person decides, and local rules prevail.")
    told = ", ".join(f"{counts[verdict]} {display.WORDS[verdict]}" for verdict in reversed(Verdict))
    cleared = "Cleared" if result.cleared else "Not cleared"
    yield paint.strong(f"{cleared} to build: {told}. Exit {code}: {_meaning(result, counts)}.")


def _meaning(result: Answer, counts: Counter[Verdict]) -> str:
    if counts[Verdict.FAIL]:
        return "something fails"
    if result.cleared:
        return "nothing fails and nothing is unknown"
    unknown = ["something is unknown"] if counts[Verdict.UNKNOWN] else []
    memory = ["it rests on figures nobody here has seen printed"] if result.from_memory else []
    return f"nothing fails, but {' and '.join([*unknown, *memory])}"
