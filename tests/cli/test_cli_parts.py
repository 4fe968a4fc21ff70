"""`ferrule parts find`: the list, and the file that is written."""

from collections.abc import Callable
from pathlib import Path

import pytest
import yaml

from cli.command import Ferrule
from ferrule.cli import parts
from ferrule.constraint import Verdict
from ferrule.document import read
from ferrule.parts import Module, open_table
from ferrule.parts.library import PartFile
from houses import answered, finding
from parts.table import HEAD, ROWS


@pytest.fixture
def example_table(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "example-cec-modules-2020-01-02.csv"
    path.write_text(HEAD + ROWS.format(technology="Mono-c-Si"), encoding="utf-8")
    find: Callable[[str, Path], list[open_table.Entry]] = open_table.find
    monkeypatch.setattr(parts, "find", lambda text: find(text, path))


pytestmark = pytest.mark.usefixtures("example_table")


def test_the_list_has_number_name_power_and_the_two_limits(ferrule: Ferrule) -> None:
    assert ferrule("parts", "find", "works").out.splitlines() == [
        "  1  Example Works EX-60 Été 250/B    250 W  Voc  37.9 V  Isc   8.7 A",
        "  2  Example Works EX-72 300          300 W  Voc  45.5 V  Isc   8.9 A",
    ]


def test_a_long_list_is_cut_and_says_so(ferrule: Ferrule, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(parts, "_MOST", 1)
    assert ferrule("parts", "find", "works").out.splitlines()[-1] == "and 1 more; add a word"


@pytest.mark.parametrize("wanted", ["2", "example-works-ex-72-300", "Example Works EX-72 300"])
def test_one_is_written_by_its_number_id_or_name(ferrule: Ferrule, tmp_path: Path, wanted: str) -> None:
    folder = tmp_path / "house" / "parts"
    ended = ferrule("parts", "find", "works", "--write", wanted, "-o", folder)
    file = folder / "example-works-ex-72-300.yaml"
    assert ended == (
        0, f"{file}: Example Works EX-72 300; 9 figures the table lacks are left to find out\n", ""
    )  # fmt: skip
    part = read(file, PartFile).value.part
    assert isinstance(part, Module)
    assert (part.id, part.voc_v) == (file.stem, 45.5)


def test_a_part_file_that_is_there_stays_as_it_is(ferrule: Ferrule, tmp_path: Path) -> None:
    file = tmp_path / "example-works-ex-72-300.yaml"
    file.write_text("corrected by hand")
    ended = ferrule("parts", "find", "ex-72", "--write", "1", "-o", tmp_path)
    assert (ended.code, ended.out) == (2, "")
    assert "exists already" in ended.err
    assert file.read_text() == "corrected by hand"


@pytest.mark.parametrize("wanted", ["0", "3", "-1", "example-works", "²"])
def test_what_is_not_in_the_list_is_not_written(ferrule: Ferrule, tmp_path: Path, wanted: str) -> None:
    ended = ferrule("parts", "find", "works", f"--write={wanted}", "-o", tmp_path / "parts")
    assert (ended.code, ended.out) == (2, "")
    assert ended.err == f"'{wanted}' is no number from 1 to 2, nor the id of one of them alone\n"
    assert not (tmp_path / "parts").exists()


def test_two_of_one_id_are_told_apart_by_number_only(
    ferrule: Ferrule, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    row = dict.fromkeys(["Name"], "EX 1")
    twice = [open_table.Entry(row, tmp_path), open_table.Entry({"Name": "EX-1"}, tmp_path)]
    monkeypatch.setattr(parts, "find", lambda _text: twice)
    assert "nor the id of one of them alone" in ferrule("parts", "find", "x", "--write", "ex-1").err


def test_nothing_found_is_said(ferrule: Ferrule) -> None:
    assert ferrule("parts", "find", "nobody's") == (
        2, "", "no module's name has all the words of 'nobody's'; try fewer\n"
    )  # fmt: skip


def test_without_the_table_it_is_said_how_to_get_it(
    ferrule: Ferrule, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(parts, "find", open_table.find)
    monkeypatch.setattr(open_table, "find_spec", lambda _name: None)
    ended = ferrule("parts", "find", "works")
    assert (ended.code, ended.out) == (2, "")
    assert "pip install 'ferrule[pv]'" in ended.err


def test_a_written_part_answers_what_the_table_knows(ferrule: Ferrule, tmp_path: Path) -> None:
    ferrule("parts", "find", "ex-60", "--write", "1", "-o", tmp_path)
    written = yaml.safe_load(next(tmp_path.glob("*-ete-*.yaml")).read_text(encoding="utf-8"))["part"]
    edits = {"parts.+": written, "strings.S1.module": written["id"]}
    found = finding(answered(edits), "string.cold_voltage", "string/S1")
    assert found.verdict is Verdict.UNKNOWN
    asked = {ask for constraint in found.constraints for ask in constraint.find_out}
    assert asked == {
        "maximum system voltage, from the module's label",
        "rated voltage of the module's connectors",
    }
    # 12 × (37.9 V + 0.1251 V/K × 41 K)
    inverter = next(each for each in found.constraints if each.name == "inverter_input")
    assert inverter.value == pytest.approx(12 * (37.9 + 0.1251 * 41), rel=1e-12)
