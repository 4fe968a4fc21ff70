"""Workbooks, opened again by another library."""

import io
import os
import subprocess
import sys
import zipfile
from pathlib import Path
from typing import Any

import pytest
from openpyxl import load_workbook
from openpyxl.utils.escape import unescape

from ferrule.sheets.table import Table, table, writable
from ferrule.sheets.xlsx import workbook
from sheets.lists import COLUMNS, HOSTILE, SCHEDULE, of_texts


def opened(*tables: Table, **given: Any) -> Any:
    return load_workbook(io.BytesIO(workbook(tables, paper=given.pop("paper", "a4"), **given)))


def test_texts_and_numbers_as_what_they_are() -> None:
    (sheet,) = opened(SCHEDULE)
    assert [[cell.value for cell in row] for row in sheet.iter_rows()] == [
        ["run", "cores", "length (m)", "torque (N·m)"],
        ["W1", 5, 12.35, 2.5],
        ["W2", 3, 0, "unknown: see the maker's sheet"],
        ["W3", 4, 100, None],
        [None, None, None, None],
        ["Lengths with allowances at both ends.", None, None, None],
    ]
    assert [cell.data_type for cell in sheet[3]] == ["s", "n", "n", "s"]
    assert [sheet.cell(2, at).number_format for at in (1, 2, 3, 4)] == ["@", "0", "0.00", "0.0"]


def test_ready_to_print() -> None:
    sheet = opened(SCHEDULE, paper="letter", mark="revision 3, not cleared to build & so on")[
        "Cable schedule"
    ]
    assert sheet.freeze_panes == "A2"
    assert sheet.print_title_rows == "$1:$1"
    assert (sheet.page_setup.paperSize, sheet.page_setup.orientation) == (1, "portrait")
    assert (sheet.page_setup.fitToHeight, sheet.sheet_properties.pageSetUpPr.fitToPage) == (0, True)
    assert sheet.oddHeader.left.text == "Cable schedule"
    assert sheet.oddHeader.right.text == "revision 3, not cleared to build && so on"
    assert [round(sheet.column_dimensions[letter].width) for letter in "ABCD"] == [13, 7, 10, 15]
    assert opened(SCHEDULE)["Cable schedule"].page_setup.paperSize == 9


def test_a_wide_list_lies_on_its_side() -> None:
    wide = SCHEDULE._replace(columns=(*COLUMNS[:3], COLUMNS[3]._replace(width=80)))
    assert opened(wide)["Cable schedule"].page_setup.orientation == "landscape"


@pytest.mark.parametrize("text", [text for text in HOSTILE if text])
def test_no_text_is_obeyed_or_lost(text: str) -> None:
    """Here openpyxl hands on the escapes of literal `_x0041_` as they stand in the file."""
    cell = opened(of_texts(text))["Texts"]["A2"]
    value = unescape(cell.value) if "_x005F_" in cell.value else cell.value
    assert (value, cell.data_type, cell.hyperlink) == (writable(text), "s", None)


def test_no_sheet_holds_a_formula_or_link() -> None:
    with zipfile.ZipFile(io.BytesIO(workbook([of_texts(*HOSTILE)], paper="a4"))) as file:
        inside = {name: file.read(name).decode() for name in file.namelist()}
    assert "<f>" not in inside["xl/worksheets/sheet1.xml"]
    assert not any("_rels/sheet" in name for name in inside)


def test_a_text_too_long_is_told() -> None:
    told = "Texts, row 2, text: a text of 40000 characters; a spreadsheet's cell holds 32767"
    with pytest.raises(ValueError, match=told):
        workbook([of_texts("", "x" * 40_000)], paper="a4")
    with pytest.raises(ValueError, match="a text of 32768 characters"):
        workbook([of_texts("🔌" * 16_384)], paper="a4")
    with pytest.raises(ValueError, match="a page's head holds 255"):
        workbook([SCHEDULE], paper="a4", mark="x" * 255)


def test_tabs_have_names_of_their_own() -> None:
    titles = ["Ends: battery [1]", "Ends: battery [2]", "x" * 40, "x" * 41, "history", "'"]
    names = opened(*(table("t", title, COLUMNS, []) for title in titles)).sheetnames
    assert names == ["Ends  battery  1", "Ends  battery  2", "x" * 31, "x" * 29 + " 2", "history 2", "list"]


def test_the_same_bytes_on_another_day_elsewhere() -> None:
    code = (
        "import sys; from ferrule.sheets.xlsx import workbook; from sheets.lists import SCHEDULE; "
        "sys.stdout.buffer.write(workbook([SCHEDULE], paper='a4', mark='m'))"
    )
    tests = str(Path(__file__).parents[1])
    for zone, seed in (("Asia/Tokyo", "1"), ("America/Lima", "2")):
        env = os.environ | {"TZ": zone, "PYTHONHASHSEED": seed,
                            "PYTHONPATH": os.pathsep.join([tests, *sys.path])}  # fmt: skip
        done = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True, env=env)
        assert done.stdout == workbook([SCHEDULE], paper="a4", mark="m")
