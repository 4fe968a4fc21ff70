"""A generator set at the demo house: its cable, its faults, its transfer switch."""

from typing import Any

import pytest

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from ferrule.design import Decided
from houses import REMOVED, answered, constraint, finding

PART: dict[str, Any] = {
    "id": "set", "kind": "generator", "name": "Example set 3 kVA", "source": "invented", "power": "3 kVA",
    "phases": "1", "link": "fixed", "breaker": "13 A", "short_circuit": "40 A",
    "short_circuit_duration": "3 s", "collapses_safely": False,
}  # fmt: skip
RUN: dict[str, Any] = {
    "id": "R-GEN", "from": "GEN", "to": "MB", "cable": "pvc-multicore", "size": "4 mm²", "neutral": "4 mm²",
    "protective": "4 mm²", "stretches": [{"length": "9 m", "method": "C", "ambient": "25 °C", "circuits": 1}],
}  # fmt: skip
DEVICE: dict[str, Any] = {
    "id": "GEN", "kind": "generator", "part": "set", "transfer": "all-live", "interlock": "mechanical",
}  # fmt: skip
SOCKETS = "boards.MB.circuits.C-sockets"
RCD = {"type": "A", "residual": "30 mA", "rating": "40 A", "direction": "one", "all_poles": True}


def without(given: dict[str, Any], changed: dict[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in {**given, **changed}.items() if value is not REMOVED}


def edits(
    part: dict[str, Any] | None = None,
    device: dict[str, Any] | None = None,
    run: dict[str, Any] | None = None,
    more: dict[str, Any] | None = None,
) -> dict[str, Any]:
    return {
        "parts.+": without(PART, part or {}),
        "devices.+": without(DEVICE, device or {}),
        "runs.+": without(RUN, run or {}),
        **(more or {}),
    }


def found(given: dict[str, Any], question: str, subject: str) -> Finding:
    return finding(answered(given), question, subject)


# Its own cable


def cable(part: dict[str, Any], size: str = "4 mm²") -> Finding:
    return found(edits(part, run={"size": size}), "generator.cable", "generator/GEN")


def test_its_breaker_protects_its_cable() -> None:
    assert cable({}).verdict is Verdict.PASS
    assert cable({"breaker": "63 A"}).verdict is Verdict.FAIL


def test_without_a_breaker_the_set_itself_must_be_too_weak() -> None:
    """4 mm² of PVC carry 36 A clipped to a wall at 30 °C, and 1.06 times as much at 25 °C."""
    strong, weak = cable({"breaker": "none"}), cable({"breaker": "none", "short_circuit": "38 A"})
    assert constraint(strong, "source_limit").verdict is Verdict.FAIL
    assert constraint(weak, "source_limit").verdict is Verdict.PASS
    assert constraint(weak, "source_limit").limit == pytest.approx(36 * 1.06)


def test_its_cable_bears_what_it_gives_into_a_fault() -> None:
    """k²S² is 115² × 4² = 211 600 A²s."""
    given = constraint(cable({}), "withstand")
    assert (given.value, given.limit) == (40**2 * 3, 115**2 * 4**2)
    assert constraint(cable({"short_circuit": "300 A"}), "withstand").verdict is Verdict.FAIL


@pytest.mark.parametrize("fact", ["breaker", "short_circuit", "short_circuit_duration", "phases"])
def test_what_nobody_knows_of_it_is_asked(fact: str) -> None:
    assert cable({fact: REMOVED}).verdict is Verdict.UNKNOWN


def test_its_cable_is_chosen_by_it() -> None:
    result = answered(edits(run={"size": REMOVED, "neutral": REMOVED, "protective": REMOVED}))
    assert result.design.choices[Decided("conductor", "R-GEN")].name == "1.5"


def test_the_main_fuse_does_not_stand_before_it_even_without_an_interlock() -> None:
    result = answered(edits(device={"transfer": "none"}, run={"size": "1.5 mm²"}))
    assert ("run.overload", "run/R-GEN") not in {(f.id, str(f.subject)) for f in result.findings}
    assert finding(result, "supply.backfeed", "installation/house@generator").verdict is Verdict.FAIL


# Faults that it feeds


def earth_fault(
    part: dict[str, Any] | None = None, more: dict[str, Any] | None = None, **device: Any
) -> Finding:
    given = edits(part, device, more={f"{SOCKETS}.rcd": "none", **(more or {})})
    return found(given, "circuit.generator_earth_fault", "circuit/C-sockets@generator")


def test_a_small_set_does_not_trip_a_breaker() -> None:
    """B 16 A trips at 80 A; the set gives 40 A."""
    assert constraint(earth_fault(), "earth_fault").verdict is Verdict.FAIL
    assert constraint(earth_fault({"collapses_safely": True}), "earth_fault").verdict is Verdict.CAUTION
    unknown = constraint(earth_fault({"collapses_safely": REMOVED}), "earth_fault")
    assert unknown.verdict is Verdict.UNKNOWN


def test_its_own_impedance_comes_before_that_of_the_cables() -> None:
    """A set of 81 A trips 80 A at its terminals, and not behind a cable."""
    assert constraint(earth_fault({"short_circuit": "81 A"}), "earth_fault").verdict is Verdict.FAIL
    assert constraint(earth_fault({"short_circuit": "110 A"}), "earth_fault").verdict is Verdict.PASS


def test_a_residual_current_device_ends_an_earth_fault() -> None:
    judged = earth_fault(more={f"{SOCKETS}.rcd": RCD})
    assert judged.verdict is Verdict.PASS
    assert constraint(judged, "residual_trip").limit == pytest.approx(0.15)


def test_one_is_chosen_where_nothing_else_ends_it() -> None:
    """A circuit of fixed load on a TN supply has none by itself."""
    plain = {f"{SOCKETS}.loads": [{"name": "oven", "kind": "resistive", "power": "2 kW"}]}
    assert answered(plain).design.choices[Decided("rcd", "C-sockets")] == "none"
    chosen = answered(edits(more=plain)).design.choices
    assert chosen[Decided("rcd", "C-sockets")] != "none"


@pytest.mark.parametrize(
    ("link", "transfer", "verdict"),
    [
        ("fixed", "all-live", Verdict.PASS),
        ("none", "all-live", Verdict.FAIL),
        ("fixed", "lines", Verdict.FAIL),
        ("none", "lines", Verdict.PASS),
        (REMOVED, "all-live", Verdict.UNKNOWN),
        ("fixed", REMOVED, Verdict.UNKNOWN),
    ],
)
def test_without_exactly_one_bond_nothing_is_sure(link: Any, transfer: Any, verdict: Verdict) -> None:
    judged = earth_fault({"link": link}, transfer=transfer)
    assert constraint(judged, "link").verdict is verdict


def test_a_short_circuit_stops_it() -> None:
    judged = found(edits(), "circuit.generator_short_circuit", "circuit/C-sockets@generator")
    assert constraint(judged, "short_circuit").verdict is Verdict.CAUTION
    assert "generator stops" in constraint(judged, "short_circuit").text
    assert constraint(judged, "withstand").verdict is Verdict.PASS


def test_no_generator_no_finding() -> None:
    assert not [f for f in answered().findings if "generator" in f.id]


# The transfer switch


def bond(transfer: str, link: str, earthing: str = "TN-S") -> Finding:
    given = edits({"link": link}, {"transfer": transfer}, more={"supply.earthing": earthing})
    return found(given, "earth.neutral_bond", "installation/house@generator")


def test_its_poles_open_the_neutral_or_leave_a_look() -> None:
    assert bond("all-live", "fixed").verdict is Verdict.PASS
    assert constraint(bond("lines", "none"), "neutral").verdict is Verdict.CAUTION


def test_it_never_opens_a_combined_conductor() -> None:
    assert constraint(bond("all-live", "fixed", "TN-C"), "neutral").verdict is Verdict.FAIL
    assert constraint(bond("lines", "none", "TN-C"), "neutral").verdict is Verdict.PASS


@pytest.mark.parametrize(
    ("interlock", "verdict"),
    [("mechanical", Verdict.PASS), ("electrical", Verdict.CAUTION), (REMOVED, Verdict.UNKNOWN)],
)
@pytest.mark.parametrize("side", ["network", "generator"])
def test_a_welded_contact_of_it_joins_two_sources(side: str, interlock: Any, verdict: Verdict) -> None:
    judged = found(edits(device={"interlock": interlock}), "earth.stuck_contact", f"contact/GEN.{side}")
    assert judged.verdict is verdict
