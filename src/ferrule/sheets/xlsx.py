"""Tables as one workbook (XLSX): a sheet each, texts as texts, numbers as numbers, ready to print.

The same tables give the same bytes: the only dates inside are fixed.
"""

import io
import re
from collections.abc import Iterable, Mapping
from datetime import datetime
from itertools import count
from typing import Any, Literal

from ferrule.sheets.table import Column, Table

Paper = Literal["a4", "letter"]

_PAPERS: Mapping[Paper, int] = {"letter": 1, "a4": 9}
_LONGEST = 32_767  # characters in a cell, as UTF-16 counts them
_LONGEST_HEAD = 255
_LONGEST_NAME = 31
_NOT_IN_NAME = re.compile(r"[\[\]:*?/\\]")
_UPRIGHT = 90  # characters; a wider sheet is printed on its side
_DATED = datetime(1980, 1, 1)  # the first day that a ZIP file can name


def workbook(tables: Iterable[Table], *, paper: Paper, mark: str = "") -> bytes:
    """The tables as a workbook; `mark` stands at the head of every printed page.

    Raises `ValueError` for a text longer than a spreadsheet holds, with its place and what is allowed.
    """
    from xlsxwriter import Workbook

    file = io.BytesIO()
    book = Workbook(file, {"in_memory": True})
    book.set_properties({"created": _DATED})
    names: set[str] = set()
    for table in tables:
        sheet = book.add_worksheet(_name(table.title, names))
        _fill(sheet, table, lambda **format: book.add_format({"valign": "top", **format}))
        _print_set_up(sheet, table, paper, mark)
    book.close()
    return file.getvalue()


def _fill(sheet: Any, table: Table, style: Any) -> None:
    head, note, words = (
        style(bold=True, text_wrap=True, bottom=1),
        style(),
        style(text_wrap=True, num_format="@"),
    )
    for at, column in enumerate(table.columns):
        number = style(num_format=_pattern(column))
        sheet.set_column(at, at, column.width)
        sheet.write_string(0, at, column.titled, head)
        for row, cells in enumerate(table.rows, 1):
            cell = cells[at]
            if isinstance(cell, str):
                sheet.write_string(row, at, _held(table, row, column, cell), words)
            elif cell is not None:
                sheet.write_number(row, at, cell, number)
    for row, text in enumerate(table.notes, len(table.rows) + 2):
        sheet.write_string(row, 0, text, note)


def _pattern(column: Column) -> str:
    return "0." + "0" * column.digits if column.digits else "0"


def _held(table: Table, row: int, column: Column, text: str) -> str:
    length = len(text.encode("utf-16-le")) // 2
    if length > _LONGEST:
        raise ValueError(
            f"{table.title}, row {row}, {column.heading}: a text of {length} characters; "
            f"a spreadsheet's cell holds {_LONGEST}"
        )
    return text


def _print_set_up(sheet: Any, table: Table, paper: Paper, mark: str) -> None:
    sheet.freeze_panes(1, 0)
    sheet.repeat_rows(0)
    sheet.set_paper(_PAPERS[paper])
    sheet.fit_to_pages(1, 0)
    if sum(column.width for column in table.columns) > _UPRIGHT:
        sheet.set_landscape()
    head = "&L" + table.title.replace("&", "&&") + "&R" + mark.replace("&", "&&")
    if len(head) > _LONGEST_HEAD:
        raise ValueError(
            f"{table.title}: title and mark have {len(head)} characters; a page's head holds {_LONGEST_HEAD}"
        )
    sheet.set_header(head)
    sheet.set_footer("&R&P / &N")


def _name(title: str, taken: set[str]) -> str:
    """A name for the sheet's tab: it takes no more of the title, and no name twice."""
    plain = _NOT_IN_NAME.sub(" ", title).strip("' ") or "list"
    for at in count(1):
        end = f" {at}" if at > 1 else ""
        name = plain[: _LONGEST_NAME - len(end)].rstrip("' ") + end
        if name.lower() not in taken | {"history"}:
            taken.add(name.lower())
            return name
    raise AssertionError("counting never ends")
