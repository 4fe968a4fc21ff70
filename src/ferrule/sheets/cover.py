"""What stands up front: what the job is, whether it may be built, and what is still open."""

from collections import Counter
from collections.abc import Iterable, Iterator
from itertools import groupby

from ferrule import __version__, display
from ferrule.answering import Answer
from ferrule.checks.question import Finding
from ferrule.checks.subjects import PLACES
from ferrule.constraint import Verdict
from ferrule.display.missing import brief, joined, missing
from ferrule.fact import Unknown
from ferrule.sheets.findings import subjects
from ferrule.sheets.paper import (
    Block,
    Checklist,
    Facts,
    Heading,
    Item,
    Notice,
    Paragraph,
    Ruling,
    Stretch,
    Way,
)
from ferrule.sheets.texts import say

_WORST_FIRST = tuple(reversed(Verdict))


def cover(result: Answer, date: str) -> tuple[Block, ...]:
    """The first page; `date` is the user's, empty for none."""
    return (
        _ruling(result),
        Heading(say("cover.what")),
        Paragraph(" ".join(_job(result))),
        Heading(say("cover.places")),
        _way(result),
        Heading(say("cover.paper")),
        Facts(tuple(_facts(result, date))),
        _safety(),
    )


def short(result: Answer) -> tuple[Block, ...]:
    """The head of a short paper: whether it may be built, what it is, and the notes of safety."""
    return (_ruling(result), Paragraph(" ".join(_job(result))), _safety())


def places(result: Answer) -> list[str]:
    """The places where something was asked, from roof to grid."""
    asked = {finding.place for finding in result.findings}
    return [place for place in PLACES if place in asked]


def _ruling(result: Answer) -> Ruling:
    counts = Counter(finding.verdict for finding in result.findings)
    tally = ", ".join(f"{counts[each]} {display.WORDS[each]}" for each in _WORST_FIRST if counts[each])
    if result.cleared:
        return Ruling(result.worst, say("ruling.cleared"), f"{say('ruling.good')} {tally}.")
    reason = {Verdict.FAIL: "ruling.fails", Verdict.UNKNOWN: "ruling.unknown"}
    verdict = max(result.worst, Verdict.UNKNOWN)
    text = say(reason.get(result.worst, "ruling.memory"))
    return Ruling(verdict, say("ruling.open"), f"{text} {tally}.")


def _job(result: Answer) -> Iterator[str]:
    """The job in a few sentences."""
    job, house = result.loaded.job, result.design.house
    of_kind: dict[str, list[str]] = {}
    for device in job.devices:
        of_kind.setdefault(device.kind, []).append(f"{device.id} ({house.parts[device.part].name})")
    inverters = ", ".join(of_kind.pop("inverter", [])) or say("cover.nothing")
    yield _array(result, inverters) if job.strings else say("cover.no_array", inverters=inverters)
    if batteries := of_kind.pop("battery", []):
        yield say("cover.batteries", batteries=", ".join(batteries))
    if of_kind:
        yield say("cover.beside", devices=", ".join(each for alike in of_kind.values() for each in alike))
    circuits = ", ".join(house.backed_up)
    yield say("cover.outage", circuits=circuits) if circuits else say("cover.no_outage")
    yield _supply(result)


def _array(result: Answer, inverters: str) -> str:
    job, parts = result.loaded.job, result.design.house.parts
    powers = [(string.modules, parts[string.module].power_w) for string in job.strings]
    words = {
        "modules": sum(string.modules for string in job.strings),
        "strings": len(job.strings),
        "faces": ", ".join(dict.fromkeys(string.face for string in job.strings)),
        "inverters": inverters,
    }
    known = [count * power_w for count, power_w in powers if not isinstance(power_w, Unknown)]
    if len(known) < len(powers):
        return say("cover.array", **words)
    return say("cover.array_power", power=display.quantity(sum(known), "W"), **words)


def _supply(result: Answer) -> str:
    supply = result.loaded.job.supply
    fuse = supply.main_fuse
    return say(
        "cover.supply",
        lines=", ".join(f"{each.name} {display.quantity(each.voltage_v, 'V')}" for each in supply.live),
        fuse=_known("" if isinstance(fuse, Unknown) else display.quantity(fuse.rating_a, "A")),
        earthing=_known("" if isinstance(supply.earthing, Unknown) else supply.earthing),
    )


def _known(text: str) -> str:
    return text or say("cover.not_known")


def _way(result: Answer) -> Way:
    words = tuple(display.WORDS[each] for each in _WORST_FIRST)
    headings = (say("cover.place"), say("cover.worst"), *words, say("cover.page"))
    return Way(headings, tuple(_stretch(result, place) for place in places(result)))


def _stretch(result: Answer, place: str) -> Stretch:
    counts = Counter(finding.verdict for finding in result.findings if finding.place == place)
    worst = max(counts)
    return Stretch(place, worst, display.WORDS[worst], tuple(counts[each] for each in _WORST_FIRST))


def _facts(result: Answer, date: str) -> Iterator[tuple[str, str]]:
    job, rulebook = result.loaded.job, result.code.rulebook
    yield say("cover.site"), job.site.place
    yield say("cover.architecture"), job.architecture
    yield say("cover.rulebook"), say("cover.rulebook_is", edition=rulebook.edition, title=rulebook.title)
    yield say("cover.revision"), result.loaded.revision
    yield say("cover.date"), date or say("cover.undated")
    if result.loaded.firm.name:
        yield say("cover.firm"), result.loaded.firm.name
    yield say("cover.made"), say("cover.made_with", version=__version__)


def _safety() -> Notice:
    keys = ("advises", "dead", "sources", "light", "roof", "lifting")
    return Notice(say("safety.title"), tuple(say(f"safety.{key}") for key in keys))


def open_questions(result: Answer) -> Iterator[Block]:
    """What keeps the job from being cleared, as lists to tick; nothing where nothing does."""
    stops = [finding for finding in result.findings if finding.verdict is Verdict.FAIL]
    if stops:
        yield Heading(say("open.stops"))
        yield Checklist(tuple(_stops(stops)))
    for where, facts in groupby(missing(result), key=lambda fact: fact.where):
        yield Heading(say("open.find_out", where=where))
        yield Checklist(tuple(Item(fact.ask, _note(fact.paths, brief(fact.findings))) for fact in facts))
    if result.from_memory:
        yield Heading(say("open.memory"))
        notes = ((figure, say("open.memory_note", figure=figure)) for figure in result.from_memory)
        yield Checklist(tuple(Item(*each) for each in notes))


def _stops(stops: Iterable[Finding]) -> Iterator[Item]:
    """Each limit that is not kept, once for all that miss it alike."""
    missing_it: dict[tuple[str, str, str], list[Finding]] = {}
    for finding in stops:
        missed = [each for each in finding.constraints if each.verdict is Verdict.FAIL]
        said = "; ".join(map(display.filled, missed))
        missing_it.setdefault((said, finding.id, finding.place), []).append(finding)
    for (said, question, place), same in missing_it.items():
        of = say("findings.of_id", subjects=subjects(same), id=question)
        yield Item(said, say("open.stops_of", of=of, place=say(f"chapter.{place}").lower()))


def _note(paths: tuple[str, ...], findings: str) -> str:
    if not findings:
        return ""
    if not paths:
        return say("open.find_out_note", findings=findings)
    return say("open.find_out_path", paths=", ".join(joined(paths)), findings=findings)
