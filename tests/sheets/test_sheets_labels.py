"""The labels of a house: those its rulebook asks for, whole in each language, at their true size."""

import re
import string
from collections import Counter
from xml.etree import ElementTree

import pytest
from hypothesis import HealthCheck, given, settings

import houses
from ferrule import rules
from ferrule.answering import Answer, answer
from ferrule.checks.paths import length_m
from ferrule.checks.wired import wired
from ferrule.cli import main
from ferrule.fact import Missing
from ferrule.job.load import Loaded
from ferrule.rules.entry import Series
from ferrule.sheets import labelsheet
from ferrule.sheets.labels import LANGUAGES, Label, labels
from ferrule.sheets.labelsheet import listed, shaped
from ferrule.sheets.legible import faults
from ferrule.sheets.paper import Drawing
from ferrule.sheets.scene import Scene, Text
from ferrule.sheets.svg import svg
from ferrule.sheets.texts import catalogue
from houses import EXAMPLES
from sheets import hostile

HOUSES = ("meter-led", "controller-led", "changeover-led")
_SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module", params=HOUSES)
def house(request: pytest.FixtureRequest) -> Answer:
    return houses.answered({}, request.param, firm=True)


def named(found: list[Label], name: str) -> list[str]:
    return [each.at for each in found if each.name == name]


def pages(result: Answer) -> list[Scene]:
    return [block.scene for _, block in labelsheet.schedule(result) if isinstance(block, Drawing)]


def test_each_language_has_the_same_texts_with_the_same_words_and_no_number() -> None:
    english, german = (catalogue(f"labels-{language}") for language in ("en", "de"))
    assert english.keys() == german.keys()
    for key, text in english.items():
        assert fields(text) == fields(german[key]), key
        assert not re.search(r"\d", text + german[key]), key
        assert text != german[key] or key in {"circuit", "cable_end"}


def fields(text: str) -> set[str]:
    return {name for _, name, _, _ in string.Formatter().parse(text) if name}


@pytest.mark.parametrize("edition", ["iec-2024", "us-2023"])
def test_every_label_of_a_rulebook_has_a_text_and_every_text_a_rulebook(edition: str) -> None:
    asked = set(_asked(edition))
    assert asked <= catalogue("labels-en").keys()
    every = set(_asked("iec-2024")) | set(_asked("us-2023"))
    assert {key for key in catalogue("labels-en") if not key.startswith("word.")} == every


def _asked(edition: str) -> list[str]:
    book = rules.load(edition)
    series = (book.entry(f"label_names_{group}") for group in ("array", "supply", "battery", "marks"))
    return [word for each in series if isinstance(each, Series) for word in each.words()]


def test_numbers_are_alike_in_each_language(house: Answer) -> None:
    told = [[(each.at, re.findall(r"\d[\d.]*", each.text)) for each in labels(house, language)]
            for language in LANGUAGES]  # fmt: skip
    assert told[0] == told[1]


def test_demo_houses_lack_nothing_for_their_labels(house: Answer) -> None:
    assert [each for each in labels(house) if each.find_out or each.copies is None or not each.text] == []


def test_both_ends_of_every_lead_are_marked(house: Answer) -> None:
    marked = Counter(each.text.partition(" → ")[0] for each in labels(house) if each.name == "cable_end")
    leads = wired(house.design).leads.values()
    assert marked == {lead.id: 2 for lead in leads if lead.role not in {"plug", "patch"}}


def test_what_a_house_has_decides_its_labels() -> None:
    """Counted by hand: one inverter with two strings, one battery, backup on a board of its own."""
    found = labels(houses.answered({}, "meter-led", firm=True))
    assert named(found, "two_supplies") == ["supply", "EM", "MB"]
    assert named(found, "pv_present") == ["supply", "EM", "MB"]
    assert named(found, "stays_live") == ["BB"]
    assert named(found, "changeover") == []
    assert named(found, "bond") == ["INV1.backup"]
    assert named(found, "main_isolation") == ["MB.C-inverter"]
    assert named(found, "earth") == ["electrode", "water", "array", "MB.bars PE"]
    assert len(named(found, "circuit")) == 6
    assert named(found, "bus_end") == ["INV1.BUS", "EM.BUS", "INV1.BMS", "BAT.BMS"]


def test_a_circuit_moved_from_backup_changes_its_own_labels_only() -> None:
    loaded = houses.loaded({}, "meter-led")
    before = {(each.name, each.at, each.text) for each in labels(answer(loaded))}
    after = {(each.name, each.at, each.text) for each in labels(answer(_moved(loaded)))}
    assert {(name, at) for name, at, _ in before - after} == {("circuit", "BB.C-fridge"), ("cable_end", "BB")}
    assert {(name, at) for name, at, _ in after - before} == {("circuit", "MB.C-fridge"), ("cable_end", "MB")}


def _moved(loaded: Loaded) -> Loaded:
    """The fridge's circuit leaves the main board."""
    job = loaded.job
    fridge = next(c for board in job.boards for c in board.circuits if c.id == "C-fridge")
    boards = []
    for board in job.boards:
        circuits = [each for each in board.circuits if each is not fridge]
        own = [*circuits, *([fridge] if board.id == "MB" else [])]
        boards.append(board.model_copy(update={"circuits": own}))
    runs = [run.model_copy(update={"start": "MB"}) if run.id == "R-fridge" else run for run in job.runs]
    return loaded._replace(job=job.model_copy(update={"boards": boards, "runs": runs}))


def test_a_cable_of_the_array_bears_one_at_each_end_and_at_every_spacing() -> None:
    """IEC: every 5 m. 25 m take five stretches, six labels."""
    stretch = {"runs.R-S1.stretches.0.length": "25 m"}
    result = houses.answered(stretch)
    total_m = length_m(result.design.house, "R-S1")
    (found,) = [each for each in labels(result) if (each.name, each.at) == ("dc_cable", "R-S1")]
    assert found.copies == -(-total_m // 5) + 1


def test_an_unknown_of_a_label_is_asked_for() -> None:
    result = houses.answered({"parts.example-hybrid-6k-single.discharge_time": houses.REMOVED})
    (found,) = [each for each in labels(result) if each.name == "inverter"]
    assert found.find_out == ("INV1: how long its capacitors stay charged, from its manual",)


def test_a_language_without_texts_is_told_and_not_passed_over(capsys: pytest.CaptureFixture[str]) -> None:
    found = labels(houses.answered(), "fr")
    assert all(each.text == "" and "language 'fr'" in each.find_out[-1] for each in found)
    job = str(EXAMPLES / "meter-led" / "job.yaml")
    assert main(["labels", job, "--language", "fr"]) == 3
    assert "the text of label dc_live in language 'fr'" in " ".join(capsys.readouterr().out.split())


def test_a_rulebook_without_labels_says_so() -> None:
    result = houses.answered({"rulebook": "uk-2022"})
    with pytest.raises(Missing, match="the rules on labels"):
        labels(result)
    assert listed(result).notes == ("Find out: the rules on labels, which this rulebook has not got yet",)


def test_american_labels_are_white_on_red_in_tall_capitals() -> None:
    """NFPA 70:2023, 690.31(D)(2): reflective, white on red, capitals of 3/8 in, 10 ft apart."""
    found = labels(houses.answered({"rulebook": "us-2023"}))
    raceways = [each for each in found if each.name == "us_raceway"]
    assert raceways
    assert {(each.ink, each.ground, each.height_mm, each.text) for each in raceways} == {
        ("white", "red", 9.5, "PHOTOVOLTAIC POWER SOURCE")
    }
    assert all(each.text == each.text.upper() for each in raceways)
    assert "ENERGY STORAGE SYSTEM DISCONNECT BAT" in {each.text for each in found}


def test_the_tallest_labels_fit_their_sheets() -> None:
    for scene in pages(houses.answered({"rulebook": "us-2023"})):
        assert faults(scene, within=scene.page.grown(-10.0)) == ()


def test_sheets_have_no_fault_and_every_label_in_full(house: Answer) -> None:
    scenes = pages(house)
    for scene in scenes:
        assert faults(scene, within=scene.page.grown(-10.0)) == ()
    drawn = " ".join(item.words for scene in scenes for item in scene.items
                     if isinstance(item, Text) and item.bold)  # fmt: skip
    assert all(" ".join(each.text.split()) in " ".join(drawn.split()) for each in labels(house))


def test_a_label_is_as_large_in_the_file_as_in_the_list() -> None:
    """Millimetres of SVG: the page says its size in mm, and its units are mm."""
    result = houses.answered({}, "meter-led", firm=True)
    root = ElementTree.fromstring(svg(pages(result)[0]))
    assert (root.get("width"), root.get("viewBox")) == ("174mm", "0 0 174 230")
    rectangles = {
        (float(each.get("width", "0")), float(each.get("height", "0"))) for each in root.iter(f"{_SVG}rect")
    }
    shape = shaped(labels(result)[0])
    assert (shape.width_mm, shape.height_mm) in rectangles
    lines = [each.get("d", "") for each in root.iter(f"{_SVG}path")]
    ends = [tuple(map(float, re.findall(r"[\d.]+", each))) for each in lines]
    assert any(len(each) == 4 and each[2] - each[0] == pytest.approx(100, abs=0.001) for each in ends)


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(words=hostile.words)
def test_any_words_fit_their_label_and_none_is_left_out(words: str) -> None:
    label = labels(_PLAIN)[0]._replace(text=words[:300])
    shape = shaped(label)
    assert shape.width_mm <= 146
    assert not any(each.endswith("…") for each in shape.lines) or "…" in words


_PLAIN = houses.answered()
