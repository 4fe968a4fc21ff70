"""What a rulebook holds, as plain data for whoever shows it."""

from typing import Any

from ferrule.grade import Grade
from ferrule.rules.entry import Figure, Series, Table
from ferrule.rules.rulebook import Rulebook
from ferrule.working import Read


def listing(rulebook: Rulebook) -> list[dict[str, Any]]:
    """Every table, figure and series: `name`, `kind`, `title`, `unit` and its weakest `grade`."""
    return [_summary(rulebook, name) for name in rulebook.names()]


def describe(rulebook: Rulebook, name: str) -> dict[str, Any]:
    """All there is to say about one entry: its summary, sources, note, and every value with its grade.

    Raises `RulebookError` if there is none of that name.
    """
    entry = rulebook.entry(name)
    described = {**_summary(rulebook, name), "note": entry.note}
    if isinstance(entry, Table):
        return {
            **described,
            "source": str(entry.source),
            "row": {"key": entry.row_key, "unit": entry.row_unit},
            "column": entry.column_key,
            "columns": list(entry.columns),
            "between": entry.between if entry.between != "step" else f"step to the {entry.toward}",
            "rows": [
                {
                    "row": row,
                    "cells": [_cell(rulebook, entry, row, column) for column in entry.columns or (None,)],
                }
                for row in entry.rows
            ],
        }
    if isinstance(entry, Series):
        return {**described, "source": str(entry.source), "values": list(entry.values)}
    return {**described, "values": [_value(read) for read in _readings(rulebook, entry)]}


def _summary(rulebook: Rulebook, name: str) -> dict[str, Any]:
    entry = rulebook.entry(name)
    return {
        "name": name,
        "kind": type(entry).__name__.lower(),
        "title": entry.title,
        "unit": entry.unit,
        "grade": _weakest(rulebook, name).word,
    }


def _weakest(rulebook: Rulebook, name: str) -> Grade:
    entry = rulebook.entry(name)
    if isinstance(entry, Series):
        return rulebook.series(name).grade
    return min(read.grade for read in _readings(rulebook, entry))


def _readings(rulebook: Rulebook, entry: Table | Figure) -> list[Read]:
    if isinstance(entry, Figure):
        if not entry.disputed:
            return [rulebook.figure(entry.name)]
        return [rulebook.figure(entry.name, "low"), rulebook.figure(entry.name, "high")]
    columns = entry.columns or (None,)
    return [
        rulebook.cell(entry.name, row, column)
        for row, cells in zip(entry.rows, entry.cells, strict=True)
        for column, value in zip(columns, cells, strict=True)
        if value is not None
    ]


def _cell(rulebook: Rulebook, table: Table, row: str, column: str | None) -> dict[str, Any] | None:
    at = table.columns.index(column) if column else 0
    if table.cells[table.rows.index(row)][at] is None:
        return None
    return _value(rulebook.cell(table.name, row, column))


def _value(read: Read) -> dict[str, Any]:
    return {
        "keys": list(read.keys),
        "value": read.value,
        "grade": read.grade.word,
        "source": str(read.source),
    }
