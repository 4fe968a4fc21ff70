"""The cable schedule, and at each place every terminal with the conductor that lands on it."""

from collections.abc import Iterator
from typing import NamedTuple

from ferrule.answering import Answer
from ferrule.checks.subjects import PLACES
from ferrule.fact import Unknown
from ferrule.sheets.schedule import Conductor, Row, schedule
from ferrule.sheets.table import Column, Table, table
from ferrule.sheets.texts import say


class End(NamedTuple):
    """A conductor where it ends: at which place, on which terminal, and what is at its other end."""

    place: str
    terminal: str
    row: Row
    conductor: Conductor
    other: str


def wires(result: Answer) -> Iterator[tuple[str, Table]]:
    """The schedule of all leads, then what lands where, place by place."""
    rows = schedule(result)
    yield "cables", _schedule(rows)
    every = list(ends(rows))
    for place in PLACES:
        if here := [end for end in every if end.place == place]:
            yield place, landing(place, here)


def ends(rows: list[Row]) -> Iterator[End]:
    """Every end of every conductor; one that is cut back stands where its lead ends."""
    for row in rows:
        for conductor in row.conductors:
            for at, (own, other) in enumerate(
                ((conductor.start, conductor.end), (conductor.end, conductor.start))
            ):
                yield End(row.places[at], own, row, conductor, other)


def _schedule(rows: list[Row]) -> Table:
    columns = (
        Column("lead", say("wires.lead"), width=24),
        Column("start", say("wires.from"), width=16),
        Column("end", say("wires.to"), width=22),
        Column("cable", say("wires.cable"), width=34),
        Column("length", say("wires.length"), width=12, kind="number", unit="m", digits=2),
    )
    laid = ((row.lead, row.start, row.end, row.cable, _length(row)) for row in rows if row.role != "plug")
    return table("cable-schedule", say("wires.schedule"), columns, laid, (say("wires.schedule_note"),))


def _length(row: Row) -> float | str:
    return say("wires.measure") if isinstance(row.length_m, Unknown) else row.length_m


def landing(place: str, here: list[End]) -> Table:
    """What lands on each terminal of a place, device by device."""
    columns = (
        Column("terminal", say("wires.terminal"), width=22),
        Column("lead", say("wires.lead"), width=22),
        Column("core", say("wires.core"), width=10),
        Column("colour", say("wires.colour"), width=17),
        Column("size", say("wires.size"), width=11),
        Column("other", say("wires.other"), width=24),
        Column("done", say("wires.done"), width=8),
    )
    rows = (
        (
            end.terminal or say("wires.cut_back"), end.row.lead, end.conductor.name, end.conductor.colour,
            _size(end.conductor), end.other or say("wires.cut_back"), None,
        )
        for end in sorted(here, key=_by_terminal)
    )  # fmt: skip
    return table(f"wiring-{place}", say("wires.landing", place=say(f"chapter.{place}")), columns, rows)


def _by_terminal(end: End) -> tuple[bool, str, str]:
    return not end.terminal, end.terminal.partition(" ")[0], end.row.lead


def brief(result: Answer) -> Iterator[Table]:
    """What lands where with a line a lead end: for who has only one sheet."""
    columns = (
        Column("port", say("wires.port"), width=17),
        Column("lead", say("wires.lead"), width=20),
        Column("conductors", say("wires.conductors"), width=60),
        Column("other", say("wires.far"), width=14),
    )
    rows = schedule(result)
    for place in PLACES:
        here = [(row, side) for row in rows for side in (0, 1) if row.places[side] == place]
        lines = [line for row, side in here for line in _brief(row, side)]
        if lines:
            yield table(f"brief-{place}", say(f"chapter.{place}"), columns, sorted(lines))


def _brief(row: Row, side: int) -> Iterator[tuple[str, ...]]:
    """The conductors of one end, those of one port on one line."""
    ports: dict[str, list[str]] = {}
    for each in row.conductors:
        terminal = (each.start, each.end)[side]
        port, _, pole = terminal.rpartition(" ")
        name = " ".join(word for word in (each.name, each.colour) if word)
        landed = name if pole in {each.name, ""} else say("wires.on", core=name, pole=pole)
        ports.setdefault(port or say("wires.cut_back"), []).append(landed)
    for port, names in ports.items():
        sizes = dict.fromkeys(_size(each) for each in row.conductors if each.size is not None)
        yield port, row.lead, "; ".join([", ".join(names), *sizes]), (row.end, row.start)[side]


def _size(conductor: Conductor) -> str:
    if conductor.size is None:
        return ""
    return say("wires.unknown") if isinstance(conductor.size, Unknown) else str(conductor.size)
