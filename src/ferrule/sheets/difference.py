"""What a change of a job changes in what is bought and cut: nothing else is told."""

from collections.abc import Iterator, Mapping
from typing import Literal, NamedTuple

from ferrule.answering import Answer
from ferrule.display import number
from ferrule.fact import Unknown
from ferrule.sheets.cutlist import cut_list
from ferrule.sheets.order import order
from ferrule.sheets.table import Column, Table, table
from ferrule.sheets.texts import say

What = Literal["added", "gone", "changed"]


class Change(NamedTuple):
    """A line of the order or a piece of the cut list that is not as it was. Empty: there was or is none."""

    sheet: Literal["order", "cuts"]
    what: What
    item: str
    before: str
    now: str


def difference(old: Answer, new: Answer) -> list[Change]:
    """From one job, or revision of a job, to another; empty where both take the same."""
    return [
        *_changes("order", _bought(old), _bought(new)),
        *_changes("cuts", _cut(old), _cut(new)),
    ]


#: what tells two things apart, and what a person reads
_Named = tuple[str, str]


def _bought(answer: Answer) -> dict[_Named, str]:
    """How many of what; two kinds may have one name, such as the screws of a device and of its plate."""
    found: dict[_Named, str] = {}
    for line in order(answer):
        buy = line.buy
        unit = f" {line.unit}" if line.unit else ""
        told = say("order.ask", ask=buy.ask) if isinstance(buy, Unknown) else f"{number(buy, 6)}{unit}"
        item = say("difference.item", group=say(f"group.{line.group}"), item=line.item)
        found[line.kind, item] = told
    return found


def _cut(answer: Answer) -> dict[_Named, str]:
    """Each piece by its mark; patch cables among them."""
    found = cut_list(answer)
    cut = [(piece.mark, piece.cable, piece.length_m) for piece in found.pieces()]
    cut += [(patch.lead, patch.cable, patch.length_m) for patch in found.patches]
    return {
        ("", mark): say("difference.piece", cable=cable, length=f"{length_m:.1f}")
        for mark, cable, length_m in cut
    }


def _changes(
    sheet: Literal["order", "cuts"], old: Mapping[_Named, str], new: Mapping[_Named, str]
) -> Iterator[Change]:
    for named in (*old, *(each for each in new if each not in old)):
        before, now = old.get(named, ""), new.get(named, "")
        if before != now:
            what: What = "changed" if before and now else "added" if now else "gone"
            yield Change(sheet, what, named[1], before, now)


def listed(changes: list[Change]) -> Table:
    """The changes as a table."""
    columns = (
        Column("sheet", say("difference.sheet"), 10),
        Column("what", say("difference.what"), 9),
        Column("item", say("difference.of"), 44),
        Column("before", say("difference.before"), 24),
        Column("now", say("difference.now"), 24),
    )
    rows = [
        (say(f"difference.{each.sheet}"), say(f"difference.{each.what}"), each.item, each.before, each.now)
        for each in changes
    ]
    return table("difference", say("difference.title"), columns, rows)
