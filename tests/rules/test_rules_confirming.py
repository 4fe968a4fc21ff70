"""A person confirms a figure: what is written, what is read back, and what it changes."""

from pathlib import Path

import pytest

from ferrule.grade import Grade
from ferrule.rules import confirming
from ferrule.rules.entry import RulebookError
from ferrule.rules.loading import read_folder
from ferrule.rules.rulebook import Rulebook
from rules.books import SUBJECT, write

WHO = {"by": "A. Reader", "page": "p. 95", "date": "2026-11-25"}


@pytest.fixture
def book(tmp_path: Path) -> Rulebook:
    return read_folder(write(tmp_path))


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "confirmed.yaml"


def confirmed(book: Rulebook, file: Path) -> Rulebook:
    return book.confirmed_by(confirming.read(file)[book.edition])


def test_without_a_file_nothing_is_confirmed(file: Path) -> None:
    assert confirming.read(file) == {}


def test_a_confirmed_figure_is_read_as_such_with_its_reader(book: Rulebook, file: Path) -> None:
    confirming.record(file, book, "plain", **WHO)
    read = confirmed(book, file).figure("plain")
    assert (read.value, read.grade) == (0.0225, Grade.CONFIRMED)
    assert str(read.source) == "Book:2020 clause 1, read by A. Reader on 2026-11-25, p. 95"
    assert book.figure("plain").grade is Grade.MEMORY


def test_a_table_may_be_confirmed_whole(book: Rulebook, file: Path) -> None:
    confirming.record(file, book, "factor", **WHO)
    after = confirmed(book, file)
    assert {after.cell("factor", row, "hard").grade for row in (10, 20, 30)} == {Grade.CONFIRMED}


def test_a_cell_is_confirmed_alone_and_however_its_row_is_spelled(book: Rulebook, file: Path) -> None:
    confirming.record(file, book, "factor[10.0, soft]", **WHO)
    after = confirmed(book, file)
    assert after.cell("factor", 10, "soft").grade is Grade.CONFIRMED
    assert after.cell("factor", -5, "soft").grade is Grade.CONFIRMED, "a colder place reads the same cell"
    assert after.cell("factor", 20, "soft").grade is Grade.SINGLE
    assert list(confirming.read(file)["test-2024"]) == ["factor[10,soft]"]


def test_a_bound_of_a_disputed_figure_is_confirmed_alone(book: Rulebook, file: Path) -> None:
    confirming.record(file, book, "argued[low]", **WHO)
    after = confirmed(book, file)
    assert after.figure("argued", "low").grade is Grade.CONFIRMED
    assert after.figure("argued", "high").grade is Grade.VERIFIED


def test_a_series_may_be_confirmed(book: Rulebook, file: Path) -> None:
    confirming.record(file, book, "ratings", **WHO)
    assert confirmed(book, file).series("ratings").grade is Grade.CONFIRMED


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("absent", "rulebook test-2024 holds no 'absent'"),
        ("argued", "argued is disputed: confirm argued[low] or argued[high]"),
        ("argued[middle]", "argued is disputed: confirm argued[low] or argued[high]"),
        ("plain[low]", "plain has no cells: confirm it by its name alone"),
        ("ratings[6]", "ratings has no cells: confirm it by its name alone"),
        ("factor[15,hard]", "table factor prints no row 15"),
        ("line[1.5]", "table line prints no row 1.5"),
        ("factor[30,soft]", "table factor prints nothing for ambient 30 °C and insulation soft"),
        ("factor[20,wood]", "table factor has no insulation 'wood'; it prints soft, hard"),
    ],
)
def test_what_is_not_there_cannot_be_confirmed(book: Rulebook, file: Path, name: str, said: str) -> None:
    with pytest.raises(RulebookError) as refused:
        confirming.record(file, book, name, **WHO)
    assert str(refused.value) == said
    assert not file.exists()


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"by": " "}, "a confirmation says who read the figure, and on which page"),
        ({"page": ""}, "a confirmation says who read the figure, and on which page"),
        ({"date": "yesterday"}, "date: 'yesterday' is not a date"),
    ],
)
def test_a_confirmation_without_person_page_or_date_is_refused(
    book: Rulebook, file: Path, change: dict[str, str], said: str
) -> None:
    with pytest.raises(RulebookError, match=said):
        confirming.record(file, book, "plain", **{**WHO, **change})


def test_a_new_confirmation_keeps_the_others(book: Rulebook, file: Path) -> None:
    file.write_text(
        "other-2020:\n  thing: {by: B, date: 2020-02-02, page: p. 1, value: '7'}\n", encoding="utf-8"
    )
    confirming.record(file, book, "plain", **WHO)
    confirming.record(file, book, "term", **WHO)
    confirming.record(file, book, "plain", **{**WHO, "by": "C. Later"})
    held = confirming.read(file)
    assert held["other-2020"]["thing"].by == "B"
    assert {name: one.by for name, one in held["test-2024"].items()} == {
        "plain": "C. Later",
        "term": "A. Reader",
    }
    assert list(file.parent.glob("confirmed.yaml*")) == [file], "nothing is left lying about"


def test_a_changed_figure_is_no_longer_confirmed(book: Rulebook, file: Path, tmp_path: Path) -> None:
    confirming.record(file, book, "plain", **WHO)
    confirming.record(file, book, "line", **WHO)
    confirming.record(file, book, "line[2]", **WHO)
    assert confirming.stale(book, confirming.read(file)) == []
    changed = SUBJECT.replace("value: 0.0225", "value: 0.0224").replace('"2": 30', '"2": 31')
    after = read_folder(write(tmp_path, changed))
    assert confirming.stale(after, confirming.read(file)) == ["line", "line[2]", "plain"]
    assert confirmed(after, file).figure("plain").grade is Grade.MEMORY
    assert confirmed(after, file).cell("line", 2).grade is Grade.SINGLE


def test_confirmations_change_the_digest(book: Rulebook, file: Path) -> None:
    confirming.record(file, book, "plain", **WHO)
    first = confirmed(book, file)
    assert first.digest != book.digest
    assert confirmed(book, file).digest == first.digest


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("test-2024: 7\n", "confirmed.yaml: test-2024: expected names of figures"),
        ("test-2024:\n  plain: yes\n", "test-2024: plain: expected named fields, found 'yes'"),
        ("test-2024:\n  plain: {by: A, date: 2026-11-25, value: '1'}\n", "plain: no page"),
        ("test-2024:\n  plain: {by: A, date: soon, page: p. 1, value: '1'}\n", "'soon' is not a date"),
        ("test-2024:\n  plain: {by: A, date: 2026-11-25, page: '', value: '1'}\n", "page is empty"),
        ("a: {}\na: {}\n", "confirmed.yaml:2: 'a' stands twice"),
        ("- a\n", "confirmed.yaml:1: expected named fields"),
        ("a: [\n", "confirmed.yaml:2: "),
        ("a: &x {}\nb: *x\n", "confirmed.yaml:2: an alias is not allowed"),
        ("a: {}\n---\nb: {}\n", "a second document"),
        ("[" * 5000, "confirmed.yaml"),
    ],
)
def test_a_spoilt_file_is_refused_with_its_place(file: Path, text: str, said: str) -> None:
    file.write_text(text, encoding="utf-8")
    with pytest.raises(RulebookError) as refused:
        confirming.read(file)
    assert said in str(refused.value)


def test_a_file_that_is_no_text_is_refused(file: Path) -> None:
    file.write_bytes(b"\xff\xfe\x00")
    with pytest.raises(RulebookError, match="cannot be read"):
        confirming.read(file)


def test_a_place_that_cannot_be_written_is_reported(book: Rulebook, tmp_path: Path) -> None:
    with pytest.raises(RulebookError, match="cannot be written"):
        confirming.record(tmp_path / "no such folder" / "confirmed.yaml", book, "plain", **WHO)
