"""The cable schedule, what lands where, and the few sheets for a dead phone."""

import re
from collections import Counter
from functools import cache
from typing import Any

import pytest
import yaml

import houses
from ferrule.answering import Answer
from ferrule.checks.wired import wired
from ferrule.fact import Unknown
from ferrule.proving.steps import steps
from ferrule.sheets.pack import pack
from ferrule.sheets.readings import readings
from ferrule.sheets.schedule import schedule
from ferrule.sheets.table import Table
from ferrule.sheets.wires import brief, wires

HOUSES = ("meter-led", "controller-led", "changeover-led")


@cache
def answered(house: str) -> Answer:
    return houses.answered({}, house, firm=True)


@cache
def written(house: str) -> dict[str, Any]:
    """The job as its file has it, read by nothing of ours."""
    job: dict[str, Any] = yaml.safe_load((houses.EXAMPLES / house / "job.yaml").read_text(encoding="utf-8"))
    return job


@pytest.mark.parametrize("house", HOUSES)
def test_every_cable_of_the_file_is_on_the_schedule(house: str) -> None:
    job = written(house)
    leads = {row.lead for row in schedule(answered(house))}
    assert {run["id"] for run in job["runs"]} <= leads
    assert {bond["id"] for bond in job["earth"]["bonding"]} <= leads
    assert {contact["id"] for contact in job.get("contacts", [])} <= leads
    links = [f"{bus['id']}:{link['from']}:{link['to']}" for bus in job["buses"] for link in bus["links"]]
    assert set(links) <= leads


@pytest.mark.parametrize("house", HOUSES)
def test_the_lengths_of_the_runs_are_those_of_the_file(house: str) -> None:
    lengths = {row.lead: row.length_m for row in schedule(answered(house))}
    for run in written(house)["runs"]:
        metres = sum(float(stretch["length"].split()[0]) for stretch in run["stretches"])
        assert lengths[run["id"]] == pytest.approx(metres)


@pytest.mark.parametrize("house", HOUSES)
def test_no_length_and_no_size_of_a_demo_house_is_unknown(house: str) -> None:
    for row in schedule(answered(house)):
        assert not isinstance(row.length_m, Unknown), row.lead
        assert not any(isinstance(each.size, Unknown) for each in row.conductors), row.lead


@pytest.mark.parametrize("house", HOUSES)
def test_each_end_of_each_conductor_stands_once_on_the_sheets_of_the_places(house: str) -> None:
    answer = answered(house)
    tables = [block for _, block in wires(answer) if block.id.startswith("wiring-")]
    rows = Counter((str(row[1]), str(row[2]), str(row[0])) for table in tables for row in table.rows)
    expected = Counter(
        (core.lead, core.name, str(end) if end else "cut back, insulated")
        for lead in wired(answer.design).leads.values()
        for core in lead.cores
        for end in (core.start, core.end)
    )
    assert rows == expected


@pytest.mark.parametrize("house", HOUSES)
def test_a_short_line_names_every_conductor_of_its_lead(house: str) -> None:
    answer = answered(house)
    lines = [row for table in brief(answer) for row in table.rows]
    for row in schedule(answer):
        said = " ".join(str(line[2]) for line in lines if line[1] == row.lead)
        for conductor in row.conductors:
            assert said.count(conductor.name) >= 1, (row.lead, conductor.name)


@pytest.mark.parametrize("house", HOUSES)
def test_every_reading_of_the_day_has_its_line_on_the_test_sheet(house: str) -> None:
    answer = answered(house)
    table = next(block for _, block in readings(answer))
    expected = Counter(step.id for step in steps(answer.design) for _ in step.readings)
    assert Counter(str(row[0]) for row in table.rows) == expected


def test_a_length_nobody_measured_is_asked_for_and_not_nought() -> None:
    answer = houses.answered({"earth.bonding.B-water.length": houses.REMOVED})
    table = next(block for _, block in wires(answer) if block.id == "cable-schedule")
    assert [row[4] for row in table.rows if row[0] == "B-water"] == ["measure it"]


def test_the_sheets_for_a_dead_phone_have_wiring_steps_and_tests() -> None:
    made = pack(answered("meter-led"), (2026, 5, 31))
    assert [chapter.id for chapter in made.pocket.chapters][-3:] == [
        "sheet-wiring",
        "sheet-steps",
        "sheet-tests",
    ]
    tables = [b for chapter in made.pocket.chapters for b in chapter.blocks if isinstance(b, Table)]
    assert {"brief-board", "brief-wall", "test-sheet"} <= {table.id for table in tables}
    assert made.pocket.band == made.paper.band


def test_safety_and_steps_stand_in_two_languages_side_by_side() -> None:
    answer = answered("changeover-led")
    made = pack(answer, beside="de")
    tables = {table.id: table for table in made.tables}
    rows = tables["steps-de"].rows
    assert [row[0] for row in rows] == [step.id for step in steps(answer.design)]
    assert all(row[1] and row[2] and row[1] != row[2] for row in rows)
    numbers = re.compile(r"\d+(?:[.,]\d+)?")
    for _, english, german, _ in rows:
        assert sorted(numbers.findall(str(english))) == sorted(numbers.findall(str(german)))
    assert "safety-de" in tables
    assert "steps-de" not in {table.id for table in pack(answer).tables}
