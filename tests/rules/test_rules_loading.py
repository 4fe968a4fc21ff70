"""What the loader refuses, and how it says so."""

from pathlib import Path

import pytest

from ferrule.rules.entry import RulebookError
from ferrule.rules.loading import problems, read_folder
from rules.books import HEAD, SUBJECT, write


def test_the_test_rulebook_is_sound(tmp_path: Path) -> None:
    assert problems(write(tmp_path)) == []


SPOILT = [
    # what every entry needs
    ("    title: A plain figure\n", "", "subject.yaml:42: plain: no title"),
    ("    unit: Ω·mm²/m\n", "", "subject.yaml:42: plain: no unit"),
    ("    unit: Ω·mm²/m\n", "    unit: Ω·mm2/m\n", "unknown unit 'Ω·mm2/m'; did you mean 'Ω·mm²/m'?"),
    ("    source: {ref: book, place: clause 1}\n", "", "plain: no source"),
    ("place: clause 1", "place: ''", "plain: source: place is empty"),
    ("{ref: book, place: clause 1}", "{ref: book}", "plain: source: no place"),
    ("{ref: book, place: clause 1}", "{place: clause 1}", "plain: source: no ref"),
    ("{ref: book, place: clause 1}", "book", "plain: source is not a mapping"),
    ("ref: book, place: clause 1", "ref: pamphlet, place: x", "'pamphlet' is not declared in rulebook.yaml"),
    ("    grade: memory\n", "", "plain: no grade"),
    ("    grade: memory\n", "    grade: sure\n", "grade 'sure' is none of memory, single, verified"),
    ("    grade: memory\n", "    grade: confirmed\n", "grade 'confirmed' is none of"),
    ("    value: 0.0225\n", "    value: 0.0225\n    wert: 1\n", "plain: unknown field 'wert'"),
    ("    value: 0.0225\n", "    valve: 0.0225\n", "plain: no value"),
    ("    value: 0.0225\n", "    value: about two\n", "'about two' is not a number"),
    ("    value: 0.0225\n", "    value: .inf\n", "'.inf' is not a number"),
    ("    value: 0.0225\n", "    value: nan\n", "'nan' is not a number"),
    ("    value: 0.0225\n", "    value: 0.0225\n    value: 0.03\n", "subject.yaml:45: 'value' stands twice"),
    ("  plain:\n", "  Plain-Figure:\n", "a name is small letters, digits and underscores"),
    # disputed figures
    ("low: {value: 4,", "low: {value: 7,", "argued: low 7.0 is not below high 6.0"),
    ("low: {value: 4,", "low: {value: 6,", "argued: low 6.0 is not below high 6.0"),
    ("    low: {value: 4, source: {ref: book, place: clause 2}, grade: memory}\n", "", "argued: no low"),
    ("place: clause 2}, grade: memory}", "place: clause 2}}", "argued: low: no grade"),
    ("low: {value: 4,", "low: {wert: 1, value: 4,", "argued: low: unknown field 'wert'"),
    ("    unit: mm²\n    low", "    unit: mm²\n    value: 5\n    low", "argued: unknown field 'value'"),
    # series
    ("values: [6, 10, 16]", "values: [6, 16, 10]", "ratings: the values do not rise"),
    ("values: [6, 10, 16]", "values: []", "ratings: values is empty"),
    ("values: [6, 10, 16]", "values: [6, ten]", "ratings: 'ten' is not a number"),
    # tables
    ('"20": [1.0, 1.0]', '"20": [1.0]', "factor: row 20 has 1 cells for 2 columns"),
    ('"20": [1.0, 1.0]', '"20": [1.0, 1.0, 1.0]', "factor: row 20 has 3 cells for 2 columns"),
    ('"20": [1.0, 1.0]', '"20": 1.0', "factor: row 20 has 1 cells for 2 columns"),
    ('"20": [1.0, 1.0]', '"20": [1.0, high]', "row 20: 'high' is not a number"),
    ('"20": [1.0, 1.0]', '"40": [1.0, 1.0]', "factor: the rows do not rise"),
    ('"20": [1.0, 1.0]', '"warm": [1.0, 1.0]', "'warm' is not a number"),
    ('"20": [1.0, 1.0]', '"10": [1.0, 1.0]', "'10' stands twice"),
    ('{"14": 5, 1/0: 1}', '{"14": [5], 1/0: 1}', "row 14: '['5']' is not a number"),
    ("names: [soft, hard]", "names: [hard, hard]", "a column stands twice"),
    ("names: [soft, hard]", "names: []", "columns: names is empty"),
    ("    between: step\n", "", "factor: no between"),
    ("    between: step\n", "    between: guess\n", "between 'guess' is none of step, linear, refuse"),
    ("    toward: higher\n", "", "factor: no toward"),
    ("    below: first\n", "    below: zero\n", "below 'zero' is none of refuse, first"),
    (
        "key: gauge}\n    between: refuse",
        "key: gauge}\n    between: linear",
        "rows of words have nothing between",
    ),
    ("columns: [hard], upto", "columns: [brittle], upto", "grades: no row or column brittle"),
    ('from: "20"}', 'from: "25"}', "grades: no row or column 25"),
    ("      - {grade: memory}\n", "", "the last one must hold for all cells left over"),
    ("    grades: [{grade: single}]\n", "", "words: no grades"),
    ("row: {key: gauge}", "row: {}", "words: row is empty"),
    ("row: {key: gauge}", "row: {key: gauge, size: mm²}", "row: unknown field 'size'"),
    # whole files
    ("about: Made up for tests.\n", "", "no 'about' saying where its figures come from"),
    ("  ratings:\n", "   ratings:\n", "an entry must stand at two spaces: ratings"),
    ("  plain:\n", "   plain:\n", "subject.yaml:48: did not find expected key"),
    ("figures:\n", "figure:\n", "unknown section 'figure'"),
    ("  term:\n", "  plain:\n", "also in test-2024/subject.yaml:42: plain"),
    ("  ratings:\n", "  line:\n", "also in test-2024/subject.yaml:21: line"),
    ("{ref: book, place: clause 5}", "{ref: book, place: clause 5", "subject.yaml:"),
    ("{ref: book, place: clause 5}", "*other", "subject.yaml:"),
]


@pytest.mark.parametrize(("good", "bad", "said"), SPOILT, ids=[said for _, _, said in SPOILT])
def test_a_spoilt_rulebook_is_refused(tmp_path: Path, good: str, bad: str, said: str) -> None:
    assert SUBJECT.count(good) == 1, "the spoiling must hit one place"
    found = problems(write(tmp_path, SUBJECT.replace(good, bad)))
    assert any(said in problem for problem in found), found


SPOILT_HEADS = [
    ("edition: test-2024\n", "", "rulebook.yaml: no edition"),
    ("edition: test-2024\n", "edition: test-2025\n", "'test-2025' is not the name of its folder"),
    ("family: testfamily", "family: test family", "family 'test family' is not an identifier"),
    ("valid_from: 2024-01-01", "valid_from: January", "'January' is not a date"),
    ("jurisdiction: nowhere\n", "", "no jurisdiction"),
    ("document: Book, ", "", "source 'book': no document"),
    ("note: a standard", "nota: a standard", "unknown field 'nota'; did you mean 'note'?"),
    ("title: A rulebook for tests\n", "title: A\ntitle: B\n", "rulebook.yaml:3: 'title' stands twice"),
    ("jurisdiction: nowhere\n", "jurisdiction: nowhere\ncolour: red\n", "unknown field 'colour'"),
]


@pytest.mark.parametrize(("good", "bad", "said"), SPOILT_HEADS, ids=[said for _, _, said in SPOILT_HEADS])
def test_a_spoilt_head_is_refused_at_once(tmp_path: Path, good: str, bad: str, said: str) -> None:
    assert HEAD.count(good) == 1
    with pytest.raises(RulebookError) as refused:
        read_folder(write(tmp_path, head=HEAD.replace(good, bad)))
    assert said in str(refused.value)


def test_a_folder_without_a_head_is_refused(tmp_path: Path) -> None:
    with pytest.raises(RulebookError, match=r"no rulebook\.yaml"):
        read_folder(tmp_path)


def test_a_faulty_entry_is_named_when_it_is_asked_for_and_not_before(tmp_path: Path) -> None:
    book = read_folder(write(tmp_path, SUBJECT.replace("    value: 0.0225\n", "")))
    assert book.figure("term").value == "switched"
    with pytest.raises(RulebookError, match="plain: no value"):
        book.figure("plain")


def test_all_faults_of_a_rulebook_are_listed(tmp_path: Path) -> None:
    spoilt = SUBJECT.replace("    grade: memory\n", "").replace("[6, 10, 16]", "[6, 16, 10]")
    assert len(problems(write(tmp_path, spoilt))) == 2


def test_the_digest_is_the_same_for_the_same_bytes_and_no_other(tmp_path: Path) -> None:
    first = read_folder(write(tmp_path)).digest
    assert read_folder(write(tmp_path)).digest == first
    assert read_folder(write(tmp_path, SUBJECT + "# a remark\n")).digest != first


def test_scalars_are_texts_without_yaml_surprises(tmp_path: Path) -> None:
    book = read_folder(write(tmp_path, SUBJECT.replace("value: switched", "value: no")))
    assert book.figure("term").value == "no"


VOLUME = """\
volume: shared
title: A volume for tests
sources:
  leaflet: {document: Leaflet, edition: "2021"}
"""

SHARED = """\
about: Made up for tests.

figures:
  load:
    title: A figure that several editions share
    unit: kg
    value: 23
    source: {ref: leaflet, place: page 2}
    grade: single
"""


def _with_volume(tmp_path: Path, volume: str = VOLUME, shared: str = SHARED) -> Path:
    (tmp_path / "shared").mkdir()
    (tmp_path / "shared" / "volume.yaml").write_text(volume, encoding="utf-8")
    (tmp_path / "shared" / "lift.yaml").write_text(shared, encoding="utf-8")
    return write(tmp_path, head=HEAD.replace("sources:\n", "includes: [shared]\nsources:\n"))


def test_an_edition_reads_what_a_volume_holds_by_the_volumes_own_sources(tmp_path: Path) -> None:
    folder = _with_volume(tmp_path)
    assert problems(folder) == []
    read = read_folder(folder).figure("load")
    assert read.value == 23
    assert str(read.source) == "Leaflet:2021 page 2"


def test_a_change_in_a_volume_changes_the_digest_of_the_editions_that_include_it(tmp_path: Path) -> None:
    folder = _with_volume(tmp_path)
    before = read_folder(folder).digest
    (tmp_path / "shared" / "lift.yaml").write_text(SHARED.replace("23", "25"), encoding="utf-8")
    assert read_folder(folder).digest != before


def test_a_faulty_volume_is_a_fault_of_the_edition(tmp_path: Path) -> None:
    spoilt = SHARED.replace("    grade: single\n", "")
    assert problems(_with_volume(tmp_path, shared=spoilt)) == ["shared/lift.yaml:4: load: no grade"]


def test_a_volume_that_is_not_there_or_bears_another_name_is_refused(tmp_path: Path) -> None:
    folder = _with_volume(tmp_path, VOLUME.replace("volume: shared", "volume: other"))
    assert problems(folder) == ["shared/volume.yaml: volume 'other' is not the name of its folder"]
    (tmp_path / "shared" / "volume.yaml").unlink()
    assert problems(folder) == ["shared: no volume.yaml"]
