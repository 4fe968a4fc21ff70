"""The order list: what a job takes less what lies in the boxes of its devices, with spares, as a wholesaler
sells it.
"""

import math
from collections.abc import Iterator
from typing import NamedTuple

from ferrule.answering import Answer
from ferrule.clauses.procedures import covered
from ferrule.display import number
from ferrule.fact import Fact, Unknown
from ferrule.sheets import goods_ends, goods_gear, goods_held
from ferrule.sheets.goods import GROUPS, IN_METRES, SMALL, Good, Group, Kind
from ferrule.sheets.table import Cell, Column, Table, table
from ferrule.sheets.texts import say

#: what counts the goods, subject by subject
_COUNTED = (goods_ends.cables, goods_ends.goods, goods_gear.goods, goods_held.goods)


class Line(NamedTuple):
    """One thing to buy. `places` tells how many go where; of cable only where it runs. `boxed` are those that
    come with the devices, `spare` those bought beyond need.
    """

    group: Group
    kind: Kind
    item: str
    needed: Fact[float]
    boxed: int
    spare: int
    of: tuple[str, ...]
    places: tuple[tuple[str, float | None], ...]

    @property
    def buy(self) -> Fact[float]:
        if isinstance(self.needed, Unknown):
            return self.needed
        return self.needed - self.boxed + self.spare

    @property
    def unit(self) -> str:
        return "m" if self.kind in IN_METRES else ""


class Contents(NamedTuple):
    """What is known to lie in the box of a device, beside the device and its plugs."""

    device: str
    part: str
    boxes: int
    items: Fact[tuple[tuple[str, int], ...]]


def contents(answer: Answer) -> list[Contents]:
    """The boxes of all devices, one for each pack of a battery."""
    house, found = answer.design.house, []
    for device in house.job.devices:
        part = house.parts[device.part]
        items = part.box if isinstance(part.box, Unknown) else tuple((e.item, e.count) for e in part.box)
        found.append(Contents(device.id, part.name, getattr(device, "packs", 1), items))
    return found


def boxed(answer: Answer) -> dict[str, int]:
    """How many of each thing lie in the boxes together."""
    found: dict[str, int] = {}
    for box in contents(answer):
        for item, count in () if isinstance(box.items, Unknown) else box.items:
            found[item] = found.get(item, 0) + count * box.boxes
    return found


def order(answer: Answer) -> list[Line]:
    """Every line, group by group, kind by kind, each thing once."""
    alike: dict[tuple[Kind, str], list[Good]] = {}
    for each in (each for counted in _COUNTED for each in counted(answer)):
        if each.amount != 0:
            alike.setdefault((each.kind, each.item), []).append(each)
    there = boxed(answer)
    return [
        _line(answer, group, kind, item, alike[kind, item], there.get(item, 0))
        for group, kinds in GROUPS.items()
        for kind, item in sorted(alike, key=lambda key: (key[0], key[1]))
        if kind in kinds
    ]


def _line(answer: Answer, group: Group, kind: Kind, item: str, same: list[Good], there: int) -> Line:
    of = tuple(dict.fromkeys(each.of for each in same))
    asks = tuple(dict.fromkeys(each.amount.ask for each in same if isinstance(each.amount, Unknown)))
    places: dict[str, float | None] = {}
    for each in same:
        if each.place and not isinstance(each.amount, Unknown):
            metres = kind in IN_METRES or "," in each.place
            places[each.place] = None if metres else (places.get(each.place) or 0.0) + each.amount
    if asks:
        where = tuple((each.place, None) for each in same if each.place)
        return Line(group, kind, item, Unknown("; ".join(asks)), 0, 0, of, tuple(dict.fromkeys(where)))
    needed = math.fsum(each.amount for each in same if not isinstance(each.amount, Unknown))
    needed = needed if kind in IN_METRES else math.ceil(needed)
    taken = min(there, int(needed))
    spare = 0
    if kind in SMALL:
        buying = covered(answer.code.procedures.buying)
        spare = buying.spares(answer.code.trace(), count=int(needed) - taken)
    return Line(group, kind, item, float(needed), taken, spare, of, tuple(places.items()))


def ordered(answer: Answer) -> Iterator[tuple[str, Table]]:
    """The order list on paper."""
    yield "order", listed(answer)


def listed(answer: Answer) -> Table:
    """The order list as a table."""
    columns = (
        Column("group", say("order.group"), 12),
        Column("item", say("order.item"), 36),
        Column("buy", say("order.buy"), 8, "number"),
        Column("unit", say("order.unit"), 6),
        *(Column(key, say(f"order.{key}"), 9, "number") for key in ("needed", "boxed", "spare")),
        Column("of", say("order.of"), 22),
        Column("places", say("order.places"), 14),
    )
    rows = [_row(line) for line in order(answer)]
    return table("order", say("order.title"), columns, rows, _notes(answer))


def _row(line: Line) -> tuple[Cell, ...]:
    where = ", ".join(
        place
        if count is None or line.kind in IN_METRES
        else say("order.at", place=place, count=number(count))
        for place, count in line.places
    )
    group, of = say(f"group.{line.group}"), ", ".join(line.of)
    unit = say("order.metres") if line.unit else say("order.pieces")
    if isinstance(line.needed, Unknown):
        ask = say("order.ask", ask=line.needed.ask)
        return group, f"{line.item}: {ask}", "?", unit, "?", None, None, of, where
    assert not isinstance(line.buy, Unknown)
    return (
        group, line.item, line.buy, unit, line.needed, line.boxed or None, line.spare or None, of, where,
    )  # fmt: skip


def _notes(answer: Answer) -> Iterator[str]:
    rulebook = answer.code.rulebook
    share, least = rulebook.figure("spare_share"), rulebook.figure("spare_least")
    yield say(
        "order.spares", share=number(float(share.value)), least=number(float(least.value)),
        source=share.source.document, grade=min(share.grade, least.grade).word,
    )  # fmt: skip
    unread = [box.device for box in contents(answer) if isinstance(box.items, Unknown)]
    if unread:
        yield say("order.boxes_unknown", devices=", ".join(unread))
    yield say("order.plugs")
    yield say("order.left_out")
    yield say("order.all_new")
