"""Current transformers."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.physics.instrument import (
    connected_burden,
    effective_primary,
    share_of_primary,
    transformer_ratio,
)


def test_ratio_and_share() -> None:
    assert transformer_ratio(primary_a=100, secondary_a=5) == 20
    assert share_of_primary(load_a=2, primary_a=100) == 2


def test_two_turns_halve_the_primary() -> None:
    assert effective_primary(plate_a=100, turns=2) == 50


@given(length=st.floats(0, 100))
def test_a_one_ampere_secondary_loses_a_twenty_fifth_in_its_lead(length: float) -> None:
    lead = {"meter_va": 0.0, "length_m": length, "resistance_ohm_per_km": 7.41}
    assert connected_burden(**lead, secondary_a=5) == pytest.approx(
        25 * connected_burden(**lead, secondary_a=1)
    )


def test_the_lead_counts_twice_and_the_meter_once() -> None:
    burden = connected_burden(meter_va=0.5, secondary_a=5, length_m=10, resistance_ohm_per_km=12.1)
    assert burden == pytest.approx(0.5 + 25 * 2 * 0.121)
