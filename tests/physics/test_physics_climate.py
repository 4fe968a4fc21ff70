"""Power that heat and height leave."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.physics.climate import power_left_in_heat, power_left_in_thin_air


def test_heat_by_hand() -> None:
    """8 K above full power at 2.5 %/K: 20 % are gone."""
    assert power_left_in_heat(air_c=48, full_power_c=40, derating_pct_per_k=2.5) == 80
    assert power_left_in_heat(air_c=39, full_power_c=40, derating_pct_per_k=2.5) == 100
    assert power_left_in_heat(air_c=100, full_power_c=40, derating_pct_per_k=2.5) == 0


@given(st.floats(-20, 60), st.floats(-20, 60), st.floats(0, 10))
def test_hotter_never_leaves_more(one: float, other: float, derating: float) -> None:
    cool, hot = sorted((one, other))
    assert power_left_in_heat(air_c=hot, full_power_c=40, derating_pct_per_k=derating) <= power_left_in_heat(
        air_c=cool, full_power_c=40, derating_pct_per_k=derating
    )


def test_height_by_hand() -> None:
    assert power_left_in_thin_air(altitude_m=900, start_m=1_000, per_100_m_pct=1) == 100
    assert power_left_in_thin_air(altitude_m=1_250, start_m=1_000, per_100_m_pct=1) == pytest.approx(97.5)
