"""A table as CSV (RFC 4180): for spreadsheets, label printers and other programs.

UTF-8 with a byte order mark: without it the commonest spreadsheets read `mm²` and `Ω` in the wrong alphabet.
Programs skip the mark by reading `utf-8-sig`.
"""

import csv
import io

from ferrule.sheets.table import Cell, Column, Table, number

#: A spreadsheet takes a text that begins so for a formula, or cuts the beginning off and then does.
_OBEYED = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
_GUARD = "'"


def csv_bytes(table: Table) -> bytes:
    """The headings with their units in the first record, then the rows; title and notes stay out.

    A text that a spreadsheet would obey has an apostrophe before it, and so has one that begins with an
    apostrophe: whoever takes one leading apostrophe off each text has every text back as it was.
    """
    file = io.StringIO()
    writer = csv.writer(file, quoting=csv.QUOTE_ALL, lineterminator="\r\n")
    writer.writerow([guarded(column.titled) for column in table.columns])
    for row in table.rows:
        writer.writerow([_field(column, cell) for column, cell in zip(table.columns, row, strict=True)])
    return file.getvalue().encode("utf-8-sig")


def guarded(text: str) -> str:
    """The text so that a spreadsheet shows it and does not work it out."""
    return _GUARD + text if text.startswith((*_OBEYED, _GUARD)) else text


def _field(column: Column, cell: Cell) -> str:
    if cell is None:
        return ""
    return guarded(cell) if isinstance(cell, str) else number(column, cell)
