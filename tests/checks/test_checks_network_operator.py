"""What the network operator allows: export and unbalance."""

from pathlib import Path
from typing import Any

import pytest
import yaml

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from houses import EXAMPLES, REMOVED, answered, constraint, finding

SINGLE = "parts.example-hybrid-6k-single"


def asked(
    question: str, edits: dict[str, Any], house: str = "meter-led", of: str = "supply/supply"
) -> Finding:
    return finding(answered(edits, house), question, of)


def ids(edits: dict[str, Any], house: str = "meter-led") -> set[str]:
    return {f.id for f in answered(edits, house).findings}


def part(name: str) -> dict[str, Any]:
    found: dict[str, Any] = yaml.safe_load(Path(EXAMPLES, "parts", f"{name}.yaml").read_text())["part"]
    return found


@pytest.mark.parametrize("allowed", ["6 kW", "7 kW"])
def test_inverters_within_the_permitted_export(allowed: str) -> None:
    found = asked("supply.export", {"supply.utility.export_max": allowed})
    assert constraint(found, "export").value == 6000
    assert found.verdict is Verdict.PASS


def test_more_than_permitted_is_held_back_by_the_meter() -> None:
    """The demo house: 6 kW on the wall, 5 kW permitted, a meter behind the main fuse."""
    found = asked("supply.export", {})
    assert found.verdict is Verdict.PASS
    assert dict(constraint(found, "export").words)["meter"] == "EM"


def test_more_than_permitted_with_nothing_that_measures_fails() -> None:
    edits = {
        "devices.EM": REMOVED,
        "buses": [],
        "runs.R-tails.to": "MB",
        "runs.R-main": REMOVED,
        "supply.utility.export_max": "5 kW",
    }
    assert asked("supply.export", edits, "changeover-led").verdict is Verdict.FAIL


def test_a_meter_that_the_inverters_power_does_not_pass_holds_nothing_back() -> None:
    beside = {"runs.R-tails.to": "MB", "runs.R-main.from": "MB", "runs.R-main.to": "EM"}
    assert asked("supply.export", beside).verdict is Verdict.FAIL


def test_all_inverters_count_and_a_controller_holds_them_back() -> None:
    found = asked("supply.export", {"supply.utility.export_max": "19.9 kW"}, "controller-led")
    assert dict(constraint(found, "export").words)["meter"] == "SC"
    assert constraint(asked("supply.export", {}, "controller-led"), "export").value == 20_000


def test_export_unknown_and_unlimited() -> None:
    assert asked("supply.export", {"supply.utility.export_max": REMOVED}).verdict is Verdict.UNKNOWN
    assert asked("supply.export", {f"{SINGLE}.grid.power": REMOVED}).verdict is Verdict.UNKNOWN
    assert "supply.export" not in ids({"supply.utility.export_max": "none"})


def test_one_phase_cannot_be_unbalanced() -> None:
    assert "supply.unbalance" not in ids({"supply.utility.unbalance_max": REMOVED})


def one_phase_in_the_garage(line: str = "L2") -> dict[str, Any]:
    return {
        "parts.+": part("example-hybrid-6k-single"),
        "devices.INV2.part": "example-hybrid-6k-single",
        "boards.GB.circuits.C-INV2.phases": [line],
    }


@pytest.mark.parametrize(("limit", "verdict"), [("6279 VA", Verdict.PASS), ("6278 VA", Verdict.FAIL)])
def test_an_inverter_of_one_phase_is_all_unbalance(limit: str, verdict: Verdict) -> None:
    """27.3 A at 230 V."""
    edits = {**one_phase_in_the_garage(), "supply.utility.unbalance_max": limit}
    found = constraint(asked("supply.unbalance", edits, "controller-led"), "unbalance_fed_in")
    assert found.value == pytest.approx(6279)
    assert found.verdict is verdict


def three_of_one_phase(*locked: Any) -> dict[str, Any]:
    """Three single-phase inverters in the garage, one on each line."""
    edits: dict[str, Any] = {
        "parts.+": part("example-hybrid-6k-single"),
        "devices.+": {"id": "INV3", "kind": "inverter", "part": "example-hybrid-6k-single"},
        "runs.+": {
            "id": "R-INV3", "from": "GB", "to": "INV3.grid", "cable": "pvc-multicore", "size": "6 mm²",
            "stretches": [{"length": "5 m", "method": "C", "ambient": "30 °C", "circuits": 1}],
        },
        "boards.GB.circuits.+": {"id": "C-INV3", "run": "R-INV3", "phases": ["L3"]},
        "supply.utility.unbalance_max": "4.6 kVA",
    }  # fmt: skip
    for at, says in enumerate(locked, start=1):
        edits[f"devices.INV{at}.part"] = "example-hybrid-6k-single"
        if says is not None:
            edits[f"devices.INV{at}.phase_locked"] = says
        if at < 3:
            edits[f"boards.GB.circuits.C-INV{at}.phases"] = [f"L{at}"]
    return edits


@pytest.mark.parametrize(
    ("locked", "verdict"),
    [
        ((True, True, True), Verdict.PASS),
        ((True, True, False), Verdict.FAIL),
        ((False, False, False), Verdict.FAIL),
        ((True, True, None), Verdict.UNKNOWN),
        ((True, False, None), Verdict.FAIL),
    ],
)
def test_inverters_locked_to_three_phases_run_and_stop_together(locked: Any, verdict: Verdict) -> None:
    found = asked("supply.unbalance", three_of_one_phase(*locked), "controller-led")
    assert constraint(found, "unbalance_fed_in").verdict is verdict


def test_three_phase_inverters_are_balanced_and_loads_are_not() -> None:
    """2.5 kW of sockets on L1, nothing of one phase elsewhere."""
    found = asked("supply.unbalance", {}, "controller-led")
    assert constraint(found, "unbalance_fed_in").value == 0
    assert constraint(found, "unbalance_drawn").value == pytest.approx(2500)
    loaded = asked(
        "supply.unbalance", {"boards.MB.circuits.C-kitchen.loads.0.power": "4.7 kW"}, "controller-led"
    )
    assert loaded.verdict is Verdict.CAUTION


def test_unbalance_unknown_and_unlimited() -> None:
    limit = "supply.utility.unbalance_max"
    assert asked("supply.unbalance", {limit: REMOVED}, "controller-led").verdict is Verdict.UNKNOWN
    assert "supply.unbalance" not in ids({limit: "none"}, "controller-led")
    edits = {"boards.MB.circuits.C-kitchen.loads.0": {"name": "stove", "kind": "resistive"}}
    found = asked("supply.unbalance", edits, "controller-led")
    assert constraint(found, "unbalance_drawn").verdict is Verdict.UNKNOWN
