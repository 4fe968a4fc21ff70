"""Breaking capacity, and what cables bear in a short circuit, through the demo houses."""

import math
from typing import Any

import pytest

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from ferrule.design import Decided
from houses import REMOVED, answered, constraint, finding

SINGLE = "parts.example-hybrid-6k-single"
LIGHT = "boards.BB.circuits.C-light.device"


def asked(question: str, of: str, edits: dict[str, Any] | None = None, house: str = "meter-led") -> Finding:
    return finding(answered(edits, house), question, of)


# Breaking capacity


def test_at_the_main_board_the_supplys_fault_current_less_its_tails_and_more_by_the_inverter() -> None:
    """4.2 kA at 253 V, behind 3 m of 16 mm² (1.15 Ω/km) out and back, and 1.2 times 27.3 A."""
    supply_ohm, tails_ohm = 253 / 4200, 2 * 0.003 * 1.15
    expected = 253 / math.hypot(supply_ohm, tails_ohm) + 1.2 * 27.3
    found = constraint(asked("circuit.breaking_capacity", "circuit/C-inverter"), "breaking_capacity")
    assert found.limit == pytest.approx(expected)


@pytest.mark.parametrize(
    ("breaks", "verdict"), [("3 kA", Verdict.FAIL), ("4.5 kA", Verdict.PASS), ("6 kA", Verdict.PASS)]
)
def test_the_device_breaks_the_fault_at_its_place(breaks: str, verdict: Verdict) -> None:
    edits = {"boards.MB.circuits.C-inverter.device.breaking_capacity": breaks}
    assert asked("circuit.breaking_capacity", "circuit/C-inverter", edits).verdict is verdict


def test_the_smallest_sufficient_breaking_capacity_is_chosen() -> None:
    design = answered().design
    assert design.choices[Decided("breaking_capacity", "C-inverter")] == 4500
    assert design.choices[Decided("breaking_capacity", "C-light")] == 3000  # behind 23 m of cable
    assert answered(house="controller-led").design.choices[Decided("breaking_capacity", "C-garage")] == 50_000


def test_in_island_mode_what_the_inverter_gives_is_broken_too() -> None:
    found = asked("circuit.breaking_capacity", "circuit/C-light")
    assert constraint(found, "breaking_capacity_in_island").limit == 45
    unknown = asked(
        "circuit.breaking_capacity", "circuit/C-light", {f"{SINGLE}.backup.short_circuit": REMOVED}
    )
    assert constraint(unknown, "breaking_capacity_in_island").verdict is Verdict.UNKNOWN


def test_a_circuit_that_is_dead_in_an_outage_is_not_asked_about_it() -> None:
    found = asked("circuit.breaking_capacity", "circuit/C-inverter")
    assert [c.name for c in found.constraints] == ["breaking_capacity"]


def test_an_unknown_fault_current_leaves_the_choice_open() -> None:
    result = answered({"supply.fault_current_max": REMOVED})
    found = finding(result, "circuit.breaking_capacity", "circuit/C-inverter")
    assert found.verdict is Verdict.UNKNOWN
    assert "fault current" in found.constraints[0].find_out[0]
    assert Decided("breaking_capacity", "C-inverter") not in result.design.choices


# What cables bear


@pytest.mark.parametrize(
    ("given", "verdict"), [("29756 A²s", Verdict.PASS), ("29757 A²s", Verdict.FAIL), (REMOVED, Verdict.PASS)]
)
def test_the_line_bears_what_the_maker_says_is_let_through(given: object, verdict: Verdict) -> None:
    edits = {} if given is REMOVED else {f"{LIGHT}.let_through": given}
    found = asked("circuit.short_circuit", "circuit/C-light", edits)
    assert constraint(found, "line_withstand").verdict is verdict


def test_that_breakers_are_of_class_3_is_told_among_the_assumptions() -> None:
    assert any("energy limiting class 3" in each.text for each in answered().assumptions)


def test_a_breaker_of_another_class_needs_its_makers_figure() -> None:
    found = asked("circuit.short_circuit", "circuit/C-light", {f"{LIGHT}.energy_class": "1"})
    assert found.verdict is Verdict.UNKNOWN
    assert constraint(found, "line_withstand").find_out == (
        "let-through energy of the device at its fault current, from its maker",
    )


def test_close_to_a_strong_supply_the_class_alone_does_not_show_it_for_the_thinnest_cable() -> None:
    """A B10 of class 3 may let 35,000 A²s through at 5 kA; 1.5 mm² bears 29,756."""
    edits: dict[str, Any] = {
        "boards.MB.circuits.C-kitchen.device.rating": "10 A",
        "runs.R-kitchen.size": "1.5 mm²",
        "runs.R-kitchen.neutral": "1.5 mm²",
        "boards.MB.circuits.C-kitchen.loads.0.power": "2 kW",
    }
    found = asked("circuit.short_circuit", "circuit/C-kitchen", edits, "controller-led")
    assert constraint(found, "line_withstand").verdict is Verdict.PASS
    assert constraint(found, "line_class").verdict is Verdict.CAUTION
    assert any("from its maker" in remedy.text for remedy in found.remedies)


def test_a_thinner_neutral_is_judged_by_itself() -> None:
    edits = {"runs.R-light.neutral": "1 mm²"}
    names = [c.name for c in asked("circuit.short_circuit", "circuit/C-light", edits).constraints]
    assert "neutral_withstand" in names


def test_main_conductors_are_protected_by_the_main_fuse() -> None:
    """320 A for 5 s of a 63 A fuse: 512,000 A²s; 16 mm² bears 3,385,600 and 6 mm² 476,100."""
    found = constraint(asked("run.short_circuit", "run/R-tails"), "line_withstand")
    assert (found.value, found.limit, found.verdict) == (512_000, 3_385_600, Verdict.PASS)
    thin = asked("run.short_circuit", "run/R-tails", {"runs.R-tails.size": "6 mm²"})
    assert constraint(thin, "line_withstand").verdict is Verdict.FAIL


@pytest.mark.parametrize(
    ("length", "verdict"), [("22 m", Verdict.PASS), ("110 m", Verdict.PASS), ("150 m", Verdict.CAUTION)]
)
def test_a_short_circuit_at_the_far_end_trips_the_breaker_in_time(length: str, verdict: Verdict) -> None:
    """B10 trips from 50 A, with 207 V a loop of 4.14 Ω, of which 1.5 mm² takes 29 mΩ a metre."""
    edits = {"runs.R-light.stretches.0.length": length}
    found = constraint(asked("circuit.short_circuit", "circuit/C-light", edits), "far_end")
    assert found.verdict is verdict


def test_in_a_tt_system_the_far_end_needs_the_loop_by_the_neutral() -> None:
    given = asked("circuit.short_circuit", "circuit/C-light", house="changeover-led")
    assert constraint(given, "far_end").verdict is Verdict.PASS
    left_out = asked(
        "circuit.short_circuit", "circuit/C-light", {"supply.neutral_loop_max": REMOVED}, "changeover-led"
    )
    assert "far_end" not in {c.name for c in left_out.constraints}


def test_a_cable_on_the_inverters_backup_port_is_protected_by_the_device_before_it() -> None:
    found = asked("run.short_circuit", "run/R-backup")
    assert found.verdict is Verdict.PASS
    assert constraint(found, "far_end").limit == 320  # C32
