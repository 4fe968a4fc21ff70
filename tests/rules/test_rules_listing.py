"""What the rulebook says of itself, as plain data."""

import json
from pathlib import Path

import pytest

from ferrule import rules
from ferrule.rules import confirming
from ferrule.rules.entry import RulebookError
from ferrule.rules.listing import describe, listing
from ferrule.rules.loading import read_folder
from ferrule.rules.rulebook import Rulebook
from rules.books import write


@pytest.fixture
def book(tmp_path: Path) -> Rulebook:
    return read_folder(write(tmp_path))


def test_the_list_names_everything_with_its_weakest_grade(book: Rulebook) -> None:
    assert [(item["name"], item["kind"], item["unit"], item["grade"]) for item in listing(book)] == [
        ("factor", "table", "", "memory"),
        ("line", "table", "A", "single"),
        ("words", "table", "s", "single"),
        ("plain", "figure", "Ω·mm²/m", "memory"),
        ("argued", "figure", "mm²", "memory"),
        ("term", "figure", "word", "single"),
        ("ratings", "series", "A", "single"),
    ]


def test_a_table_is_described_with_every_cell(book: Rulebook) -> None:
    described = describe(book, "factor")
    assert described["columns"] == ["soft", "hard"]
    assert described["between"] == "step to the higher"
    assert described["row"] == {"key": "ambient", "unit": "°C"}
    assert described["source"] == "Book:2020 table 1"
    assert [row["row"] for row in described["rows"]] == ["10", "20", "30"]
    assert described["rows"][2]["cells"] == [
        None,
        {"keys": ["30", "hard"], "value": 0.9, "grade": "single", "source": "Book:2020 table 1"},
    ]


def test_a_table_without_columns_has_one_cell_a_row(book: Rulebook) -> None:
    assert [row["cells"][0]["value"] for row in describe(book, "line")["rows"]] == [10, 30]


def test_a_disputed_figure_is_described_with_both_sources(book: Rulebook) -> None:
    assert describe(book, "argued")["values"] == [
        {"keys": ["low"], "value": 4, "grade": "memory", "source": "Book:2020 clause 2"},
        {"keys": ["high"], "value": 6, "grade": "verified", "source": "Book:2020 clause 3"},
    ]


def test_a_series_is_described_with_its_values(book: Rulebook) -> None:
    assert describe(book, "ratings")["values"] == [6, 10, 16]


def test_confirmations_show(book: Rulebook, tmp_path: Path) -> None:
    file = tmp_path / "confirmed.yaml"
    confirming.record(file, book, "plain", by="A. Reader", page="p. 1", date="2026-11-25")
    after = book.confirmed_by(confirming.read(file)["test-2024"])
    assert describe(after, "plain")["grade"] == "confirmed"
    assert "read by A. Reader" in describe(after, "plain")["values"][0]["source"]


def test_an_unknown_name_is_refused(book: Rulebook) -> None:
    with pytest.raises(RulebookError, match="holds no 'absent'"):
        describe(book, "absent")


@pytest.mark.parametrize("edition", rules.editions())
def test_everything_can_be_described_and_written_as_json(edition: str) -> None:
    rulebook = rules.load(edition)
    assert all(json.dumps(describe(rulebook, name), allow_nan=False) for name in rulebook.names())
