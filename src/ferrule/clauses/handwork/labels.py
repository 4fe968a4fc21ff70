"""Labels: every country has its list, and all are read alike."""

import math
from collections.abc import Iterator
from typing import cast, get_args

from ferrule.clauses.procedures.labels import AskedLabel, On
from ferrule.working import NotPrinted, Tables, Trace

_GROUPS = ("array", "supply", "battery", "marks")
_HEIGHTS = {"usual": "label_height", "mark": "label_mark_height", "tall": "label_tall_height"}


class ListedLabels:
    """A list of names for each group, and a table with a row for each name."""

    needs = (
        *(f"label_names_{group}" for group in _GROUPS),
        *(f"labels_{group}" for group in _GROUPS),
        "label_height",
        "label_mark_height",
        "label_spacing",
    )

    def asked(self, tables: Tables) -> Iterator[AskedLabel]:
        for group in _GROUPS:
            for name in tables.series(f"label_names_{group}").words():
                yield _asked(tables, f"labels_{group}", name)

    def count_along(self, t: Trace, *, length_m: float) -> int:
        """One at each end, and so many between that none is farther from the next than allowed."""
        return max(math.ceil(round(length_m / t.figure("label_spacing"), 9)), 1) + 1


def _asked(tables: Tables, table: str, name: str) -> AskedLabel:
    on = tables.cell(table, name, "on")
    if on.value not in get_args(On):
        raise NotPrinted(f"what label {name} is on: '{on.value}' is nothing that is known")
    letters, ink, ground = (
        str(tables.cell(table, name, each).value) for each in ("letters", "ink", "ground")
    )
    height_mm = float(tables.figure(_HEIGHTS[letters], None).value)
    sign = _sign(tables, table, name)
    return AskedLabel(name, cast(On, on.value), height_mm, ink, ground, sign, on.source, on.grade)


def _sign(tables: Tables, table: str, name: str) -> str:
    try:
        return str(tables.cell(table, name, "sign").value)
    except NotPrinted:
        return ""
