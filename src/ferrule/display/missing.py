"""What is still to be found out, as a person goes round the house: each fact once, where it is found."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from ferrule.answering import Answer
from ferrule.checks.question import Finding, Subject
from ferrule.checks.subjects import PLACES, place
from ferrule.design import House
from ferrule.job.unknowns import unknowns

_OPERATOR = "from the network operator"
_SITE, _ROOM, _CABLES = "about the house", "in the place", "along the cables"
_WHERE = {"outside": "outside", "roof": "on the roof", "bus": "at the bus"}
_ORDER = (_SITE, _ROOM, *(_WHERE.get(place, f"at the {place}") for place in PLACES), _CABLES, _OPERATOR)
_KINDS = {
    "faces": "face", "strings": "string", "devices": "device", "boards": "board", "earth": "earth",
    "supply": "supply", "buses": "bus", "contacts": "bus",
}  # fmt: skip
_FEW = 3  # as many subjects are told by name


class Fact(NamedTuple):
    """One thing to find out: where, where to write it down, and the findings that wait for it."""

    where: str
    ask: str
    paths: tuple[str, ...]
    findings: tuple[Finding, ...]


def missing(result: Answer) -> list[Fact]:
    """Every fact that a finding waits for, in the order of a walk through the house, sheets last.

    Facts alike that stand at several places are told at each, with the findings of that place and those of
    places where no such fact stands.
    """
    waiting: dict[str, list[Finding]] = {}
    for finding in result.findings:
        for ask in dict.fromkeys(ask for each in finding.constraints for ask in each.find_out):
            waiting.setdefault(ask, []).append(finding)
    known_paths = unknowns(result.loaded.job) if waiting else {}
    facts = [
        fact
        for ask, findings in waiting.items()
        for fact in _facts(result.design.house, ask, known_paths.get(ask, []), findings)
    ]
    order = {ask: at for at, ask in enumerate(known_paths)}
    return sorted(facts, key=lambda fact: (_rank(fact.where), fact.where, order.get(fact.ask, -1)))


def _rank(where: str) -> int:
    return next((rank for rank, each in enumerate(_ORDER) if where.startswith(each)), len(_ORDER))


def _facts(house: House, ask: str, paths: Sequence[str], findings: Sequence[Finding]) -> Iterator[Fact]:
    """One fact for each place where it is found; without a path, where the first finding is."""
    if not paths:
        yield Fact(_at(findings[0].place), ask, (), tuple(findings))
    places: dict[str, list[str]] = {}
    for path in paths:
        places.setdefault(_where(house, path), []).append(path)
    for where, here in places.items():
        own = [
            finding for finding in findings if _at(finding.place) == where or _at(finding.place) not in places
        ]
        yield Fact(where, ask, tuple(here), tuple(own))


def _at(place: str) -> str:
    return _WHERE.get(place, f"at the {place}")


def _where(house: House, path: str) -> str:
    """Where a fact of the job is found, by its path."""
    room, owner, *_ = [*path.split("."), ""]  # of the crew and the lifting aids the job has one list
    if room == "site":
        return _SITE
    if room == "places":
        return f"{_ROOM} {owner}"
    if room == "runs":
        return _CABLES
    if room == "parts":
        return f"on the sheet of {owner}"
    if path.startswith(("supply.utility", "supply.highest")):
        return _OPERATOR
    return _at(place(house, Subject(_KINDS[room], owner))) if room in _KINDS else _SITE


def brief(findings: Sequence[Finding]) -> str:
    """The findings that wait, in brief: `string.length S1, S2; circuit.drop (7)`."""
    subjects: dict[str, list[str]] = {}
    for finding in findings:
        subjects.setdefault(finding.id, []).append(str(finding.subject).partition("/")[2])
    return "; ".join(
        f"{question} {', '.join(names) if len(names) <= _FEW else f'({len(names)})'}"
        for question, names in subjects.items()
    )


def joined(paths: Sequence[str]) -> list[str]:
    """Paths that differ in names only, written as one: `runs.{R1, R2}.size`."""
    alike: dict[tuple[str, str, int], list[list[str]]] = {}
    for path in paths:
        steps = path.split(".")
        alike.setdefault((steps[0], steps[-1], len(steps)), []).append(steps)
    return [".".join(map(_step, zip(*group, strict=True))) for group in alike.values()]


def _step(names: Sequence[str]) -> str:
    different = dict.fromkeys(names)
    return names[0] if len(different) == 1 else f"{{{', '.join(different)}}}"
