"""What ends a fault in a backed-up circuit of the demo house while its inverter alone feeds it."""

from typing import Any

import pytest

from ferrule.checks.question import Finding
from ferrule.constraint import Constraint, Verdict
from ferrule.design import Decided
from houses import REMOVED, answered, constraint, finding

PART = "parts.example-hybrid-6k-single"
BACKUP = f"{PART}.backup"
FRIDGE = "boards.BB.circuits.C-fridge"


def rcd(kind: str = "A", residual: str = "30 mA") -> dict[str, Any]:
    return {"type": kind, "residual": residual, "rating": "40 A", "direction": "one", "all_poles": True}


def fridge(edits: dict[str, Any]) -> Finding:
    return finding(answered(edits), "circuit.island_fault", "circuit/C-fridge@island")


def of(edits: dict[str, Any], name: str) -> Constraint:
    return constraint(fridge(edits), name)


# Step 1: the bond


@pytest.mark.parametrize(
    ("edits", "verdict"),
    [
        ({}, Verdict.PASS),
        ({"devices.INV1.link": "disabled"}, Verdict.FAIL),
        ({"boards.BB.strap": True}, Verdict.FAIL),
        ({"devices.INV1.link": REMOVED}, Verdict.UNKNOWN),
    ],
)
def test_without_exactly_one_bond_nothing_is_sure(edits: dict[str, Any], verdict: Verdict) -> None:
    assert of(edits, "link").verdict is verdict


# Step 2: the residual current device


def test_a_residual_current_device_ends_an_earth_fault() -> None:
    found = fridge({f"{FRIDGE}.rcd": rcd()})
    assert constraint(found, "touch_voltage").verdict is Verdict.PASS
    assert constraint(found, "residual_trip").verdict is Verdict.PASS
    assert constraint(found, "residual_trip").limit == pytest.approx(0.15)


def test_the_device_that_trips_first_counts() -> None:
    edits = {f"{FRIDGE}.rcd": rcd(), "boards.BB.rcd": rcd(residual="300 mA")}
    assert of(edits, "residual_trip").limit == pytest.approx(0.15)


@pytest.mark.parametrize("fact", ["short_circuit", "short_circuit_duration"])
def test_a_makers_figure_is_never_replaced(fact: str) -> None:
    found = fridge({f"{FRIDGE}.rcd": rcd(), f"{BACKUP}.{fact}": REMOVED})
    assert found.verdict is Verdict.UNKNOWN
    assert any("ask the maker" in ask for each in found.constraints for ask in each.find_out)


@pytest.mark.parametrize(
    ("resistance", "verdict"),
    [("1600 Ω", Verdict.PASS), ("1700 Ω", Verdict.FAIL), (REMOVED, Verdict.UNKNOWN)],
)
def test_where_a_tt_neutral_runs_through_the_electrode_carries_the_fault(
    resistance: Any, verdict: Verdict
) -> None:
    edits = {
        "supply.earthing": "TT",
        f"{BACKUP}.neutral": "through",
        "devices.INV1.link": "disabled",
        f"{FRIDGE}.rcd": rcd(),
        "earth.electrode.resistance": resistance,
    }
    found = fridge(edits)
    name = "earth_fault" if verdict is Verdict.UNKNOWN else "touch_voltage"
    assert constraint(found, name).verdict is verdict


# Steps 3 and 4: the breaker, the collapse


def test_a_small_breaker_trips_with_a_strong_source() -> None:
    """B 6 A trips at 30 A; the demo's inverter gives 45 A for 0.1 s."""
    edits = {f"{FRIDGE}.rcd": "none", f"{FRIDGE}.device.rating": "6 A"}
    assert of(edits, "earth_fault").verdict is Verdict.PASS
    assert of(edits, "earth_fault").limit == 30.0


@pytest.mark.parametrize(
    ("given", "lasts", "verdict"),
    [
        ("80 A", "100 ms", Verdict.PASS),
        ("79 A", "100 ms", Verdict.CAUTION),
        ("80 A", "90 ms", Verdict.CAUTION),
    ],
)
def test_the_source_must_drive_the_trip_for_long_enough(given: str, lasts: str, verdict: Verdict) -> None:
    """B 16 A trips at 80 A within 0.1 s."""
    edits = {
        f"{FRIDGE}.rcd": "none",
        f"{BACKUP}.short_circuit": given,
        f"{BACKUP}.short_circuit_duration": lasts,
    }
    assert of(edits, "earth_fault").verdict is verdict
    assert of(edits, "short_circuit").verdict is verdict


def test_a_long_loop_limits_the_current_as_well() -> None:
    edits = {
        f"{FRIDGE}.rcd": "none",
        f"{BACKUP}.short_circuit": "100 A",
        "runs.R-fridge.stretches.0.length": "200 m",
    }
    assert of(edits, "earth_fault").verdict is Verdict.CAUTION


@pytest.mark.parametrize(
    ("declared", "verdict"),
    [(True, Verdict.CAUTION), (False, Verdict.FAIL), (REMOVED, Verdict.UNKNOWN)],
)
def test_else_the_collapse_of_the_source_decides(declared: Any, verdict: Verdict) -> None:
    edits = {f"{FRIDGE}.rcd": "none", f"{BACKUP}.collapses_safely": declared}
    assert of(edits, "earth_fault").verdict is verdict


# Steps 5 and 6


def test_a_short_circuit_stops_the_inverter() -> None:
    found = of({}, "short_circuit")
    assert found.verdict is Verdict.CAUTION
    assert dict(found.words)["rating_a"] == 6  # 45 A trip 9 A of curve B at once; 6 A is the rating below
    assert "rated {rating_a}" in found.mend


@pytest.mark.parametrize(
    ("edits", "rating_a"),
    [
        ({f"{BACKUP}.short_circuit": "75 A"}, 13.0),  # 15 A of curve B
        ({f"{BACKUP}.short_circuit": "29 A"}, None),  # 5.8 A, and there is no breaker so small
        ({"boards.BB.circuits.C-fridge.loads.0.power": "1.5 kW"}, None),  # 8.2 A flow already
    ],
)
def test_the_breaker_proposed_is_one_there_is_and_carries_the_circuit(
    edits: dict[str, str], rating_a: float | None
) -> None:
    found = of(edits, "short_circuit")
    assert found.verdict is Verdict.CAUTION
    assert dict(found.words)["rating_a"] == rating_a
    assert found.mend.startswith("share the loads" if rating_a is None else "fit a breaker")


def test_the_cable_bears_what_the_source_gives() -> None:
    assert of({}, "withstand").verdict is Verdict.PASS
    edits = {f"{BACKUP}.short_circuit": "2 kA", f"{BACKUP}.short_circuit_duration": "100 ms"}
    assert of(edits, "withstand").verdict is Verdict.FAIL


def test_a_first_fault_of_an_it_island_may_stay() -> None:
    """What ends a second is asked about once for the house (supply.second_fault)."""
    edits = {"supply.earthing": "IT", "devices.INV1.link": "disabled"}
    found = finding(answered(edits), "circuit.island_fault", "circuit/C-fridge@island")
    assert constraint(found, "link").verdict is Verdict.PASS
    assert "earth_fault" not in {each.name for each in found.constraints}


def test_only_circuits_that_go_on_in_an_outage_are_asked() -> None:
    asked = {str(f.subject) for f in answered().findings if f.id == "circuit.island_fault"}
    assert asked == {"circuit/C-fridge@island", "circuit/C-light@island"}


# The type of the residual current device


def sees(edits: dict[str, Any]) -> Finding:
    return finding(answered(edits), "circuit.island_rcd", "circuit/C-fridge@island")


@pytest.mark.parametrize(
    ("statement", "kind", "verdict"),
    [
        ("excluded", "A", Verdict.PASS),
        ("excluded", "AC", Verdict.FAIL),
        ("possible", "A", Verdict.FAIL),
        ("possible", "B", Verdict.PASS),
        (REMOVED, "A", Verdict.UNKNOWN),
    ],
)
def test_the_makers_statement_of_smooth_direct_current(statement: Any, kind: str, verdict: Verdict) -> None:
    edits = {f"{PART}.smooth_dc_residual": statement, f"{FRIDGE}.rcd": rcd(kind)}
    assert sees(edits).verdict is verdict


def test_the_type_is_chosen_by_it() -> None:
    result = answered({f"{PART}.smooth_dc_residual": "possible"})
    assert result.design.choices[Decided("rcd", "C-fridge")].type == "B"
    assert answered().design.choices[Decided("rcd", "C-fridge")].type == "A"
