"""Neutral and protective conductors, given and chosen, through the demo houses."""

from typing import Any

import pytest

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from ferrule.design import Decided
from houses import REMOVED, answered, constraint, finding

LEAKAGE = "parts.example-hybrid-6k-single.leakage_max"


def asked(question: str, of: str, edits: dict[str, Any] | None = None, house: str = "meter-led") -> Finding:
    return finding(answered(edits, house), question, of)


@pytest.mark.parametrize(
    ("neutral", "verdict"), [("1.5 mm²", Verdict.FAIL), ("2.5 mm²", Verdict.PASS), ("4 mm²", Verdict.PASS)]
)
def test_the_neutral_is_as_thick_as_its_line(neutral: str, verdict: Verdict) -> None:
    found = asked("circuit.neutral", "circuit/C-fridge", {"runs.R-fridge.neutral": neutral})
    assert found.verdict is verdict


def test_a_protective_conductor_thinner_than_its_line_rests_on_a_calculation() -> None:
    """2.2 kA at the board: at most 15,000 A²s of class 3, and 1 mm² bears 13,225, 1.5 mm² 29,756."""
    for protective, verdict in (
        ("2.5 mm²", Verdict.PASS), ("1.5 mm²", Verdict.CAUTION), ("1 mm²", Verdict.FAIL),
    ):  # fmt: skip
        found = asked("circuit.protective", "circuit/C-fridge", {"runs.R-fridge.protective": protective})
        assert constraint(found, "protective").verdict is verdict


def test_the_other_cores_of_an_open_cable_follow_its_lines() -> None:
    result = answered()
    line = result.design.size("R-inverter")
    assert result.design.choices[Decided("neutral", "R-inverter")] == line
    assert result.design.choices[Decided("protective", "R-inverter")] == line
    for question in ("circuit.neutral", "circuit.protective"):
        assert finding(result, question, "circuit/C-inverter").verdict is Verdict.PASS


def test_above_16_mm2_the_protective_conductor_may_be_thinner() -> None:
    result = answered({"runs.R-inverter.size": "25 mm²"})
    assert str(result.design.protective("R-inverter")) == "16 mm²"
    assert str(result.design.neutral("R-inverter")) == "25 mm²"


@pytest.mark.parametrize(
    ("leakage", "protective", "verdict"),
    [("10 mA", "6 mm²", None), ("11 mA", "6 mm²", Verdict.FAIL), ("11 mA", "10 mm²", Verdict.PASS)],
)
def test_an_inverter_that_leaks_all_the_time(leakage: str, protective: str, verdict: Verdict | None) -> None:
    edits = {LEAKAGE: leakage, "runs.R-inverter.size": "6 mm²", "runs.R-inverter.protective": protective}
    found = asked("circuit.protective", "circuit/C-inverter", edits)
    judged = [c.verdict for c in found.constraints if c.name == "reinforced"]
    assert judged == ([] if verdict is None else [verdict])


def test_a_second_protective_conductor_does_as_well() -> None:
    edits = {LEAKAGE: "11 mA", "runs.R-inverter.size": "6 mm²", "runs.R-inverter.protective": "6 mm²"}
    found = asked("circuit.protective", "circuit/C-inverter", edits)
    assert any("second protective conductor" in remedy.text for remedy in found.remedies)
    doubled = {**edits, "runs.R-inverter.second_protective": True}
    assert asked("circuit.protective", "circuit/C-inverter", doubled).verdict is Verdict.PASS


def test_a_feeder_carries_the_leakage_of_all_inverters_behind_it() -> None:
    found = constraint(asked("circuit.protective", "circuit/C-garage", house="controller-led"), "reinforced")
    assert dict(found.words)["leakage_a"] == pytest.approx(0.018)


def test_leakage_nobody_knows_is_asked() -> None:
    found = asked("circuit.protective", "circuit/C-inverter", {LEAKAGE: REMOVED})
    assert constraint(found, "reinforced").verdict is Verdict.UNKNOWN


def test_beside_single_conductors_the_protective_one_must_last_by_itself() -> None:
    edits = {
        "runs.R-light.cable": "pvc-single",
        "runs.R-light.stretches.0.method": "B1",
        "parts.+": {
            "id": "pvc-single", "kind": "cable", "name": "PVC single-core", "source": "trade type",
            "insulation": "pvc", "strands": "class2", "build": "single-core",
        },
    }  # fmt: skip
    found = asked("circuit.protective", "circuit/C-light", edits)
    assert constraint(found, "separate").verdict is Verdict.FAIL  # 1.5 mm², and 2.5 mm² are needed
    assert "separate" not in {c.name for c in asked("circuit.protective", "circuit/C-light").constraints}
