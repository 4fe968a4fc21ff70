"""The cut list: every piece of cable with its allowances, packed onto the lengths one can buy."""

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from ferrule.answering import Answer
from ferrule.checks.wired import wired
from ferrule.clauses.procedures import Buying, covered
from ferrule.clauses.procedures.buying import End, Sort
from ferrule.display import number
from ferrule.fact import Missing, known
from ferrule.layout.cutting import Cut, Plan, Stock, Uncuttable, cut
from ferrule.layout.cutting import Piece as ToCut
from ferrule.parts import Cable, SignalCable
from ferrule.quantity import Size
from ferrule.sheets.schedule import Conductor, Row, schedule
from ferrule.sheets.table import Cell, Column, Table, table
from ferrule.sheets.texts import say
from ferrule.wiring.leads import is_box
from ferrule.wiring.terminal import Core, Lead

_MM = 1000.0
_NOT_CUT = frozenset({"plug"})
_POLES = frozenset({"pv", "battery"})


class Piece(NamedTuple):
    """One piece to cut, marked at both ends with its lead, and of a pair or a bundle with its conductor."""

    mark: str
    lead: str
    cable: str
    length_m: float
    start: str
    end: str
    places: tuple[str, str]


class Cutting(NamedTuple):
    """All pieces of one type and size of cable, and the lengths to buy for them, the next to cut first."""

    cable: str
    sort: Sort
    area_mm2: float
    pieces: tuple[Piece, ...]
    plan: Plan
    by_metre: bool

    @property
    def cut_m(self) -> float:
        return math.fsum(piece.length_m for piece in self.pieces)

    @property
    def bought_m(self) -> float:
        return self.plan.bought_mm / _MM

    @property
    def least_bought_m(self) -> float:
        """What no plan buys less than."""
        return self.plan.least_bought_mm / _MM

    @property
    def waste_m(self) -> float:
        return self.bought_m - self.cut_m


class Patch(NamedTuple):
    """A patch cable, bought with its plugs on."""

    lead: str
    cable: str
    length_m: float
    start: str
    end: str
    places: tuple[str, str]


class CutList(NamedTuple):
    """What is cut, what is bought whole, and what has to be found out first, by the lead it is of."""

    cuttings: tuple[Cutting, ...]
    patches: tuple[Patch, ...]
    asks: tuple[tuple[str, str], ...]

    def pieces(self) -> Iterator[Piece]:
        """Every piece, cable by cable."""
        for cutting in self.cuttings:
            yield from cutting.pieces


class _Wanted(NamedTuple):
    piece: Piece
    sort: Sort
    area_mm2: float


def cut_list(answer: Answer) -> CutList:
    """Every lead of a house as pieces and patch cables. Worked out once."""
    return answer.design.recall((cut_list, answer.code.rulebook), lambda: _cut_list(answer))


def _cut_list(answer: Answer) -> CutList:
    leads = wired(answer.design).leads
    wanted, patches, asks = list[_Wanted](), list[Patch](), list[tuple[str, str]]()
    for row in schedule(answer):
        if row.role in _NOT_CUT:
            continue
        try:
            if _patched(answer, leads[row.lead]):
                patches.append(_patch(answer, row))
            else:
                wanted += _pieces(answer, row, leads[row.lead])
        except Missing as missing:
            asks += ((row.lead, ask) for ask in missing.asks)
    cuttings = []
    for cable in sorted({each.piece.cable for each in wanted}):
        alike = [each for each in wanted if each.piece.cable == cable]
        try:
            cuttings.append(_packed(answer, cable, alike))
        except Uncuttable as error:
            asks.append((cable, say("cuts.too_long", why=error)))
    return CutList(tuple(cuttings), tuple(patches), tuple(dict.fromkeys(asks)))


def _patched(answer: Answer, lead: Lead) -> bool:
    """Whether a lead is bought with its plugs on: it joins two sockets."""
    if lead.role == "patch":
        return True
    blocks = [wired(answer.design).block(end.device, end.port) for core in lead.cores for end in core.ends]
    return bool(blocks) and all(block is not None and block.kind == "rj45" for block in blocks)


def _patch(answer: Answer, row: Row) -> Patch:
    t = answer.code.trace()
    return Patch(
        row.lead,
        row.cable,
        _buying(answer).patch_m(t, needed_m=_cut_m(answer, row)),
        row.start,
        row.end,
        row.places,
    )


def _pieces(answer: Answer, row: Row, lead: Lead) -> Iterator[_Wanted]:
    """The lead as one piece where its cable has all cores in it, else a piece for each conductor.

    Raises `Missing` where its length or a size is not known.
    """
    if row.asks:
        raise Missing(*row.asks)
    part: Cable | SignalCable | None = answer.design.house.parts.get(lead.part)
    length_m = _cut_m(answer, row)

    def piece(conductor: str, cable: str) -> Piece:
        mark = f"{row.lead} {conductor}".strip()
        return Piece(mark, row.lead, cable, length_m, row.start, row.end, row.places)

    if isinstance(part, SignalCable):
        yield _Wanted(piece("", row.cable), "signal", 0.0)
        return
    sizes = [_size(conductor) for conductor in row.conductors]
    if part is not None and part.build == "multicore":
        yield _Wanted(piece("", row.cable), "multicore", max(size.area_mm2 for size in sizes))
        return
    alone = len(sizes) == 1
    for core, conductor, size in zip(lead.cores, row.conductors, sizes, strict=True):
        cable = _single(lead.part, core, conductor, size)
        sort: Sort = "pv" if part is not None and part.insulation == "pv" else "single"
        yield _Wanted(piece("" if alone else core.name, cable), sort, size.area_mm2)


def _size(conductor: Conductor) -> Size:
    if conductor.size is None:
        raise Missing(say("cuts.size", conductor=conductor.name))
    return known(conductor.size)


def _single(part: str, core: Core, conductor: Conductor, size: Size) -> str:
    """A single core by its part and size; of alternating current by its colour too, which is that of its
    insulation.
    """
    coloured = f", {conductor.colour}" if core.serves == "mains" and conductor.colour else ""
    return f"{part or 'conductor'} 1 × {size}{coloured}"


def _cut_m(answer: Answer, row: Row) -> float:
    run = answer.design.house.runs.get(row.lead)
    return _buying(answer).cut_m(
        answer.code.trace(),
        route_m=known(row.length_m),
        stretches=len(run.stretches) if run else 1,
        ends=[_end(answer, end) for end in (row.start, row.end)],
    )


def _end(answer: Answer, thing: str) -> End:
    house = answer.design.house
    if thing in house.boards:
        return "board"
    if thing in house.strings:
        return "roof"
    if is_box(thing):
        return "enclosure"
    return "device" if thing.partition(".")[0] in house.devices else "elsewhere"


def _buying(answer: Answer) -> Buying:
    return covered(answer.code.procedures.buying)


def _packed(answer: Answer, cable: str, wanted: Sequence[_Wanted]) -> Cutting:
    """One type and size on the lengths the firm's wholesaler sells, else on the usual ones. Raises
    `Uncuttable`.
    """
    t, buying = answer.code.trace(), _buying(answer)
    sort, area_mm2 = wanted[0].sort, max(each.area_mm2 for each in wanted)
    own = answer.loaded.firm.lengths.get(cable)
    by_metre = buying.by_metre(t, area_mm2=area_mm2) if own is None else not own
    pieces = [each.piece for each in wanted]
    waste_mm = buying.cut_waste_mm(t)
    if by_metre:
        plan = _by_metre(pieces, waste_mm)
    else:
        lengths_m = own or buying.cable_lengths_m(t, cable=sort)
        plan = cut(
            [ToCut(piece.mark, piece.length_m * _MM) for piece in pieces],
            [Stock(say("cuts.length", length=number(each)), each * _MM) for each in lengths_m],
            kerf_mm=waste_mm,
        )
    by_mark = {piece.mark: piece for piece in pieces}
    order = [by_mark[mark] for each in plan.cuts for mark in each.pieces]
    return Cutting(cable, sort, area_mm2, tuple(order), plan, by_metre)


def _by_metre(pieces: Iterable[Piece], waste_mm: float) -> Plan:
    """One length of whole metres for all of them, the longest cut first."""
    order = sorted(pieces, key=lambda piece: (-piece.length_m, piece.mark))
    used_mm = math.fsum(piece.length_m * _MM for piece in order) + waste_mm * (len(order) - 1)
    bought_mm = math.ceil(used_mm / _MM - 1e-9) * _MM
    marks = tuple(piece.mark for piece in order)
    return Plan((Cut(say("cuts.metre"), bought_mm, True, marks, bought_mm - used_mm),), bought_mm, bought_mm)


def cutting(answer: Answer) -> Iterator[tuple[str, Table]]:
    """What to buy of each cable, and every piece to cut from it."""
    yield "order", lengths(answer)
    yield "order", cuts(answer)


def cuts(answer: Answer) -> Table:
    """Every piece in the order of cutting, length by length; then the patch cables."""
    columns = (
        Column("cable", say("cuts.cable"), 26),
        Column("from_length", say("cuts.from"), 15),
        Column("mark", say("cuts.mark"), 24),
        Column("length", say("cuts.piece"), 9, "number", "m", 1),
        Column("start", say("cuts.start"), 16),
        Column("end", say("cuts.end"), 16),
        Column("places", say("cuts.places"), 14),
    )
    found = cut_list(answer)
    rows = [row for cutting in found.cuttings for row in _cut_rows(cutting)]
    rows += [
        (each.cable, say("cuts.whole"), each.lead, each.length_m, each.start, each.end, _places(each.places))
        for each in found.patches
    ]
    return table("cuts", say("cuts.title"), columns, rows, (*_allowances(answer), *_open(found)))


def _cut_rows(cutting: Cutting) -> Iterator[tuple[Cell, ...]]:
    of = {piece.mark: piece for piece in cutting.pieces}
    for at, each in enumerate(cutting.plan.cuts, 1):
        length = say("cuts.numbered", length=number(each.length_mm / _MM), number=at)
        for mark in each.pieces:
            piece = of[mark]
            yield (
                cutting.cable, length, mark, piece.length_m, piece.start, piece.end, _places(piece.places),
            )  # fmt: skip


def lengths(answer: Answer) -> Table:
    """What to buy of each cable, and what is left over beside the least that any plan leaves."""
    columns = (
        Column("cable", say("cuts.cable"), 26),
        Column("buy", say("cuts.buy"), 20),
        *(
            Column(key, say(f"cuts.{key}"), 10, "number", "m", 1)
            for key in ("bought", "cut", "left", "least_left")
        ),
    )
    found = cut_list(answer)
    rows = [
        (
            each.cable, _bought(each), each.bought_m, each.cut_m, each.waste_m,
            each.least_bought_m - each.cut_m,
        )
        for each in found.cuttings
    ]  # fmt: skip
    return table("cable-lengths", say("cuts.lengths"), columns, rows, _open(found))


def _bought(cutting: Cutting) -> str:
    """`1 × 50 m + 2 × 25 m`, the longest first."""
    counts: dict[float, int] = {}
    for each in sorted(cutting.plan.cuts, key=lambda one: -one.length_mm):
        counts[each.length_mm] = counts.get(each.length_mm, 0) + 1
    words = [say("cuts.times", count=n, length=number(mm / _MM)) for mm, n in counts.items()]
    return " + ".join(words) + (f" ({say('cuts.metre')})" if cutting.by_metre else "")


def _places(places: tuple[str, str]) -> str:
    return ", ".join(dict.fromkeys(places))


def _allowances(answer: Answer) -> tuple[str, ...]:
    """The allowances in every length, with how sure they are."""
    rulebook = answer.code.rulebook
    ends: tuple[End, ...] = ("board", "device", "enclosure", "roof", "elsewhere")
    read = {end: rulebook.cell("cut_end", end) for end in ends}
    stretch = rulebook.figure("cut_stretch")
    said = ", ".join(f"{say(f'cuts.at_{end}')} {number(float(read[end].value))} m" for end in ends)
    grade = min(stretch.grade, *(each.grade for each in read.values()))
    return (
        say("cuts.allowed", ends=said, stretch=number(float(stretch.value)), source=stretch.source.document,
            grade=grade.word),
        say("cuts.marking"),
    )  # fmt: skip


def _open(found: CutList) -> tuple[str, ...]:
    return tuple(say("cuts.find_out", of=of, ask=ask) for of, ask in found.asks)
