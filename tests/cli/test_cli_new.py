"""A starter job: it reads, asks for everything, and answers nothing."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from pydantic import BaseModel

from cli.command import Ferrule
from ferrule.answering import answer
from ferrule.constraint import Verdict
from ferrule.fact import Unknown
from ferrule.job.load import Loaded, load
from ferrule.job.starter import ARCHITECTURES, starter


@pytest.fixture(params=ARCHITECTURES)
def architecture(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture
def written(architecture: str, tmp_path: Path) -> Loaded:
    file = tmp_path / "job.yaml"
    file.write_text(starter(architecture), encoding="utf-8")
    return load(file)


def test_there_is_one_for_each_architecture() -> None:
    assert ARCHITECTURES == ("meter-led", "controller-led", "changeover-led")


def test_every_finding_is_unknown_and_says_what_to_find_out(written: Loaded) -> None:
    findings = answer(written).findings
    assert len(findings) > 60
    assert {finding.verdict for finding in findings} == {Verdict.UNKNOWN}
    for finding in findings:
        for constraint in finding.constraints:
            assert (constraint.verdict is Verdict.UNKNOWN) == bool(constraint.find_out)
            assert all(len(ask.split()) > 1 for ask in constraint.find_out)


def test_it_is_checked_and_not_cleared(ferrule: Ferrule, architecture: str, tmp_path: Path) -> None:
    file = tmp_path / "new" / "job.yaml"
    made = ferrule("new", "--architecture", architecture, "-o", file)
    assert (made.code, made.err) == (0, "")
    assert f"ferrule check {file}" in made.out
    assert file.read_text(encoding="utf-8") == starter(architecture)
    ended = ferrule("check", file)
    assert (ended.code, ended.err) == (3, "")
    counts = re.search(r"0 stop, (\d+) find out, 0 look, 0 good\. Exit 3", ended.out)
    assert counts is not None
    assert int(counts[1]) > 60


def test_without_a_file_it_is_printed(ferrule: Ferrule, architecture: str) -> None:
    assert ferrule("new", "--architecture", architecture) == (0, starter(architecture), "")


def test_a_file_that_is_there_stays_as_it_is(ferrule: Ferrule, tmp_path: Path) -> None:
    file = tmp_path / "job.yaml"
    file.write_text("a survey of a whole morning")
    ended = ferrule("new", "--architecture", "meter-led", "-o", file)
    assert ended.code == 2
    assert ended.err == f"{file} exists already and is left as it is; name another file\n"
    assert file.read_text() == "a survey of a whole morning"


def facts(record: BaseModel, path: str = "") -> Iterator[tuple[str, str, Any]]:
    """Every key of every record that stands in a job, with its value and where it is."""
    for name, info in type(record).model_fields.items():
        value, key = getattr(record, name), info.alias or name
        here = f"{path}.{key}".lstrip(".")
        yield here, key, value
        for each in value if isinstance(value, list) else [value]:
            if isinstance(each, BaseModel):
                yield from facts(each, f"{here}.{getattr(each, 'id', '')}".rstrip("."))


#: asked only of what the starters have none of: ties to the wall, motors, chargers, packs side by side,
#: single-phase inverters locked together, supplementary bonding; a CAN bus has no client, parity or bias
ASKED_OF_OTHERS = re.compile(
    r"loads\.(start_multiple|smooth_dc_residual)|BAT\.pack_lead_size|fixing\.ties|phase_locked|B-array\.circuit"
    r"|buses\.CAN\.(client|parity|nodes\.(address|first_core))"
    r"|ports\.BMS\.(role|parities|bias|fail_safe|load|plus|minus)"
)


def test_every_fact_there_is_to_find_out_is_asked_in_the_file(written: Loaded, architecture: str) -> None:
    asked = set(_asked(yaml.safe_load(starter(architecture)), ""))
    missing = {
        re.sub(r"\.\d+", "", path) for path, _, value in facts(written.job) if isinstance(value, Unknown)
    }
    assert [path for path in missing - asked if not ASKED_OF_OTHERS.search(path)] == []


def _asked(node: Any, path: str) -> Iterator[str]:
    if isinstance(node, dict):
        for key, value in node.items():
            yield from _asked(value, f"{path}.{key}".lstrip("."))
    elif isinstance(node, list):
        for each in node:
            name = each.get("id", "") if isinstance(each, dict) else ""
            yield from _asked(each, f"{path}.{name}".rstrip("."))
    elif node == "unknown":
        yield path


def test_nothing_in_it_is_known_but_names_kinds_and_counts(written: Loaded) -> None:
    """What a person must replace is told by `unknown` alone: no made-up figure waits to be forgotten."""
    quantities = {
        path: value
        for path, _, value in facts(written.job)
        if isinstance(value, float) and not isinstance(value, bool)
    }
    left = {path for path in quantities if not re.search(r"supply\.live|power_factor|rear_gain|line\.", path)}
    assert left == set()


def test_a_fact_filled_in_answers_what_it_was_asked_for(tmp_path: Path) -> None:
    text = starter("meter-led")
    for key, value in {
        "building": "dwelling", "coldest": "-14 °C", "technology": "mono", "voc": "38.9 V",
        "voc_coefficient": "-0.26 %/K", "system_voltage_max": "1500 V", "connector_voltage_max": "1500 V",
        "voltage_max": "600 V",
    }.items():  # fmt: skip
        text, filled = re.subn(rf"(?m)^( +{key}:) unknown\b", rf"\1 {value}", text)
        assert filled >= 1
    file = tmp_path / "job.yaml"
    file.write_text(text, encoding="utf-8")
    found = {(each.id, str(each.subject)): each for each in answer(load(file)).findings}
    asks = [ask for each in found["string.cold_voltage", "string/S1"].constraints for ask in each.find_out]
    assert [ask for ask in asks if "voltage" in ask or "temperature" in ask] == []
