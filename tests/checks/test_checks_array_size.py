"""The size of the array beside that of its inverter."""

from typing import Any

import pytest

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from houses import REMOVED, answered, constraint, finding

INVERTER = "parts.example-hybrid-6k-single"


def asked(edits: dict[str, Any]) -> Finding:
    return finding(answered(edits), "inverter.dc_ac_ratio", "inverter/INV1")


@pytest.mark.parametrize(("most", "verdict"), [("8.6 kW", Verdict.PASS), ("8.59 kW", Verdict.FAIL)])
def test_more_than_the_maker_allows_fails(most: str, verdict: Verdict) -> None:
    """20 modules of 430 W."""
    found = constraint(asked({f"{INVERTER}.pv_power_max": most}), "pv_power")
    assert found.value == pytest.approx(8600)
    assert found.verdict is verdict


def test_a_battery_takes_what_is_beyond_the_usual() -> None:
    """8.6 kW on 6 kW is 1.43 times; without the battery 1.2 is usual."""
    assert asked({}).verdict is Verdict.PASS
    alone = asked({"runs.R-battery": REMOVED})
    assert alone.verdict is Verdict.CAUTION
    assert alone.governed_by.value == pytest.approx(8600 / 6000)


def test_a_small_array_is_a_caution() -> None:
    found = asked({"strings.S1.modules": 6, "strings.S2.modules": 8})
    assert constraint(found, "array_not_small").verdict is Verdict.CAUTION


@pytest.mark.parametrize(
    ("path", "name"),
    [
        (f"{INVERTER}.pv_power_max", "pv_power"),
        (f"{INVERTER}.grid.power", "usual"),
        ("parts.example-mono-430.power", "usual"),
    ],
)
def test_what_is_not_known_is_asked_for(path: str, name: str) -> None:
    found = asked({path: REMOVED})
    assert found.verdict is Verdict.UNKNOWN
    assert constraint(found, name).find_out


def test_an_inverter_without_strings_is_not_asked() -> None:
    edits: dict[str, Any] = {"strings": [], "runs.R-S1": REMOVED, "runs.R-S2": REMOVED}
    assert not [f for f in answered(edits).findings if f.id == "inverter.dc_ac_ratio"]
