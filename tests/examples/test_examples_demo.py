"""The demo houses are sound; every mistake in their faulty copies is found, and changes nothing else."""

from functools import cache
from typing import Any, get_args

import pytest
import yaml

from ferrule.answering import Answer
from ferrule.cli.main import main
from ferrule.constraint import Verdict
from ferrule.fact import known
from ferrule.job.job import Architecture, Job
from ferrule.job.load import load
from houses import EXAMPLES, REMOVED, answered, loaded

#: the recommendations that each house misses, and says why it may
LOOKS = {
    "meter-led": {
        ("string.hot_voltage", "string/S2"),
        ("circuit.island_fault", "circuit/C-fridge@island"),
        ("circuit.island_fault", "circuit/C-light@island"),
    },
    "controller-led": {("circuit.short_circuit", "circuit/C-light")},
    "changeover-led": {
        ("circuit.island_fault", "circuit/C-cold@island"),
        ("circuit.island_fault", "circuit/C-heating@island"),
        ("circuit.island_fault", "circuit/C-light@island"),
        ("circuit.island_fault", "circuit/C-pump@island"),
    },
}
HOUSES = tuple(LOOKS)


@cache
def mistakes(house: str) -> dict[str, dict[str, Any]]:
    """The mistakes of a house by their ids."""
    listed = yaml.safe_load((EXAMPLES / house / "mistakes.yaml").read_text())["mistakes"]
    by_id = {mistake["id"]: mistake for mistake in listed}
    assert len(by_id) == len(listed)
    return by_id


def edits(mistake: dict[str, Any]) -> dict[str, Any]:
    return {**mistake.get("edits", {}), **dict.fromkeys(mistake.get("remove", []), REMOVED)}


@cache
def result(house: str, mistake: str = "") -> Answer:
    """The answer to a sound house, or to one with a single mistake in it."""
    return answered(edits(mistakes(house)[mistake]) if mistake else {}, house, firm=True)


def verdicts(house: str, mistake: str = "") -> dict[tuple[str, str], str]:
    found = result(house, mistake).findings
    return {(finding.id, str(finding.subject)): finding.verdict.word for finding in found}


EACH = [
    pytest.param(house, mistake, id=f"{house}-{mistake}") for house in HOUSES for mistake in mistakes(house)
]
each_mistake = pytest.mark.parametrize(("house", "mistake"), EACH)
each_house = pytest.mark.parametrize("house", HOUSES)


def test_the_houses_show_every_architecture() -> None:
    shown = {result(house).loaded.job.architecture for house in HOUSES}
    assert shown == set(get_args(Architecture)) == set(HOUSES)


@each_house
def test_a_sound_house_has_only_the_looks_it_explains(house: str) -> None:
    assert {f: v for f, v in verdicts(house).items() if v != "pass"} == dict.fromkeys(LOOKS[house], "caution")


@each_house
def test_a_faulty_house_has_ten_mistakes_or_more(house: str) -> None:
    assert len(mistakes(house)) >= 10


@each_mistake
def test_a_mistake_changes_exactly_what_it_lists(house: str, mistake: str) -> None:
    before, after = verdicts(house), verdicts(house, mistake)
    changed = {
        (*finding, after.get(finding, "gone"))
        for finding in before.keys() | after.keys()
        if before.get(finding) != after.get(finding)
    }
    listed = [tuple(change) for change in mistakes(house)[mistake]["changes"]]
    assert changed == set(listed)
    assert len(set(listed)) == len(listed)
    assert {"fail", "unknown"} & {verdict for _, _, verdict in changed}


@each_mistake
def test_what_fails_names_a_change(house: str, mistake: str) -> None:
    failing = [f for f in result(house, mistake).findings if f.verdict is Verdict.FAIL]
    assert [f"{f.id} {f.subject}" for f in failing if not f.remedies] == []


@each_house
def test_the_faulty_copy_is_the_house_with_every_mistake(house: str) -> None:
    every: dict[str, Any] = {}
    for mistake in mistakes(house).values():
        here = edits(mistake)
        assert not {path for path in here if not path.endswith("+")} & every.keys()
        every |= {
            f"{path}{len(every)}" if path.endswith("+") else path: value for path, value in here.items()
        }
    assert plain(load(EXAMPLES / house / "faulty.yaml").job) == plain(loaded(every, house, firm=True).job)


def plain(job: Job) -> dict[str, Any]:
    """A job's values, with the parts it uses in order, and without the place of the firm's file."""
    values = job.model_dump(exclude={"firm"})
    used = {device.part for device in job.devices} | {string.module for string in job.strings}
    used |= {run.cable for run in job.runs}
    used |= {bus.cable for bus in known(job.buses)} | {known(each.cable) for each in job.contacts}
    used |= {known(board.part) for board in job.boards} | {known(job.earth.cable)}
    values["parts"] = sorted(
        (p for p in values["parts"] if p["id"] in used), key=lambda part: str(part["id"])
    )
    return values


@each_house
def test_the_command_clears_the_sound_house_and_stops_the_faulty_one(
    house: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", str(EXAMPLES / house / "job.yaml")]) in {0, 3}
    assert ": 0 stop, 0 find out" in capsys.readouterr().out
    assert main(["check", str(EXAMPLES / house / "faulty.yaml")]) == 1
    assert "━╱╱ stop" in capsys.readouterr().out
