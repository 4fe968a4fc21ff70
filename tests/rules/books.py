"""A small rulebook on disk, to be spoilt by tests."""

from pathlib import Path

HEAD = """\
edition: test-2024
title: A rulebook for tests
family: testfamily
valid_from: 2024-01-01
jurisdiction: nowhere
sources:
  book: {document: Book, edition: "2020", note: a standard}
"""

SUBJECT = """\
about: Made up for tests.

tables:
  factor:
    title: A factor that steps to the hotter row
    unit: ""
    source: {ref: book, place: table 1}
    row: {key: ambient, unit: °C}
    columns: {key: insulation, names: [soft, hard]}
    between: step
    toward: higher
    below: first
    values:
      "10": [1.2, 1.1]
      "20": [1.0, 1.0]
      "30": [null, 0.9]
    grades:
      - {grade: verified, columns: [hard], upto: "20"}
      - {grade: single, from: "20"}
      - {grade: memory}
  line:
    title: A table read along a straight line
    unit: A
    source: {ref: book, place: table 2}
    row: {key: size, unit: mm²}
    between: linear
    above: last
    values: {"1": 10, "2": 30}
    grades:
      - {grade: verified, upto: "1"}
      - {grade: single}
  words:
    title: A table of words
    unit: s
    source: {ref: book, place: table 3}
    row: {key: gauge}
    between: refuse
    values: {"14": 5, 1/0: 1}
    grades: [{grade: single}]

figures:
  plain:
    title: A plain figure
    value: 0.0225
    unit: Ω·mm²/m
    source: {ref: book, place: clause 1}
    grade: memory
  argued:
    title: A figure two sources dispute
    unit: mm²
    low: {value: 4, source: {ref: book, place: clause 2}, grade: memory}
    high: {value: 6, source: {ref: book, place: clause 3}, grade: verified}
  term:
    title: A rule that is a word
    value: switched
    unit: word
    source: {ref: book, place: clause 4}
    grade: single

series:
  ratings:
    title: Ratings
    unit: A
    values: [6, 10, 16]
    source: {ref: book, place: clause 5}
    grade: single
"""


def write(folder: Path, subject: str = SUBJECT, head: str = HEAD) -> Path:
    """Write the rulebook below `folder` and return its own folder."""
    book = folder / "test-2024"
    book.mkdir(exist_ok=True)
    (book / "rulebook.yaml").write_text(head, encoding="utf-8")
    (book / "subject.yaml").write_text(subject, encoding="utf-8")
    return book
