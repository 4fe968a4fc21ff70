"""The list of what is still to be found out: each fact once, where a person stands to find it."""

from pathlib import Path

import pytest

import houses
from ferrule.answering import Answer, answer
from ferrule.cli.missing import told
from ferrule.cli.paint import Paint
from ferrule.constraint import Verdict
from ferrule.display.missing import Fact, joined, missing
from ferrule.job.load import load
from ferrule.job.starter import ARCHITECTURES, starter
from houses import REMOVED


@pytest.fixture(params=ARCHITECTURES)
def begun(request: pytest.FixtureRequest, tmp_path: Path) -> Answer:
    file = tmp_path / "job.yaml"
    file.write_text(starter(request.param), encoding="utf-8")
    return answer(load(file))


def test_every_finding_that_is_unknown_waits_for_something_on_the_list(begun: Answer) -> None:
    waiting = {(each.id, each.subject) for fact in missing(begun) for each in fact.findings}
    unknown = {(e.id, e.subject) for e in begun.findings if e.verdict is Verdict.UNKNOWN}
    assert waiting == unknown
    assert len(unknown) > 60


def test_nothing_is_asked_twice(begun: Answer) -> None:
    facts = missing(begun)
    assert len({(fact.where, fact.ask) for fact in facts}) == len(facts)
    paths = [path for fact in facts for path in fact.paths]
    assert len(set(paths)) == len(paths)


def test_it_goes_round_the_house_and_ends_with_the_sheets(begun: Answer) -> None:
    places = list(dict.fromkeys(fact.where for fact in missing(begun)))
    assert places[:3] == ["about the house", "in the place plant", "on the roof"]
    round_the_house = [place for place in places if not place.startswith("on the sheet of ")]
    assert places[: len(round_the_house)] == round_the_house
    assert round_the_house[-1] == "from the network operator"


@pytest.mark.parametrize(
    ("edit", "where"),
    [
        ("site.coldest", "about the house"),
        ("crew", "about the house"),
        ("aids", "about the house"),
        ("buses", "at the bus"),
        ("faces.south.mounting", "on the roof"),
        ("supply.earthing", "at the meter"),
        ("supply.highest", "from the network operator"),
        ("supply.utility.export_max", "from the network operator"),
        ("devices.BAT.protection_distance", "at the battery"),
        ("boards.MB.rating", "at the board"),
        ("earth.electrode", "at the board"),
        ("buses.CAN.speed", "at the bus"),
        ("runs.R-light.stretches.0.length", "along the cables"),
        ("parts.example-hybrid-6k-single.earthing", "on the sheet of example-hybrid-6k-single"),
    ],
)
def test_a_fact_is_found_where_its_key_stands(edit: str, where: str) -> None:
    fact = next(fact for fact in missing(houses.answered({edit: REMOVED})) if edit in fact.paths)
    assert fact.where == where
    assert fact.findings


def test_nothing_is_missing_in_a_demo_house() -> None:
    assert missing(houses.answered()) == []


def test_paths_that_differ_in_names_are_written_as_one() -> None:
    assert joined(["runs.R1.stretches.0.length", "runs.R2.stretches.0.length", "site.coldest"]) == [
        "runs.{R1, R2}.stretches.0.length",
        "site.coldest",
    ]


def test_many_subjects_of_one_question_are_counted() -> None:
    result = houses.answered({"supply.fault_current_max": REMOVED})
    lines = list(told(missing(result), Paint()))
    assert lines[0] == "  at the meter"
    assert lines[1].endswith("  [supply.fault_current_max]")
    assert any("circuit.breaking_capacity (6)" in line for line in lines)


def test_each_place_is_named_once() -> None:
    facts = [Fact("on the roof", "tilt", (), ()), Fact("on the roof", "azimuth", (), ())]
    assert list(told(facts, Paint())) == ["  on the roof", "    tilt", "    azimuth"]
