"""`ferrule draw`."""

from pathlib import Path

import pytest

from cli.command import Ferrule
from ferrule.answering import Answer
from ferrule.sheets import drawings
from ferrule.sheets.drawings import DRAWINGS
from ferrule.sheets.scene import Scene, line
from houses import EXAMPLES

HOUSE = EXAMPLES / "meter-led" / "job.yaml"


def two_sheets(result: Answer) -> tuple[Scene, ...]:
    return tuple(Scene(20, 20, (line((1, 1), (1, x)),), f"{result.loaded.job.name} {x}") for x in (5, 9))


@pytest.fixture(autouse=True)
def in_a_folder_of_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    made = {**DRAWINGS, "two-sheets": two_sheets, "nothing": lambda _result: ()}
    monkeypatch.setattr(drawings, "DRAWINGS", made)
    monkeypatch.setattr("ferrule.cli.draw.DRAWINGS", made)


def test_each_sheet_is_a_file(ferrule: Ferrule, tmp_path: Path) -> None:
    ended = ferrule("draw", HOUSE, "two-sheets")
    assert ended.out.splitlines()[:2] == ["two-sheets.svg", "two-sheets-2.svg"]
    assert 'viewBox="0 0 20 20"' in (tmp_path / "two-sheets-2.svg").read_text(encoding="utf-8")


def test_its_name_says_how_it_is_written(ferrule: Ferrule, tmp_path: Path) -> None:
    assert ferrule("draw", HOUSE, "two-sheets", "-o", "made.DXF").err == ""
    assert (tmp_path / "made.DXF").read_bytes().startswith(b"  0\nSECTION")
    assert ferrule("draw", HOUSE, "two-sheets", "-o", "made.png").code == 2


def test_it_ends_as_check_does(ferrule: Ferrule) -> None:
    faulty = EXAMPLES / "meter-led" / "faulty.yaml"
    ended = ferrule("draw", faulty, "two-sheets")
    assert ended.code == ferrule("check", faulty).code == 1
    assert ended.out.endswith("Not cleared to build; every sheet says so.\n")


@pytest.mark.parametrize("asked", [["two-sheet"], ["nothing"], ["two-sheets", "-o", "no/folder.svg"]])
def test_what_cannot_be_drawn_is_said(ferrule: Ferrule, asked: list[str]) -> None:
    ended = ferrule("draw", HOUSE, *asked)
    assert ended.code == 2
    assert ended.err.startswith(
        ("there is no drawing 'two-sheet'; did you mean 'two-sheets'?", "the house", "no")
    )
