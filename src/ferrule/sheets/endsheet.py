"""The cable-end sheet in words: on paper end by end at each place, as a list core by core."""

from collections.abc import Iterator

from ferrule.answering import Answer
from ferrule.checks.subjects import PLACES
from ferrule.clauses.procedures.ends import Gland
from ferrule.display import number, word
from ferrule.fact import Fact, Unknown
from ferrule.parts.terminals import Entry
from ferrule.sheets.ends import CoreEnd, End, Piece, ends
from ferrule.sheets.paper import Block, Group, Grouped, Heading
from ferrule.sheets.table import Cell, Column, Table, table
from ferrule.sheets.texts import say


def ends_by_place(result: Answer) -> Iterator[tuple[str, Block]]:
    """The ends at each place, those of one device together."""
    every = ends(result)
    for place in PLACES:
        here = sorted((end for end in every if end.place == place), key=lambda end: end.at)
        if here:
            yield place, Heading(say("ends.title"))
            yield (
                place,
                Grouped(_columns(), tuple(map(_group, here)), (say("ends.note"), say("ends.unknown_note"))),
            )


def listed(result: Answer) -> Table:
    """Every core at each of its ends, with what belongs to its end as a whole on each row."""
    columns = (
        Column("place", say("ends.place"), width=9),
        Column("at", say("ends.at"), width=16),
        Column("lead", say("ends.lead"), width=18),
        Column("cable", say("ends.cable"), width=26),
        Column("before", say("ends.before"), width=40),
        Column("sheath", say("ends.sheath"), width=30),
        Column("bend", say("ends.bend"), width=14),
        Column("core", say("ends.core"), width=10),
        Column("colour", say("ends.colour"), width=14),
        Column("size", say("ends.size"), width=10),
        Column("lands", say("ends.lands"), width=26),
        Column("piece", say("ends.piece"), width=40),
        Column("strip", say("ends.strip"), width=10, kind="number", unit="mm", digits=1),
        Column("torque", say("ends.torque"), width=10, kind="number", unit="N·m", digits=2),
        Column("tool", say("ends.tool"), width=24),
    )
    rows = (row for end in ends(result) for row in _rows(end))
    return table("cable-ends", say("ends.list"), columns, rows, (say("ends.note"),))


def _rows(end: End) -> Iterator[tuple[Cell, ...]]:
    common = (end.place, end.at, end.lead, end.cable, " ".join(before(end)), sheath(end), bend(end))
    for core in end.cores:
        yield (
            *common, core.core, core.colour, _size(core), _lands(core), piece(core),
            _cell(core.strip_mm), _cell(core.torque_n_m), _cell(core.tool),
        )  # fmt: skip


def _columns() -> tuple[tuple[str, int], ...]:
    return (
        (say("ends.core"), 13), (say("ends.size"), 10), (say("ends.lands"), 19), (say("ends.piece"), 27),
        (say("ends.strip_mm"), 8), (say("ends.torque_n_m"), 9), (say("ends.tool"), 16),
    )  # fmt: skip


def _group(end: End) -> Group:
    lines = (*before(end), " ".join(filter(None, (sheath(end), bend(end)))))
    title = say("ends.of", at=end.at, lead=end.lead, cable=end.cable)
    return Group(title, tuple(filter(None, lines)), tuple(_short(end.at, core) for core in end.cores))


def _short(at: str, core: CoreEnd) -> tuple[str, ...]:
    """A row on paper, where a question mark stands for what is not known."""
    return (
        f"{core.core} {core.colour}".strip(), _size(core), _lands(core).removeprefix(f"{at}."), piece(core),
        _brief(core.strip_mm), _brief(core.torque_n_m), _brief(core.tool),
    )  # fmt: skip


def before(end: End) -> Iterator[str]:
    """What has to be threaded on before anything is stripped, then by which way the cable enters."""
    threads = [*end.threads]
    if not threads and (end.entry is not None or isinstance(end.gland, Gland)):
        threads.append(say("ends.gland_parts"))
    if any(isinstance(core.piece, Piece) and core.piece.kind == "lug" for core in end.cores):
        threads.append(say("ends.shrink_first"))
    if threads:
        yield say("ends.thread", threads=", ".join(threads))
    outer = word("thickness_mm", end.thickness_mm) if isinstance(end.thickness_mm, float) else ""
    thick = say("ends.outer", outer=outer) if outer else ""
    if end.entry is not None:
        yield f"{_entry(end.entry)}{thick}."
    elif isinstance(end.gland, Unknown):
        yield say("ends.gland_unknown", ask=end.gland.ask)
    elif end.gland is not None:
        thread, hole = f"M{number(end.gland.thread_mm)}", word("hole_mm", end.gland.hole_mm)
        least, most = number(end.gland.from_mm), word("to_mm", end.gland.to_mm)
        yield (
            say("ends.gland", thread=thread, hole=hole, least=least, most=most)
            + f"{thick}. "
            + say("ends.bag")
        )


def _entry(entry: Entry) -> str:
    least, most = number(entry.clamps_from_mm), word("clamps_to_mm", entry.clamps_to_mm)
    held = say("ends.entry", thread=entry.thread, least=least, most=most)
    torque = "" if entry.torque_n_m is None else say("ends.cap", torque=word("torque_n_m", entry.torque_n_m))
    return held + torque


def sheath(end: End) -> str:
    """How the outer strip is found."""
    return say("ends.sheath_device") if end.sheath == "device" else ""


def bend(end: End) -> str:
    """The least radius of a bend, rounded up."""
    laying, fixed = end.bend_laying_mm, end.bend_fixed_mm
    if not (isinstance(laying, float) and isinstance(fixed, float)):
        return ""
    shown = [word("bend_mm", float(-(-each // 1))) for each in (laying, fixed)]
    if laying == fixed:
        return say("ends.bend_same", radius=shown[0])
    return say("ends.bend_two", laying=shown[0], fixed=shown[1])


def piece(core: CoreEnd) -> str:
    """What goes onto a core, its colour never without its size."""
    found = core.piece
    if isinstance(found, Unknown):
        return say("ends.unknown")
    words = {
        "size": _size(core),
        "length": word("length_mm", found.length_mm),
        "colours": _colours(found),
        "bolt": found.bolt,
        "die": str(found.die),
        "hole": word("hole_mm", found.hole_mm),
        "shrink": word("shrink_mm", float(-(-(found.shrink_mm or 0.0) // 1))),
        "family": found.family,
    }
    match found.kind:
        case "sleeve":
            return say("ends.sleeve", **words)
        case "twin":
            return say("ends.twin", **words)
        case "lug":
            return say("ends.lug", **words) + _barrel(found)
        case "ring":
            return say("ends.ring", **words)
        case "contact":
            return say("ends.contact", **words) if found.family else say("ends.contact_same")
        case "plug":
            return say("ends.plug")
        case "bare":
            return say("ends.bare")
        case "insulated":
            return say("ends.insulated")
        case "joint":
            return say("ends.joint")
        case "made":
            return say("ends.made")


def _barrel(found: Piece) -> str:
    if found.barrel_mm is None:
        return ""
    least, most = found.barrel_mm
    return say("ends.barrel", least=number(least), most=word("most_mm", most))


def _colours(found: Piece) -> str:
    systems = {
        "din": say("ends.system_din"), "din_other": say("ends.system_din_other"),
        "older_german": say("ends.system_older_german"), "french": say("ends.system_french"),
    }  # fmt: skip
    shown: dict[str, list[str]] = {}
    for system, colour in found.colours:
        shown.setdefault(colour, []).append(systems.get(system, ""))
    return ", ".join(f"{colour} ({'; '.join(of)})" if any(of) else colour for colour, of in shown.items())


def _size(core: CoreEnd) -> str:
    return say("ends.unknown") if isinstance(core.size, Unknown) else str(core.size or "")


def _lands(core: CoreEnd) -> str:
    return core.lands if core.pin is None else say("ends.pin", lands=core.lands, pin=str(core.pin))


def _cell(fact: Fact[float] | Fact[str] | None) -> Cell:
    return say("ends.unknown") if isinstance(fact, Unknown) else fact


def _brief(fact: Fact[float] | Fact[str] | None) -> str:
    if isinstance(fact, Unknown):
        return "?"
    return number(fact) if isinstance(fact, float) else fact or ""
