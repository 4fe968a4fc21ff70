"""Reading cells, figures and series: between rows, beyond them, and how sure each is."""

import math
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.grade import Grade
from ferrule.rules.entry import RulebookError
from ferrule.rules.loading import problems, read_folder
from ferrule.rules.rulebook import Rulebook
from ferrule.working import NotPrinted, Trace
from rules.books import SUBJECT, write


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Rulebook:
    return read_folder(write(tmp_path_factory.mktemp("books")))


@pytest.mark.parametrize(
    ("asked", "row", "value"),
    [
        (10, "10", 1.1),
        (10.0, "10", 1.1),
        ("10", "10", 1.1),
        ("10.0", "10", 1.1),
        (10.1, "20", 1.0),
        (20 + 1e-12, "20", 1.0),
        (20.001, "30", 0.9),
        (30, "30", 0.9),
        (-40, "10", 1.1),
    ],
)
def test_a_step_takes_the_row_toward_the_stated_side(
    book: Rulebook, asked: float | str, row: str, value: float
) -> None:
    read = book.cell("factor", asked, "hard")
    assert (read.value, read.keys, read.unit) == (value, (row, "hard"), "")
    assert str(read.source) == "Book:2020 table 1"


@pytest.mark.parametrize(
    ("row", "column", "said"),
    [
        (30.1, "hard", "table factor has no ambient 30.1 °C; its rows run from 10 to 30 °C"),
        (30, "soft", "table factor prints nothing for ambient 30 °C and insulation soft"),
        (25, "soft", "table factor prints nothing for ambient 30 °C and insulation soft"),
        (20, "wood", "table factor has no insulation 'wood'; it prints soft, hard"),
        (20, None, "table factor is read by ambient and insulation; it prints soft, hard"),
        (math.nan, "hard", "table factor has no ambient nan °C; its rows run from 10 to 30 °C"),
        (math.inf, "hard", "table factor has no ambient inf °C; its rows run from 10 to 30 °C"),
        ("warm", "hard", "table factor has no ambient warm °C; its rows run from 10 to 30 °C"),
    ],
)
def test_what_is_not_printed_is_refused_with_the_tables_range(
    book: Rulebook, row: float | str, column: str | None, said: str
) -> None:
    with pytest.raises(NotPrinted) as refused:
        book.cell("factor", row, column)
    assert str(refused.value) == said


def test_a_row_of_words_is_found_by_its_word_only(book: Rulebook) -> None:
    assert book.cell("words", "1/0").value == 1
    assert book.cell("words", 14).value == 5
    with pytest.raises(NotPrinted, match="table words has no gauge 12; it prints 14, 1/0"):
        book.cell("words", "12")
    with pytest.raises(NotPrinted, match="has no column 'fast'"):
        book.cell("words", "14", "fast")


def test_a_line_runs_between_the_rows_and_carries_the_weaker_grade(book: Rulebook) -> None:
    read = book.cell("line", 1.25)
    assert (read.value, read.keys, read.grade) == (15.0, ("1–2",), Grade.SINGLE)
    assert book.cell("line", 1).grade is Grade.VERIFIED
    assert book.cell("line", 99).value == 30
    with pytest.raises(NotPrinted, match=r"no size 0\.9 mm²; its rows run from 1 to 2 mm²"):
        book.cell("line", 0.9)


@given(st.floats(1, 2), st.floats(1, 2))
def test_a_line_never_turns_back(book: Rulebook, one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert 10 <= float(book.cell("line", low).value) <= float(book.cell("line", high).value) <= 30


@given(st.floats(-100, 30), st.floats(-100, 30))
def test_a_step_is_always_printed_and_never_less_severe_than_its_row(
    book: Rulebook, one: float, other: float
) -> None:
    cooler, hotter = (float(book.cell("factor", at, "hard").value) for at in sorted((one, other)))
    assert {cooler, hotter} <= {1.1, 1.0, 0.9}
    assert hotter <= cooler


@pytest.mark.parametrize(
    ("row", "column", "grade"),
    [
        (10, "hard", Grade.VERIFIED),
        (20, "hard", Grade.VERIFIED),
        (30, "hard", Grade.SINGLE),
        (20, "soft", Grade.SINGLE),
        (10, "soft", Grade.MEMORY),
    ],
)
def test_each_cell_has_the_first_grade_that_fits_it(
    book: Rulebook, row: float, column: str, grade: Grade
) -> None:
    assert book.cell("factor", row, column).grade is grade


def test_a_plain_figure_ignores_the_bound(book: Rulebook) -> None:
    assert book.figure("plain") == book.figure("plain", "high")
    assert (book.figure("plain").value, book.figure("plain").keys) == (0.0225, ())


def test_a_disputed_figure_is_read_with_its_bound_only(book: Rulebook) -> None:
    low, high = book.figure("argued", "low"), book.figure("argued", "high")
    assert (low.value, low.grade, low.keys, low.source.place) == (4, Grade.MEMORY, ("low",), "clause 2")
    assert (high.value, high.grade, high.keys, high.source.place) == (
        6,
        Grade.VERIFIED,
        ("high",),
        "clause 3",
    )
    with pytest.raises(RulebookError, match=r"argued is disputed \(4.0 or 6.0 mm²\)"):
        book.figure("argued")


def test_a_series_gives_numbers_and_words(book: Rulebook) -> None:
    ratings = book.series("ratings")
    assert ratings.numbers() == (6.0, 10.0, 16.0)
    assert ratings.words() == ("6", "10", "16")
    assert (ratings.unit, ratings.grade) == ("A", Grade.SINGLE)


@pytest.mark.parametrize(
    ("ask", "said"),
    [
        (lambda b: b.figure("absent"), "rulebook test-2024 holds no 'absent'"),
        (lambda b: b.cell("plain", 1), "plain in rulebook test-2024 is no table"),
        (lambda b: b.figure("factor"), "factor in rulebook test-2024 is no figure"),
        (lambda b: b.series("factor"), "factor in rulebook test-2024 is no series"),
    ],
)
def test_a_wrong_name_is_a_fault_of_the_program_and_not_an_unprinted_cell(
    book: Rulebook, ask: Callable[[Rulebook], object], said: str
) -> None:
    with pytest.raises(RulebookError) as refused:
        ask(book)
    assert str(refused.value) == said


def test_a_trace_reads_from_a_rulebook(book: Rulebook) -> None:
    trace = Trace(book)
    assert trace.read("factor", 15, "hard") == 1.0
    assert trace.figure("argued", "high") == 6
    assert trace.term("term") == "switched"
    assert [read.table for read in trace.reads()] == ["factor", "argued", "term"]


MARKS = """
  marks:
    title: A table whose cells are words
    unit: word
    source: {ref: book, place: table 4}
    row: {key: size, unit: mm²}
    columns: {key: system, names: [here, there]}
    between: refuse
    values: {"1": [red, "no"], "2": [null, "10"]}
    grades: [{grade: single}]
"""


def test_a_table_may_hold_words(tmp_path: Path) -> None:
    trace = Trace(read_folder(write(tmp_path, SUBJECT.replace("\nfigures:", f"{MARKS}\nfigures:"))))
    assert [trace.term("marks", 1, "here"), trace.term("marks", "1", "there")] == ["red", "no"]
    assert trace.term("marks", 2.0, "there") == "10"
    assert [read.keys for read in trace.reads()] == [("1", "here"), ("1", "there"), ("2", "there")]
    with pytest.raises(NotPrinted, match="prints nothing for size 2 mm² and system here"):
        trace.term("marks", 2, "here")


def test_no_line_leads_from_word_to_word(tmp_path: Path) -> None:
    marks = MARKS.replace("refuse", "linear")
    (problem,) = problems(write(tmp_path, SUBJECT.replace("\nfigures:", f"{marks}\nfigures:")))
    assert problem.endswith("marks: words have nothing between them")
