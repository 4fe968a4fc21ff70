"""The sizes and devices that were chosen, with what governed each."""

from collections.abc import Iterator

from ferrule import display
from ferrule.answering import Answer
from ferrule.choose import Choice
from ferrule.choose.offers import named
from ferrule.sheets.table import Column, Table, table
from ferrule.sheets.texts import say


def chosen(result: Answer) -> Iterator[tuple[str, Table]]:
    """What the job left open, those alike on one row; nothing where it left nothing open."""
    owners: dict[tuple[str, str, str], list[str]] = {}
    for choice in result.choices:
        key = (named(choice.decided.kind), _value(choice), display.why(choice))
        owners.setdefault(key, []).append(choice.decided.owner)
    if not owners:
        return
    columns = (
        Column("what", say("sizes.what"), width=18),
        Column("for", say("sizes.owners"), width=26),
        Column("value", say("sizes.value"), width=26),
        Column("why", say("sizes.why"), width=56),
    )
    rows = tuple((what, ", ".join(alike), value, why) for (what, value, why), alike in owners.items())
    carried = any(choice.carried for choice in result.choices)
    yield (
        "sizes",
        table("sizes", say("sizes.list"), columns, rows, (say("sizes.carried_note"),) if carried else ()),
    )


def _value(choice: Choice) -> str:
    value = display.plainly(choice.decided.kind, choice.value)
    return say("sizes.carried", value=value) if choice.carried else value
