"""`ferrule calc`: the answer first, then its working; JSON for programs; mistakes told in words."""

import json
import shlex
from typing import Any

import pytest

from cli.command import Ferrule
from ferrule.calculators import CALCULATORS
from ferrule.cli.calc import example

DROP = ("calc", "voltage-drop", "length=25 m", "size=2.5 mm²", "current=13 A", "phases=1", "voltage=230 V")


@pytest.mark.parametrize("name", CALCULATORS)
def test_every_listed_example_can_be_typed(ferrule: Ferrule, name: str) -> None:
    _, *arguments = shlex.split(example(CALCULATORS[name]))
    ended = ferrule(*arguments)
    assert (ended.code, ended.err) == (0, "")
    result = CALCULATORS[name].outputs[0].key.replace("_", " ")
    assert ended.out.startswith(result)
    assert CALCULATORS[name].source in " ".join(ended.out.split())


def test_the_answer_stands_first_then_how_it_came_about(ferrule: Ferrule) -> None:
    ended = ferrule(*DROP, "power_factor=1")
    lines = ended.out.splitlines()
    assert lines[0] == "drop   5.85 V  line to neutral"
    assert lines[1] == "share  2.55 %  of the nominal voltage"  # 2.543, rounded to the safe side
    assert "Taken for granted: metal = cu, edition = iec-2024." in lines
    assert any("IEC 60364-5-52:2009 annex G; verified" in line for line in lines)
    assert any(line.endswith("= 9 Ω/km") for line in lines)


def test_json_of_a_calculation(ferrule: Ferrule) -> None:
    ended = ferrule(*DROP, "power_factor=1", "--json")
    told: dict[str, Any] = json.loads(ended.out)
    assert list(told) == ["name", "inputs", "results", "working", "source", "grade"]
    assert told["name"] == "voltage-drop"
    assert told["inputs"]["length"] == {"value": 25.0, "unit": "m"}
    assert told["inputs"]["size"] == {"value": "2.5 mm²", "unit": ""}
    assert told["inputs"]["edition"] == {"value": "iec-2024", "unit": ""}
    assert told["results"]["share"] == {"value": pytest.approx(2 * 25 * 0.009 * 13 / 2.3), "unit": "%"}
    assert told["grade"] == "verified"
    assert told["source"][0] == CALCULATORS["voltage-drop"].source
    assert {"table", "keys", "value", "unit", "source", "grade"} == set(told["working"][0])


def test_json_of_a_yes_and_of_nothing(ferrule: Ferrule) -> None:
    told = json.loads(ferrule("calc", "inverter-clearing", "source=80 A", "lasts=100 ms", "--json").out)
    assert told["results"]["type_d"] == {"value": None, "unit": "A"}
    told = json.loads(ferrule("calc", "tt-check", "electrode=45 ohm", "residual=30 mA", "--json").out)
    assert told["results"]["safe"] == {"value": True, "unit": ""}


def test_the_list_tells_inputs_units_ranges_outputs_and_source(ferrule: Ferrule) -> None:
    listed: list[dict[str, Any]] = json.loads(ferrule("calc", "--list", "--json").out)
    assert [each["name"] for each in listed] == list(CALCULATORS)
    drop = next(each for each in listed if each["name"] == "voltage-drop")
    assert {"name", "title", "inputs", "outputs", "source", "example"} == set(drop)
    length = next(each for each in drop["inputs"] if each["key"] == "length")
    assert (length["unit"], length["low"], length["high"], length["required"]) == ("m", 0, 10_000, True)
    metal = next(each for each in drop["inputs"] if each["key"] == "metal")
    assert (metal["words"], metal["required"], metal["default"]) == (["cu", "al"], False, "cu")
    assert [each["unit"] for each in drop["outputs"]] == ["V", "%"]
    shown = ferrule("calc", "--list").out
    assert all(name in shown.splitlines() for name in CALCULATORS)
    assert ferrule("calc", "--list", "tt-check").out.startswith("tt-check\n")


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (("calc",), "'ferrule calc --list' names them"),
        (("calc", "volt-drop"), "did you mean 'voltage-drop'?"),
        (("calc", "tt-check", "electrode=45 ohm", "residual=30 mA", "residual=3 A"), "given twice"),
        (("calc", "tt-check", "electrode=45 ohm", "30 mA"), "'30 mA' is no KEY=VALUE"),
        (("calc", "tt-check", "electrode=45 ohm"), "residual is missing"),
        (("calc", "tt-check", "electrode=45 V", "residual=30 mA"), "mΩ"),
        (("calc", "tt-check", "electrod=45 ohm", "residual=30 mA"), "did you mean 'electrode'?"),
        (("calc", "tt-check", "electrode=45 ohm", "residual=0 A"), "once more"),
        (("calc", "tt-check", "electrode=45 ohm", "residual=30 mA", "edition=us-2023"), "has not got"),
        (("calc", "rcd-limits", "residual=30 mA", "edition=us-2023"), "holds no"),
        (("calc", "rcd-limits", "residual=30 mA", "edition=xx-1900"), "iec-2024"),
    ],
)
def test_mistakes_end_with_2_and_words(ferrule: Ferrule, arguments: tuple[str, ...], told: str) -> None:
    ended = ferrule(*arguments)
    assert ended.code == 2
    assert told in ended.err
    assert ended.out == ""


def test_keys_may_be_written_with_hyphens(ferrule: Ferrule) -> None:
    assert ferrule(*DROP, "power-factor=1").out == ferrule(*DROP, "power_factor=1").out


def test_limits_are_rounded_to_their_safe_side(ferrule: Ferrule) -> None:
    ended = ferrule("calc", "loop-limit", "device=mcb", "rating=16 A", "curve=B", "voltage=230 V")
    assert "2.87 Ω" in ended.out.splitlines()[1]  # 2.875
    assert "1.91 Ω" in ended.out.splitlines()[2]  # 1.9167
