"""Cables, and what goes onto their ends: sleeves, lugs, plugs, glands, marks."""

from collections.abc import Iterator
from functools import partial

from ferrule.answering import Answer
from ferrule.checks.wired import wired
from ferrule.clauses.procedures.ends import Gland
from ferrule.display import number
from ferrule.fact import Unknown, known
from ferrule.job.runs import Stretch
from ferrule.sheets.cutlist import cut_list
from ferrule.sheets.ends import CoreEnd, End, Piece, ends
from ferrule.sheets.goods import Good, Kind, asked, good
from ferrule.sheets.texts import say
from ferrule.wiring.terminal import Terminal

_IN_PIPE = frozenset({"A1", "A2", "B1", "B2"})


def cables(answer: Answer) -> Iterator[Good]:
    """Cable as bought, patch cables, the marks of all pieces; what the routes run in."""
    found, house = cut_list(answer), answer.design.house
    for cutting in found.cuttings:
        leads = list(dict.fromkeys(piece.lead for piece in cutting.pieces))
        places = list(dict.fromkeys(place for piece in cutting.pieces for place in piece.places))
        yield good("cable", cutting.bought_m, ", ".join(leads), ", ".join(places), cable=cutting.cable)
        for piece in cutting.pieces:
            for place in piece.places:
                yield good("marker", 1, say("goods.every_piece"), place)
    for patch in found.patches:
        places = list(dict.fromkeys(patch.places))
        yield good(
            "patch", 1, patch.lead, ", ".join(places), cable=patch.cable, length=number(patch.length_m)
        )
    for of, ask in found.asks:
        yield Good("cable", say("goods.unknown", kind=say("kind.cable")), Unknown(ask), of, "")
    for run in house.job.runs:
        for stretch in run.stretches:
            if stretch.method in _IN_PIPE:
                yield from asked("conduit", run.id, "", partial(_conduit, run.id, stretch))


def _conduit(run: str, stretch: Stretch) -> Iterator[Good]:
    yield good("conduit", known(stretch.length_m), run, "", method=stretch.method)


def goods(answer: Answer) -> Iterator[Good]:
    """What each end takes; then a plug for each port that has none in its box, and what earths pipes."""
    patched = {patch.lead for patch in cut_list(answer).patches}
    for end in ends(answer):
        if end.lead not in patched:
            yield from _entries(end)
            for at, core in enumerate(end.cores):
                yield from _core(answer, end, at, core)
    for (device, port), landed in wired(answer.design).landed.items():
        block = wired(answer.design).block(device, port)
        if block is not None and block.kind == "ac-plug" and not block.in_box:
            place = next(e.place for e in ends(answer) if e.at == device and e.lead == landed[0].lead.id)
            yield good("ac_plug", 1, f"{device}.{port}", place, port=f"{device}.{port}")
    for lead in wired(answer.design).leads.values():
        if lead.role in {"bonding", "earthing"}:
            ends_at = lead.places[0 if lead.role == "earthing" else 1]
            yield good("clamp", 1, lead.id, "board", to=ends_at)


def _entries(end: End) -> Iterator[Good]:
    """A gland for each cable that enters; two cables in one seal let water in."""
    count = len(end.cores) if end.sheath == "core" else 1
    if end.entry is not None:
        if end.entry.thread != "plug":
            entry = end.entry
            yield _gland(end, count, entry.thread, entry.clamps_from_mm, entry.clamps_to_mm)
    elif isinstance(end.gland, Unknown):
        yield Good("gland", say("goods.unknown", kind=say("kind.gland")), end.gland, end.lead, end.place)
    elif isinstance(end.gland, Gland):
        usual = end.gland
        yield _gland(end, count, f"M{number(usual.thread_mm)}", usual.from_mm, usual.to_mm)


def _gland(end: End, count: int, thread: str, from_mm: float, to_mm: float) -> Good:
    return good("gland", count, end.lead, end.place, thread=thread, least=number(from_mm), most=number(to_mm))


def _core(answer: Answer, end: End, at: int, core: CoreEnd) -> Iterator[Good]:
    piece, house = core.piece, answer.design.house
    if isinstance(piece, Unknown):
        # What is bought with its gear or at a load's terminals, nobody can count before.
        if end.at in house.devices or end.at in house.boards:
            yield Good("ferrule", say("goods.unknown", kind=say("kind.end")), piece, end.lead, end.place)
        return
    lead = wired(answer.design).leads[end.lead]
    lands = lead.cores[at].start if end.side == "start" else lead.cores[at].end
    if piece.kind in {"sleeve", "twin"}:
        kind: Kind = "ferrule" if piece.kind == "sleeve" else "twin"
        yield good(
            kind, 1 if kind == "ferrule" else 0.5, end.lead, end.place, size=str(core.size),
            length=number(piece.length_mm or 0.0), colours=_colours(piece),
        )  # fmt: skip
    elif piece.kind == "lug":
        yield good("lug", 1, end.lead, end.place, size=str(core.size), bolt=piece.bolt)
        yield good("shrink", 1, end.lead, end.place, size=str(core.size), length=number(piece.shrink_mm or 0))
    elif piece.kind == "ring":
        colour = say("goods.or").join(each for _, each in piece.colours)
        yield good("ring", 1, end.lead, end.place, size=str(core.size), bolt=piece.bolt, colour=colour)
    elif piece.kind == "contact" and lands is not None:
        yield from _contact(answer, end, core, piece, lands)
    elif piece.kind == "plug" and core.core == lead.cores[0].name:
        yield good("modular_plug", 1, end.lead, end.place)
    elif piece.kind in {"insulated", "joint"}:
        yield good("core_cap", 1, end.lead, end.place, size=str(core.size))


def _contact(answer: Answer, end: End, core: CoreEnd, piece: Piece, lands: Terminal) -> Iterator[Good]:
    """Half a plug; it mates with that of the module or of the port, and no other family does."""
    design = answer.design
    if lands.device in design.house.strings:
        module = design.module(design.house.strings[lands.device])
        yield from asked(
            "contact", end.lead, end.place, lambda: [
                good("contact", 1, end.lead, end.place, family=known(module.plugs), pole=core.core)
            ],
        )  # fmt: skip
        return
    block = wired(design).block(lands.device, lands.port)
    if block is None or block.in_box:
        return
    if not piece.family:
        ask = Unknown(say("goods.family", port=f"{lands.device}.{lands.port}"))
        yield Good("contact", say("goods.unknown", kind=say("kind.contact")), ask, end.lead, end.place)
        return
    yield good("contact", 1, end.lead, end.place, family=piece.family, pole=core.core)


def _colours(piece: Piece) -> str:
    """Each colour with the system it belongs to, for one colour serves several sizes."""
    return ", ".join(f"{say(f'goods.system_{system}')} {colour}" for system, colour in piece.colours)
