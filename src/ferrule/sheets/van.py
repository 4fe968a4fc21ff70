"""Before anybody drives: whether all that was ordered came, the boxes with their serials, tools and dies."""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from ferrule.answering import Answer
from ferrule.checks.fastening import of_device, of_plate
from ferrule.checks.subjects import hung_devices, place_of_device
from ferrule.display import number
from ferrule.fact import Missing, Unknown
from ferrule.proving.steps import steps
from ferrule.proving.words import catalogue
from ferrule.sheets.ends import Piece, ends
from ferrule.sheets.order import contents, order
from ferrule.sheets.table import Column, Table, table
from ferrule.sheets.texts import say

Sort = Literal["box", "delivered", "tool", "die", "drill"]
_NO_TOOL = "none"


class Check(NamedTuple):
    """One thing to look for. `detail` says what belongs to it; `places` where it is used."""

    sort: Sort
    what: str
    amount: float | None
    detail: str
    places: tuple[str, ...]


def checks(answer: Answer) -> list[Check]:
    """The boxes to open, the goods to count, then tools, dies and drills, each once."""
    return [*_boxes(answer), *_delivered(answer), *_tools(answer), *_dies(answer), *_drills(answer)]


def _boxes(answer: Answer) -> Iterator[Check]:
    for box in contents(answer):
        if isinstance(box.items, Unknown):
            inside = say("van.unread")
        else:
            inside = ", ".join(say("van.inside", count=count, item=item) for item, count in box.items)
        detail = say("van.box", inside=inside or say("van.nothing"))
        place = place_of_device(answer.design.house, box.device)
        for pack in range(1, box.boxes + 1):
            device = box.device if box.boxes == 1 else f"{box.device} {pack}/{box.boxes}"
            yield Check("box", f"{device}: {box.part}", 1, detail, (place,))


def _delivered(answer: Answer) -> Iterator[Check]:
    for line in order(answer):
        places = tuple(dict.fromkeys(place for each, _ in line.places for place in each.split(", ")))
        buy = line.buy
        if isinstance(buy, Unknown):
            yield Check("delivered", line.item, None, say("order.ask", ask=buy.ask), places)
        elif buy and line.kind != "device":  # a device has a box of its own above
            yield Check("delivered", line.item, buy, say("order.metres") if line.unit else "", places)


def _tools(answer: Answer) -> Iterator[Check]:
    """Of the terminals by their sheets, then of the steps; each with all places it is used at."""
    found: dict[str, dict[str, None]] = {}
    for end in ends(answer):
        for core in end.cores:
            if isinstance(core.tool, str) and core.tool != _NO_TOOL:
                found.setdefault(core.tool, {})[end.place] = None
    words = catalogue("en")
    for step in steps(answer.design):
        for tool in step.tools:
            found.setdefault(words.text(tool), {})[step.place] = None
    for tool in sorted(found):
        yield Check("tool", tool, None, "", tuple(found[tool]))


def _dies(answer: Answer) -> Iterator[Check]:
    """For lugs by their print; for sleeves by their size."""
    found: dict[tuple[str, str], dict[str, None]] = {}
    for end in ends(answer):
        for core in end.cores:
            piece = core.piece
            if not isinstance(piece, Piece):
                continue
            key = (say(f"van.{piece.kind}"), str(core.size)) if piece.kind in _PRESSED else None
            if key is not None:
                what = say("van.die", number=piece.die, what=key[0]) if piece.die else key[0]
                found.setdefault((what, key[1]), {})[end.place] = None
    for (what, size), places in sorted(found.items()):
        yield Check("die", what, None, say("van.for_size", size=size), tuple(places))


_PRESSED = frozenset({"sleeve", "twin", "lug", "ring"})


def _drills(answer: Answer) -> Iterator[Check]:
    """The drill of each kind of anchor in its base, and how its hole is cleaned."""
    design, found = answer.design, dict[tuple[str, str], dict[str, None]]()
    for subject in hung_devices(design):
        for held in (of_device, of_plate):
            try:
                fastening = held(design, subject.id)
            except Missing:
                continue  # the order list asks for it
            if fastening is None or fastening.in_base is None:
                continue
            drill = say(
                "van.drill", hole=number(fastening.in_base.hole_mm), base=fastening.base.replace("-", " ")
            )
            detail = say("van.deep", depth=number(fastening.in_base.depth_mm), anchor=fastening.sheet.name)
            if fastening.sheet.cleaning:
                detail += say("van.cleaning", how=fastening.sheet.cleaning)
            found.setdefault((drill, detail), {})[place_of_device(design.house, subject.id)] = None
    for (drill, detail), places in sorted(found.items()):
        yield Check("drill", drill, None, detail, tuple(places))


def checked(answer: Answer) -> Iterator[tuple[str, Table]]:
    """The check on paper."""
    yield "order", listed(answer)


def listed(answer: Answer) -> Table:
    """The check as a table with room to tick, to write the serial and what is short."""
    columns = (
        Column("sort", say("van.sort"), 8),
        Column("what", say("van.what"), 34),
        Column("count", say("van.count"), 7, "number"),
        Column("detail", say("van.detail"), 28),
        Column("places", say("order.places"), 13),
        Column("there", say("van.there"), 8),
        Column("short", say("van.short"), 11),
        Column("serial", say("van.serial"), 18),
    )
    rows = [
        (
            say(f"van.sort_{each.sort}"), each.what, each.amount, each.detail, ", ".join(each.places),
            None, None, None if each.sort == "box" else say("van.dash"),
        )
        for each in checks(answer)
    ]  # fmt: skip
    return table("van", say("van.title"), columns, rows, (say("van.note"),))
