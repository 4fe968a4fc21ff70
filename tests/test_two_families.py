"""One job under two families of rules: nothing above the clauses knows which."""

from typing import Any

import pytest

from ferrule.constraint import Verdict
from ferrule.design import Decided
from houses import answered, constraint, finding

AMERICAN: dict[str, Any] = {
    "rulebook": "us-2023",
    "supply.live": [
        {"name": "L1", "voltage": "120 V", "angle": "0°"},
        {"name": "L2", "voltage": "120 V", "angle": "180°"},
    ],
    "boards.MB.circuits.C-inverter.phases": ["L1", "L2"],
    "runs.R-tails.size": "AWG 2",
    "runs.R-main.size": "AWG 2",
    "runs.R-backup.size": "AWG 8",
    "runs.R-fridge.size": "AWG 12",
    "runs.R-light.size": "AWG 14",
    "runs.R-inverter.stretches": [{"length": "30 ft", "method": "B1", "ambient": "95 °F", "circuits": 1}],
}


def test_the_american_code_caps_a_dwelling_at_600_v() -> None:
    """NFPA 70:2023, 690.7(A): 12 modules pass, 14 reach more than 600 V in the same cold."""
    passing = finding(answered(AMERICAN), "string.cold_voltage", "string/S1")
    assert constraint(passing, "legal_cap").limit == 600
    assert constraint(passing, "legal_cap").verdict is Verdict.PASS
    failing = finding(answered({**AMERICAN, "strings.S1.modules": 14}), "string.cold_voltage", "string/S1")
    assert constraint(failing, "legal_cap").verdict is Verdict.FAIL


def test_the_international_rules_allow_1000_v_on_the_same_house() -> None:
    """IEC 62548-1:2023: not above 1000 V on buildings."""
    found = finding(answered({"strings.S1.modules": 14}), "string.cold_voltage", "string/S1")
    assert constraint(found, "legal_cap").limit == 1000
    assert constraint(found, "legal_cap").verdict is Verdict.PASS


def test_each_family_chooses_from_its_own_sizes() -> None:
    """32 A continuous: NFPA 70 asks for 1.25 × 32 = 40 A, and so 8 AWG at 60 °C terminals (table 310.16)."""
    american = answered(AMERICAN).design
    assert american.choices[Decided("rating", "C-inverter")] == 40
    assert str(american.choices[Decided("conductor", "R-inverter")]) == "8 AWG"
    international = answered().design
    assert international.choices[Decided("rating", "C-inverter")] == 32
    assert str(international.choices[Decided("conductor", "R-inverter")]).endswith("mm²")


@pytest.mark.parametrize("edits", [{}, AMERICAN], ids=["iec-2024", "us-2023"])
def test_both_count_the_bonds_of_each_position(edits: dict[str, Any]) -> None:
    result = answered(edits)
    for position in ("grid", "island"):
        found = finding(result, "earth.neutral_bond", f"installation/house@{position}")
        assert found.verdict is Verdict.PASS


@pytest.mark.parametrize("edits", [{}, AMERICAN], ids=["iec-2024", "us-2023"])
def test_both_miss_a_bond_that_the_country_setting_disabled(edits: dict[str, Any]) -> None:
    result = answered({**edits, "devices.INV1.link": "disabled"})
    found = finding(result, "earth.neutral_bond", "installation/house@island")
    assert found.verdict is Verdict.FAIL
