"""Devices that can be fed from either side, and the switch before an inverter."""

from typing import Any

import pytest

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from houses import REMOVED, answered, constraint, finding

RCD: dict[str, Any] = {
    "type": "A",
    "residual": "300 mA",
    "rating": "63 A",
    "selective": True,
    "all_poles": True,
}
DEVICE = "boards.MB.circuits.C-inverter.device"


def asked(edits: dict[str, Any], circuit: str = "C-inverter", house: str = "meter-led") -> Finding:
    return finding(answered(edits, house), "circuit.fed_from_both_sides", f"circuit/{circuit}")


def about(house: str, edits: dict[str, Any] | None = None) -> set[str]:
    found = answered(edits, house).findings
    return {f.subject.id for f in found if f.id == "circuit.fed_from_both_sides"}


def test_only_circuits_between_two_sources_are_asked() -> None:
    """Not those of loads, nor those behind the backup port, which only ever feeds them; and a fuse, as before
    the garage, has no direction.
    """
    assert about("meter-led") == {"C-inverter"}
    assert about("controller-led") == {"C-INV1", "C-INV2"}
    assert about("changeover-led") == {"C-INV1"}


@pytest.mark.parametrize(
    ("direction", "verdict"), [("both", Verdict.PASS), ("one", Verdict.FAIL), (REMOVED, Verdict.UNKNOWN)]
)
def test_a_breaker_between_two_sources(direction: Any, verdict: Verdict) -> None:
    assert asked({f"{DEVICE}.direction": direction}).verdict is verdict


@pytest.mark.parametrize(
    ("direction", "verdict"), [("both", Verdict.PASS), ("one", Verdict.FAIL), (None, Verdict.UNKNOWN)]
)
@pytest.mark.parametrize(
    ("path", "name"),
    [("boards.MB.circuits.C-inverter.rcd", "rcd_direction"), ("boards.MB.rcd", "board_rcd_direction")],
)
def test_an_rcd_between_two_sources(path: str, name: str, direction: str | None, verdict: Verdict) -> None:
    device = {**RCD, **({"direction": direction} if direction else {})}
    assert constraint(asked({path: device}), name).verdict is verdict


def test_a_breaker_is_a_switch_and_a_fuse_is_none() -> None:
    assert finding(answered(), "inverter.ac_isolation", "inverter/INV1").verdict is Verdict.PASS
    fused = answered({f"{DEVICE}": {"kind": "fuse-gG", "direction": "both"}})
    assert finding(fused, "inverter.ac_isolation", "inverter/INV1").verdict is Verdict.FAIL


def test_a_switch_further_up_will_do() -> None:
    """Fuses before each inverter and before the garage; an RCD before the garage is a switch."""
    fuses = {f"boards.GB.circuits.{c}.device": {"kind": "fuse-gG"} for c in ("C-INV1", "C-INV2")}
    found = finding(answered(fuses, "controller-led"), "inverter.ac_isolation", "inverter/INV2")
    assert found.verdict is Verdict.FAIL
    edits = {**fuses, "boards.MB.circuits.C-garage.rcd": {**RCD, "direction": "both"}}
    found = finding(answered(edits, "controller-led"), "inverter.ac_isolation", "inverter/INV2")
    assert found.verdict is Verdict.PASS
