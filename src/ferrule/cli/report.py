"""The findings of a job as a person reads them on a terminal."""

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from ferrule import display
from ferrule.answer import Answer
from ferrule.checks.question import Finding, Subject
from ferrule.checks.subjects import PLACES
from ferrule.choose import Choice
from ferrule.choose.offers import spelled
from ferrule.cli.paint import MARKS, Paint
from ferrule.constraint import Constraint, Verdict
from ferrule.design import Decided

_MARGIN = 2
_INNER = 6
_TEXT = 16  # where the words begin that stand behind mark and verdict


def report(result: Answer, paint: Paint, code: int) -> Iterator[str]:
    """All lines: the head, each place from roof to grid with its findings, what was chosen, what it all rests
    on, and how it ends; `code` is the exit code.
    """
    yield from _head(result, paint)
    columns = _Columns.of(result.findings)
    for place in PLACES:
        here = [finding for finding in result.findings if finding.place == place]
        if here:
            yield ""
            yield paint.strong(place)
            yield from _place(here, columns, paint)
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


def _place(here: list[Finding], columns: "_Columns", paint: Paint) -> Iterator[str]:
    """What stops the job first, then what is to be found out, to be looked at, and what is good."""
    here = sorted(here, key=lambda finding: (-finding.verdict, finding.id, finding.subject))
    for finding in here:
        if finding.verdict is Verdict.FAIL:
            yield from _missed(finding, paint)
    yield from _to_find_out(here, paint)
    for finding in here:
        if finding.verdict is Verdict.CAUTION:
            yield from _missed(finding, paint)
    good = [finding for finding in here if finding.verdict is Verdict.PASS]
    if good:
        yield _marked(Verdict.PASS, "", paint).rstrip()
    for finding in good:
        yield columns.line(finding, paint)


def _marked(verdict: Verdict, text: str, paint: Paint) -> str:
    word = f"{MARKS[verdict]} {display.WORDS[verdict]}"
    return f"{' ' * _MARGIN}{paint.verdict(verdict, f'{word:<{_TEXT - _MARGIN}}')}{text}"


def _missed(finding: Finding, paint: Paint) -> Iterator[str]:
    """A finding that fails or is a caution: each limit it misses, and what would mend it."""
    yield _marked(finding.verdict, f"{finding.id}  {short(finding.subject)}", paint)
    for constraint in sorted(finding.constraints, key=lambda each: -each.verdict):
        if constraint.verdict in {Verdict.FAIL, Verdict.CAUTION}:
            yield from paint.wrapped(_with_margin(constraint), _INNER, _INNER + 2)
    for remedy in finding.remedies:
        yield from paint.wrapped("→ " + display.remedy(remedy), _INNER, _INNER + 2)


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


class _Columns(NamedTuple):
    """Widths that line up the good findings of all places."""

    id: int
    subject: int
    value: int
    limit: int

    @classmethod
    def of(cls, findings: Iterable[Finding]) -> "_Columns":
        good = [finding for finding in findings if finding.verdict is Verdict.PASS]
        compared = [display.comparison(finding.governed_by) for finding in good]
        return cls(
            id=max((len(finding.id) for finding in good), default=0),
            subject=max((len(short(finding.subject)) for finding in good), default=0),
            value=max((len(value) for value, _, _ in compared), default=0),
            limit=max((len(limit) for _, _, limit in compared), default=0),
        )

    def line(self, finding: Finding, paint: Paint) -> str:
        """A good finding on one line: the value and its limit, or, where nothing is measured, the words."""
        value, sign, limit = display.comparison(finding.governed_by)
        name = f"{' ' * _INNER}{finding.id:<{self.id}}  {short(finding.subject):<{self.subject}}"
        if sign:
            share = display.margin(finding.governed_by).removesuffix(" margin")
            shown = f"{value:>{self.value}} {sign} {limit:<{self.limit}}  {share:>5}"
        else:
            shown = display.filled(finding.governed_by)
        line = f"{name}  {shown}".rstrip()
        return line if len(line) <= paint.width else f"{line[: paint.width - 1].rstrip()}…"


def _choices(choices: Iterable[Choice], paint: Paint) -> Iterator[str]:
    """What was chosen, those alike together, with what the next smaller one lacked."""
    owners: dict[tuple[str, str], list[str]] = {}
    for choice in choices:
        chosen = f"{_kind(choice.decided)} {spelled(choice.decided.kind, choice.value)}"
        owners.setdefault((chosen, _why(choice)), []).append(choice.decided.owner)
    if owners:
        yield ""
        yield paint.strong("chosen, because the job left it open")
    for (chosen, why), alike in owners.items():
        yield from paint.wrapped(f"{chosen} for {', '.join(alike)}{why}", _MARGIN, _INNER)


def _kind(decided: Decided) -> str:
    """What was decided, in words: `DC surge`, `breaking capacity`."""
    words = decided.kind.split("_")
    return " ".join(word.upper() if word in {"ac", "dc", "rcd"} else word for word in words)


def _why(choice: Choice) -> str:
    carried = ", which the firm carries" if choice.carried else ""
    if choice.governed_by is None:
        return carried
    lacking = choice.governed_by
    told = display.filled(lacking.constraint)
    if not choice.passes:
        return f"{carried}; nothing on offer meets every limit: {told}"
    return f"{carried}; {spelled(choice.decided.kind, lacking.value)} would not do: {told}"


def _grounds(result: Answer, paint: Paint) -> Iterator[str]:
    if result.assumptions:
        yield ""
        yield paint.strong("taken for granted")
        for each in result.assumptions:
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
