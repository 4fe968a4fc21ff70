"""The torque sheet: every screw, stud and gland cap of a device that has to be tightened, and its tool."""

from collections.abc import Iterator
from typing import NamedTuple

from ferrule.answering import Answer
from ferrule.checks.subjects import place_of_device
from ferrule.checks.wired import Landed, wired
from ferrule.display import number
from ferrule.fact import Fact, Unknown
from ferrule.parts.terminals import TIGHTENED, TerminalBlock
from ferrule.sheets.paper import Block, Group, Grouped, Heading
from ferrule.sheets.table import Cell, Column, Table, table
from ferrule.sheets.texts import say

#: plugs that are made up by screws inside; those of springs have no torque
_MAY_HAVE_SCREWS = frozenset({"ac-plug", "multi-pin"})


class Tightened(NamedTuple):
    """One screw, stud or cap: what it holds, and how it is tightened. `conductors` is None of a cap."""

    what: str
    holds: tuple[str, ...]
    bolt: str
    conductors: int | None
    torque_n_m: Fact[float]
    tool: Fact[str]


class DeviceTorques(NamedTuple):
    """What is tightened on a device, with where its figures come from."""

    device: str
    name: str
    source: str
    place: str
    tightened: tuple[Tightened, ...]


def torques(answer: Answer) -> list[DeviceTorques]:
    """Every device and board with something to tighten, in the order of the job."""
    house = answer.design.house
    found = []
    for owner in (*house.job.devices, *house.job.boards):
        part = house.parts.get(owner.part) if isinstance(owner.part, str) else None
        if part is not None and (tightened := tuple(_of(answer, owner.id))):
            found.append(
                DeviceTorques(owner.id, part.name, part.source, place_of_device(house, owner.id), tightened)
            )
    return found


def _of(answer: Answer, device: str) -> Iterator[Tightened]:
    found = wired(answer.design)
    for (owner, port), landed in found.landed.items():
        block = found.block(owner, port) if owner == device else None
        if block is None or port.endswith("joint"):
            continue
        if block.kind in TIGHTENED | _MAY_HAVE_SCREWS:
            yield from _screws(port, block, landed)
        yield from _caps(port, block, landed)


def _screws(port: str, block: TerminalBlock, landed: tuple[Landed, ...]) -> Iterator[Tightened]:
    """A terminal has one screw for all it holds; a bar one for each conductor."""
    held: dict[str, list[str]] = {}
    for each in landed:
        terminal = f"{port} {each.terminal.pole}" + (
            f" ({each.terminal.set})" if each.terminal.set > 1 else ""
        )
        key = f"{terminal}: {each.core}" if port == "bars" else terminal
        held.setdefault(key, []).append(str(each.core))
    for terminal, cores in sorted(held.items()) if port == "bars" else held.items():
        what = terminal.partition(":")[0]
        yield Tightened(what, tuple(cores), block.bolt or "", len(cores), block.torque_n_m, block.tool)


def _caps(port: str, block: TerminalBlock, landed: tuple[Landed, ...]) -> Iterator[Tightened]:
    if block.entry is not None:
        torque = block.entry.torque_n_m
        fact: Fact[float] = Unknown("torque of the cap, from the maker's sheet") if torque is None else torque
        for lead in dict.fromkeys(each.lead.id for each in landed):
            what = say("torque.cap", thread=block.entry.thread, port=port)
            yield Tightened(what, (lead,), "", None, fact, "")


def torques_by_place(result: Answer) -> Iterator[tuple[str, Block]]:
    """The sheets of the devices at each place, with boxes to tick."""
    columns = (
        (say("torque.what"), 22), (say("torque.holds"), 28), (say("torque.bolt"), 8),
        (say("torque.count"), 8), (say("torque.n_m"), 9), (say("torque.tool"), 20), (say("torque.done"), 11),
        (say("torque.checked"), 11),
    )  # fmt: skip
    groups: dict[str, list[Group]] = {}
    for each in torques(result):
        title = say("torque.of", device=each.device, name=each.name)
        group = Group(title, (say("torque.source", source=each.source),), tuple(map(_row, each.tightened)))
        groups.setdefault(each.place, []).append(group)
    for place, here in groups.items():
        yield place, Heading(say("torque.title"))
        yield place, Grouped(columns, tuple(here), (say("torque.note"), say("ends.unknown_note")))


def _row(each: Tightened) -> tuple[str | None, ...]:
    torque = "?" if isinstance(each.torque_n_m, Unknown) else number(each.torque_n_m)
    tool = "?" if isinstance(each.tool, Unknown) else each.tool
    count = "" if each.conductors is None else str(each.conductors)
    return (each.what, ", ".join(each.holds), each.bolt, count, torque, tool, None, None)


def listed(result: Answer) -> Table:
    """Every screw, stud and cap of the house, with room to tick."""
    columns = (
        Column("place", say("ends.place"), width=9),
        Column("device", say("torque.device"), width=12),
        Column("what", say("torque.what"), width=24),
        Column("holds", say("torque.holds"), width=34),
        Column("bolt", say("torque.bolt"), width=7),
        Column("conductors", say("torque.conductors"), width=10, kind="count"),
        Column("torque", say("ends.torque"), width=10, kind="number", unit="N·m", digits=2),
        Column("tool", say("torque.tool"), width=24),
        Column("source", say("torque.from"), width=32),
        Column("done", say("torque.done"), width=12),
        Column("checked", say("torque.checked"), width=12),
    )
    rows = (
        (each.place, each.device, one.what, ", ".join(one.holds), one.bolt, one.conductors,
         _cell(one.torque_n_m), _cell(one.tool), each.source, None, None)
        for each in torques(result)
        for one in each.tightened
    )  # fmt: skip
    return table("torques", say("torque.list"), columns, rows, (say("torque.note"),))


def _cell(fact: Fact[float] | Fact[str]) -> Cell:
    return say("ends.unknown") if isinstance(fact, Unknown) else fact
