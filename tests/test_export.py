"""The answer as plain data: every key, its type, and values as they were calculated."""

import json
import math
from typing import Any

import pytest

import houses
from ferrule import __version__, display, export
from ferrule.answering import Answer
from ferrule.constraint import Verdict
from ferrule.grade import Grade
from ferrule.rules import load

HOUSES = ["meter-led", "controller-led", "changeover-led"]
SPOILED: dict[str, dict[str, Any]] = {
    "meter-led": {
        "strings.S1.modules": 20,
        "runs.R-inverter.size": "1.5 mm²",
        "parts.example-lfp-10k.voltage_high": houses.REMOVED,
    },
    "controller-led": {"site.coldest": {"unknown": "ask the weather service"}},
    "changeover-led": {"strings.S1.modules": 1},
}

NUMBER = (int, float, type(None))
FINDING: dict[str, Any] = {
    "id": str, "subject": str, "place": str, "verdict": str, "value": NUMBER, "unit": str, "limit": NUMBER,
    "margin": NUMBER, "governed_by": str, "constraints": list, "grade": (str, type(None)), "source": list,
    "working": list, "remedy": list,
}  # fmt: skip
CONSTRAINT: dict[str, Any] = {
    "name": str, "verdict": str, "text": str, "value": NUMBER, "limit": NUMBER, "unit": str,
    "margin": NUMBER, "find_out": list, "also": list,
}  # fmt: skip
CHOICE: dict[str, Any] = {
    "decides": str, "of": str, "value": str, "path": str, "governed_by": (str, type(None)), "lacked": list,
    "carried": bool, "passes": bool,
}  # fmt: skip
LACKED: dict[str, Any] = {"value": str, "finding": str, "subject": str, "constraint": str, "text": str}
REMEDY: dict[str, Any] = {"text": str, "path": str, "value": str}
ASSUMPTION: dict[str, Any] = {"path": str, "text": str}
PLAIN = (int, float, str, bool, type(None))
STEPS: dict[str, dict[str, Any]] = {
    "given": {"given": str, "value": PLAIN, "origin": str},
    "table": {
        "table": str, "keys": list, "value": (int, float, str), "unit": str, "source": str, "grade": str,
    },
    "calculated": {"calculated": str, "formula": str, "inputs": dict, "value": PLAIN, "unit": str},
}  # fmt: skip

ANSWERS = [*((house, None) for house in HOUSES), *SPOILED.items()]


@pytest.fixture(scope="module", params=ANSWERS, ids=lambda each: f"{each[0]}{' spoiled' if each[1] else ''}")
def result(request: pytest.FixtureRequest) -> Answer:
    house, edits = request.param
    return houses.answered(edits, house)


@pytest.fixture(scope="module")
def told(result: Answer) -> dict[str, Any]:
    """The answer as another program gets it; `allow_nan` is off, since JSON has no word for infinity."""
    text = json.dumps(export.answer(result), ensure_ascii=False, allow_nan=False)
    parsed: dict[str, Any] = json.loads(text)
    return parsed


def fits(given: dict[str, Any], wanted: dict[str, Any]) -> None:
    assert list(given) == list(wanted)
    for key, kind in wanted.items():
        assert isinstance(given[key], kind), key
        assert kind is not NUMBER or not isinstance(given[key], bool), key


def test_the_answer_has_exactly_these_keys(told: dict[str, Any], result: Answer) -> None:
    assert list(told) == [
        "job", "revision", "rulebook", "rulebook_digest", "version", "cleared", "assumptions", "choices",
        "findings",
    ]  # fmt: skip
    assert told["job"] == result.loaded.job.name
    assert told["revision"] == result.loaded.revision
    assert len(told["revision"]) == 64
    assert told["rulebook"] == "iec-2024"
    assert told["rulebook_digest"] == load("iec-2024").digest
    assert told["version"] == __version__
    assert told["cleared"] is result.cleared
    for assumption in told["assumptions"]:
        fits(assumption, ASSUMPTION)


def test_each_finding_has_exactly_these_keys(told: dict[str, Any]) -> None:
    assert len(told["findings"]) > 10
    for finding in told["findings"]:
        fits(finding, FINDING)
        assert finding["verdict"] in {verdict.word for verdict in Verdict}
        assert finding["grade"] in {None, *(grade.word for grade in Grade)}
        assert all(isinstance(source, str) for source in finding["source"])
        assert len(finding["constraints"]) >= 1
        for constraint in finding["constraints"]:
            fits(constraint, CONSTRAINT)
            assert all(isinstance(ask, str) and ask for ask in constraint["find_out"])
            assert (constraint["verdict"] == "unknown") == bool(constraint["find_out"])
        for remedy in finding["remedy"]:
            fits(remedy, REMEDY)
        for step in finding["working"]:
            fits(step, STEPS[next(key for key in STEPS if key in step)])
            for value in step.get("inputs", {}).values():
                assert isinstance(value, PLAIN)


def test_each_choice_has_exactly_these_keys(told: dict[str, Any]) -> None:
    for choice in told["choices"]:
        fits(choice, CHOICE)
        for lacked in choice["lacked"]:
            fits(lacked, LACKED)
        assert (choice["governed_by"] is None) == (not choice["lacked"])
        if choice["governed_by"]:
            last = choice["lacked"][-1]
            assert choice["governed_by"] == f"{last['finding']} {last['subject']} {last['constraint']}"


def test_a_finding_is_told_by_what_governs_it(told: dict[str, Any]) -> None:
    for finding in told["findings"]:
        governing = [each for each in finding["constraints"] if each["name"] == finding["governed_by"]]
        figures = {key: finding[key] for key in ("verdict", "value", "limit", "unit", "margin")}
        assert figures in [{key: each[key] for key in figures} for each in governing]


def test_each_question_is_answered_once_for_each_subject(told: dict[str, Any]) -> None:
    keys = [(finding["id"], finding["subject"]) for finding in told["findings"]]
    assert len(set(keys)) == len(keys)


def test_the_spoiled_houses_show_every_verdict_and_remedy() -> None:
    found = [
        finding
        for house, edits in SPOILED.items()
        for finding in export.answer(houses.answered(edits, house))["findings"]
    ]
    assert {finding["verdict"] for finding in found} == {"pass", "caution", "unknown", "fail"}
    assert any(remedy["path"] and remedy["value"] for finding in found for remedy in finding["remedy"])


def test_values_are_not_rounded() -> None:
    """12 modules of 38.9 V with −0.26 %/K at −16 °C, by hand: 12 × 38.9 × (1 + 0.0026 × 41)."""
    (finding,) = [
        each
        for each in export.answer(houses.answered())["findings"]
        if (each["id"], each["subject"]) == ("string.cold_voltage", "string/S1")
    ]
    assert math.isclose(finding["value"], 12 * 38.9 * (1 + 0.0026 * 41), rel_tol=1e-12)
    assert finding["limit"] == 600
    assert math.isclose(finding["margin"], (600 - finding["value"]) / 600, rel_tol=1e-12)
    assert finding["unit"] == "V"
    assert display.quantity(finding["value"], "V") == "517 V"


def test_what_one_missing_fact_holds_up_is_told_once() -> None:
    answer = export.answer(houses.answered({"devices.INV1.at": houses.REMOVED}))
    room = next(f for f in answer["findings"] if (f["id"], f["subject"]) == ("device.room", "inverter/INV1"))
    (only,) = room["constraints"]
    assert only["verdict"] == "unknown"
    assert {"nothing_in_the_way", "air_above", "air_front"} < set(only["also"])
