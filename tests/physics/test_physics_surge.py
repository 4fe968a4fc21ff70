"""Lightning exposure."""

import pytest

from ferrule.physics.surge import calculated_risk_level, critical_length, flash_density, risk_length


def test_the_more_lightning_the_shorter_the_critical_length() -> None:
    assert critical_length(constant=115, flashes_per_km2_year=2.5) == 46
    assert critical_length(constant=115, flashes_per_km2_year=5) == 23
    with pytest.raises(ZeroDivisionError):
        critical_length(constant=115, flashes_per_km2_year=0)


def test_risk_level_of_a_mixed_supply() -> None:
    """300 m of overhead line doubled, 200 m of cable, 500 m of high-voltage line at 0.4 count as 1 km."""
    length = risk_length(
        overhead_m=300, cable_m=200, high_overhead_m=500, high_cable_m=0,
        overhead_weight=2, cable_weight=1, high_overhead_weight=0.4, high_cable_weight=0.2,
    )  # fmt: skip
    assert length == pytest.approx(1000)
    risk = calculated_risk_level(environment_factor=85, risk_m=length, flashes_per_km2_year=0.1)
    assert risk == pytest.approx(850)


def test_flash_density_by_both_published_rules() -> None:
    """25 storm days: 2.5 by the tenth, 2.2 by the power law."""
    assert flash_density(storm_days=25, coefficient=0.1, exponent=1) == pytest.approx(2.5)
    assert flash_density(storm_days=25, coefficient=0.04, exponent=1.25) == pytest.approx(2.24, abs=0.005)
