"""What the operator allows; what main fuse, meter and boards bear."""

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


# Export


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
    edits = {"devices.EM": REMOVED, "runs.R-tails.to": "MB", "runs.R-main": REMOVED}
    assert asked("supply.export", edits).verdict is Verdict.FAIL


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


# Unbalance


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


# Main fuse


@pytest.mark.parametrize(("rating", "verdict"), [("32 A", Verdict.PASS), ("31 A", Verdict.FAIL)])
def test_what_is_fed_in_never_rests(rating: str, verdict: Verdict) -> None:
    """Two inverters of 16 A in each line."""
    edits = {"supply.main_fuse.rating": rating}
    found = constraint(asked("supply.main_fuse", edits, "controller-led"), "fed_in")
    assert found.value == 32
    assert found.verdict is verdict


def test_everything_on_at_once_is_only_a_look() -> None:
    """2.3 kW more on a circuit of L1 are 10 A more from that line."""
    power = "boards.MB.circuits.C-kitchen.loads.0.power"
    less, more = (
        constraint(asked("supply.main_fuse", {power: watts}, "controller-led"), "drawn")
        for watts in ("2.5 kW", "4.8 kW")
    )
    assert (more.value or 0) - (less.value or 0) == pytest.approx(10)
    small = asked("supply.main_fuse", {"supply.main_fuse.rating": "25 A"}, "controller-led")
    assert constraint(small, "drawn").verdict is Verdict.CAUTION


@pytest.mark.parametrize(("demand", "verdict"), [("63 A", Verdict.PASS), ("64 A", Verdict.FAIL)])
def test_a_demand_that_somebody_reckoned_counts(demand: str, verdict: Verdict) -> None:
    found = constraint(asked("supply.main_fuse", {"supply.demand_max": demand}), "drawn")
    assert found.verdict is verdict


@pytest.mark.parametrize(
    ("edits", "verdict"),
    [
        ({"parts.example-meter-direct.current_max": "63 A"}, Verdict.PASS),
        ({"parts.example-meter-direct.current_max": "60 A"}, Verdict.FAIL),
        ({"parts.example-meter-direct.current_max": REMOVED}, Verdict.UNKNOWN),
        ({"parts.example-meter-direct.connection": REMOVED}, Verdict.UNKNOWN),
    ],
)
def test_a_direct_meter_carries_what_the_main_fuse_lets_through(
    edits: dict[str, Any], verdict: Verdict
) -> None:
    assert constraint(asked("supply.main_fuse", edits), "meter").verdict is verdict


def test_a_meter_with_transformers_carries_nothing() -> None:
    found = asked("supply.main_fuse", {"parts.example-meter-direct.connection": "transformer"})
    assert "meter" not in {c.name for c in found.constraints}


def test_a_main_fuse_nobody_has_read() -> None:
    assert asked("supply.main_fuse", {"supply.main_fuse": REMOVED}).verdict is Verdict.UNKNOWN


# Boards


@pytest.mark.parametrize(("rating", "verdict"), [("90.3 A", Verdict.PASS), ("90.2 A", Verdict.FAIL)])
def test_busbars_carry_both_sources_at_once(rating: str, verdict: Verdict) -> None:
    """63 A of the main fuse and 27.3 A of the inverter."""
    found = constraint(asked("board.ratings", {"boards.MB.rating": rating}, of="board/MB"), "busbar")
    assert found.value == pytest.approx(90.3)
    assert found.verdict is verdict


def test_busbars_of_a_board_without_a_source_are_not_asked() -> None:
    found = asked("board.ratings", {}, of="board/BB")
    assert [c.name for c in found.constraints] == ["order"]
    assert asked("board.ratings", {"boards.MB.rating": REMOVED}, of="board/MB").verdict is Verdict.UNKNOWN


def test_a_sub_board_is_fed_by_its_own_feeder() -> None:
    """40 A before the garage and twice 16 A in it."""
    edits = {"boards.MB.circuits.C-garage.device.rating": "40 A"}
    found = constraint(asked("board.ratings", edits, "controller-led", "board/GB"), "busbar")
    assert found.value == pytest.approx(72)


@pytest.mark.parametrize(("rating", "verdict"), [("63 A", Verdict.PASS), ("40 A", Verdict.FAIL)])
def test_a_boards_rcd_carries_what_feeds_the_board(rating: str, verdict: Verdict) -> None:
    rcd = {"type": "A", "residual": "300 mA", "rating": rating, "direction": "both", "all_poles": True}
    found = asked("board.ratings", {"boards.MB.rcd": rcd}, of="board/MB")
    assert constraint(found, "board_rcd").verdict is verdict


@pytest.mark.parametrize(("rating", "verdict"), [("32 A", Verdict.PASS), ("40 A", Verdict.CAUTION)])
def test_a_device_should_not_be_larger_than_the_one_before_it(rating: str, verdict: Verdict) -> None:
    edits = {
        "boards.MB.circuits.C-inverter.device.rating": "32 A",
        "boards.BB.circuits.C-fridge.device.rating": rating,
    }
    assert constraint(asked("board.ratings", edits, of="board/BB"), "order").verdict is verdict
