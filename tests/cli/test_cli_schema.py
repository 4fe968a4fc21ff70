"""The JSON Schema for editors: valid itself, takes whatever the reader takes, and marks what it refuses."""

import json
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator
from ruamel.yaml import YAML

from cli.command import Ferrule
from ferrule.cli.schema import schema
from ferrule.job.starter import ARCHITECTURES, starter
from houses import EXAMPLES

JOBS = sorted(path for path in EXAMPLES.glob("*/*.yaml") if "architecture:" in path.read_text())
PARTS = sorted(EXAMPLES.glob("parts/*.yaml"))


@pytest.fixture(scope="module")
def validators() -> dict[str, Draft202012Validator]:
    return {file: Draft202012Validator(schema(file)) for file in ("job", "part", "firm")}


def as_editors_see(text: str) -> list[Any]:
    """The text by YAML 1.1, where yes is true, and by YAML 1.2, where it is a word."""
    return [yaml.safe_load(text), YAML(typ="safe", pure=True).load(text)]


def mistakes(validator: Draft202012Validator, text: str) -> list[str]:
    return [
        f"{'.'.join(map(str, error.absolute_path))}: {error.message[:200]}"
        for seen in as_editors_see(text)
        for error in validator.iter_errors(seen)
    ]


def test_the_two_versions_of_yaml_differ() -> None:
    assert as_editors_see("dc_switch: yes") == [{"dc_switch": True}, {"dc_switch": "yes"}]


@pytest.mark.parametrize("file", ["job", "part", "firm"])
def test_the_command_prints_a_valid_schema(ferrule: Ferrule, file: str) -> None:
    ended = ferrule("schema", file)
    assert (ended.code, ended.err) == (0, "")
    printed = json.loads(ended.out)
    assert printed == schema(file)
    assert printed["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    Draft202012Validator.check_schema(printed)


def test_the_job_is_printed_unless_another_is_asked_for(ferrule: Ferrule) -> None:
    assert ferrule("schema").out == ferrule("schema", "job").out


@pytest.mark.parametrize("path", JOBS, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_it_takes_the_demo_jobs(validators: dict[str, Draft202012Validator], path: Path) -> None:
    assert mistakes(validators["job"], path.read_text()) == []


@pytest.mark.parametrize("path", PARTS, ids=lambda path: path.stem)
def test_it_takes_the_demo_parts(validators: dict[str, Draft202012Validator], path: Path) -> None:
    assert mistakes(validators["part"], path.read_text()) == []


def test_it_takes_the_demo_firm(validators: dict[str, Draft202012Validator]) -> None:
    assert mistakes(validators["firm"], (EXAMPLES / "firm.yaml").read_text()) == []


@pytest.mark.parametrize("architecture", ARCHITECTURES)
def test_it_takes_the_starters(validators: dict[str, Draft202012Validator], architecture: str) -> None:
    assert mistakes(validators["job"], starter(architecture)) == []


ALTITUDE = "  altitude: 310 m\n"


@pytest.mark.parametrize(
    "written",
    [
        "  altitude: 98 ft\n",
        "  altitude: {value: 310 m, from: map}\n",
        "  altitude: {value: 310 m, from: map, note: sheet 12}\n",
        '  altitude: {unknown: "read it off the map"}\n',
        "  altitude: unknown\n",
        "  altitude:\n",
        "",
    ],
)
def test_a_fact_may_be_written_in_every_way(
    validators: dict[str, Draft202012Validator], written: str
) -> None:
    text = JOB.replace(ALTITUDE, written)
    assert (text != JOB) or written == ALTITUDE
    assert mistakes(validators["job"], text) == []


@pytest.mark.parametrize(
    ("right", "written"),
    [
        ("device: {", "device: {breaking_capacity: open, "),
        ("modules: 12,", "modules: {value: 12, from: counted on the roof},"),
        ("    tilt: 38°\n", "    tilt: 38\n"),
        ("name: Plum Cottage, 4 Lark Lane", "name: 1701"),
    ],
)
def test_other_values_too(validators: dict[str, Draft202012Validator], right: str, written: str) -> None:
    assert right in JOB
    assert mistakes(validators["job"], JOB.replace(right, written)) == []


@pytest.mark.parametrize(
    ("right", "wrong"),
    [
        (ALTITUDE, "  altitud: 310 m\n"),
        (ALTITUDE, "  altitude: [310 m]\n"),
        (ALTITUDE, "  altitude: {value: 310 m, form: map}\n"),
        (ALTITUDE, "  altitude: {unknown: x, from: map}\n"),
        ("architecture: meter-led", "architecture: meterled"),
        ("ferrule: 1", "ferrule: 2"),
        ("earthing: TN-C-S", "earthing: TNCS"),
        ("kind: battery", "kind: batery"),
        ("modules: 12,", "modules: twelve,"),
        ("modules: 12,", "modules: 0,"),
        ("name: Plum Cottage, 4 Lark Lane\n", ""),
    ],
)
def test_it_marks_what_the_reader_refuses(
    validators: dict[str, Draft202012Validator], right: str, wrong: str
) -> None:
    assert right in JOB
    assert len(mistakes(validators["job"], JOB.replace(right, wrong, 1))) >= 2  # by either version of YAML


JOB = (EXAMPLES / "meter-led" / "job.yaml").read_text()


def records(made: dict[str, Any]) -> dict[str, Any]:
    return {made["title"]: made, **made["$defs"]}


@pytest.mark.parametrize("file", ["job", "part", "firm"])
def test_every_record_and_every_key_says_what_it_is(file: str) -> None:
    """Only a key that takes another record, a list, or one of a few words may leave it at that."""
    for name, record in records(schema(file)).items():
        assert record["description"], name
        assert record["additionalProperties"] is False, name
        for key, value in record["properties"].items():
            told = str(value)
            assert any(word in told for word in ("description", "$ref", "enum", "array")), f"{name}.{key}"


def test_a_quantity_tells_its_units_and_range() -> None:
    site = records(schema("job"))["Site"]["properties"]["altitude"]
    assert site["description"] == "altitude of the site"
    assert (
        "a number with one of the units m, mm, cm, km, ft, in, not below -430 and not above 6,000 m"
        in str(site)
    )
