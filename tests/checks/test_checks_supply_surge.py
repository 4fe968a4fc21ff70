"""Surge protection of the boards of the demo houses."""

from typing import Any

import pytest

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from ferrule.design import Decided
from houses import REMOVED, answered, constraint, finding

TYPE_2 = {"type": "2", "voltage_max": "275 V", "nominal": "20 kA"}
CABLE = {"surroundings": "urban", "cable": "1000 m"}


def asked(edits: dict[str, Any], board: str = "MB", house: str = "meter-led") -> Finding:
    return finding(answered(edits, house), "board.surge", f"board/{board}")


def test_nobody_assessed_the_risk_so_type_2_is_chosen() -> None:
    result = answered()
    device = result.design.choices[Decided("ac_surge", "MB")]
    assert (device.type, device.voltage_max_v, device.nominal_a) == ("2", 260, 5000)
    assert finding(result, "board.surge", "board/MB").verdict is Verdict.PASS
    choice = next(c for c in result.choices if c.decided == Decided("ac_surge", "MB"))
    assert choice.governed_by is not None
    assert choice.governed_by.constraint.name == "risk_assessed"


def test_an_assessed_supply_in_town_goes_without() -> None:
    """850 / (1 km × 0.5) = 1700."""
    edits = {"supply.line": CABLE, "site.lightning_density": "0.5 /km²/year"}
    result = answered(edits)
    assert result.design.choices[Decided("ac_surge", "MB")] == "none"
    assert constraint(finding(result, "board.surge", "board/MB"), "risk_level").value == pytest.approx(1700)


def test_an_assessment_needs_the_lightning_of_the_place() -> None:
    edits = {"supply.line": CABLE, "site.lightning_density": REMOVED}
    result = answered(edits)
    assert Decided("ac_surge", "MB") not in result.design.choices
    assert finding(result, "board.surge", "board/MB").verdict is Verdict.UNKNOWN


def test_left_out_without_an_assessment_fails() -> None:
    assert asked({"boards.MB.surge": "none"}).verdict is Verdict.FAIL


def test_a_lightning_rod_takes_type_1() -> None:
    edits = {"site.lightning_protection": "separated"}
    assert answered(edits).design.choices[Decided("ac_surge", "MB")].type == "1+2"
    assert constraint(asked({**edits, "boards.MB.surge": TYPE_2}), "surge_type").verdict is Verdict.FAIL
    unknown = asked({"site.lightning_protection": REMOVED, "boards.MB.surge": TYPE_2})
    assert constraint(unknown, "surge_type").verdict is Verdict.UNKNOWN


@pytest.mark.parametrize(
    ("field", "value", "verdict"),
    [
        ("voltage_max", "253 V", Verdict.PASS),
        ("voltage_max", "240 V", Verdict.FAIL),
        ("nominal", "5 kA", Verdict.PASS),
        ("nominal", "4 kA", Verdict.FAIL),
        ("nominal", {"unknown": "its plate"}, Verdict.UNKNOWN),
    ],
)
def test_the_device_that_is_fitted(field: str, value: Any, verdict: Verdict) -> None:
    assert asked({"boards.MB.surge": {**TYPE_2, field: value}}).verdict is verdict


def test_an_it_system_asks_the_maker_and_leaves_the_choice_open() -> None:
    result = answered({"supply.earthing": "IT"})
    assert Decided("ac_surge", "MB") not in result.design.choices
    found = finding(result, "board.surge", "board/MB")
    assert found.verdict is Verdict.UNKNOWN
    assert any("IT system" in ask for each in found.constraints for ask in each.find_out)
    fitted = constraint(asked({"supply.earthing": "IT", "boards.MB.surge": TYPE_2}), "surge_rating")
    assert fitted.verdict is Verdict.UNKNOWN


def test_a_garage_with_inverters_40_m_away_gets_one_of_its_own() -> None:
    result = answered(house="controller-led")
    assert result.design.choices[Decided("ac_surge", "GB")].type == "2"
    found = asked({"boards.GB.surge": "none"}, "GB", "controller-led")
    assert constraint(found, "surge_reach").value == 40
    assert found.verdict is Verdict.CAUTION


def test_a_board_near_by_or_without_inverters_needs_none() -> None:
    near = {f"runs.R-garage.stretches.{at}.length": "3 m" for at in range(3)}
    assert answered(near, "controller-led").design.choices[Decided("ac_surge", "GB")] == "none"
    assert not [f for f in answered().findings if (f.id, f.subject.id) == ("board.surge", "BB")]
