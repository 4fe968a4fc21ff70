"""Battery circuits."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.physics.battery import (
    battery_current,
    battery_fault_current,
    equalising_current,
    pack_share,
    parallel_resistance,
    run_time,
    usable_energy,
)

milliohms = st.floats(0.001, 0.1)


def test_current_is_highest_at_the_lowest_voltage() -> None:
    low = battery_current(power_w=5000, efficiency_pct=95, voltage_v=44)
    assert low == pytest.approx(119.6, abs=0.05)
    assert battery_current(power_w=5000, efficiency_pct=95, voltage_v=54) < low


@given(volts=st.floats(40, 500), internal=milliohms, cable=milliohms)
def test_a_cable_limits_the_fault_and_packs_in_parallel_add_to_it(
    volts: float, internal: float, cable: float
) -> None:
    bare = battery_fault_current(voltage_v=volts, internal_ohm=internal, cable_ohm=0)
    assert battery_fault_current(voltage_v=volts, internal_ohm=internal, cable_ohm=cable) < bare
    three = parallel_resistance(each_ohm=internal, count=3)
    assert battery_fault_current(voltage_v=volts, internal_ohm=three, cable_ohm=0) == pytest.approx(3 * bare)


@given(own=milliohms, other=milliohms, others=st.integers(1, 8))
def test_shares_of_all_packs_make_the_whole(own: float, other: float, others: int) -> None:
    mine = pack_share(own_ohm=own, other_ohm=other, others=others)
    # seen from one of the others, the rest is the odd one and others - 1 like itself
    conductance = 1 / own + others / other
    theirs = 100 / other / conductance
    assert mine + others * theirs == pytest.approx(100)
    assert (mine > theirs) == (own < other) or mine == pytest.approx(theirs)


def test_equal_leads_share_equally_and_a_shorter_one_takes_more() -> None:
    assert pack_share(own_ohm=0.02, other_ohm=0.02, others=1) == 50
    assert pack_share(own_ohm=0.020, other_ohm=0.025, others=1) == pytest.approx(55.56, abs=0.005)


def test_two_volts_apart_is_a_large_current() -> None:
    assert equalising_current(difference_v=2, loop_ohm=0.04) == 50


def test_energy_and_how_long_it_lasts() -> None:
    usable = usable_energy(rated_wh=10_000, depth_pct=90, health_pct=80, efficiency_pct=95)
    assert usable == pytest.approx(6_840)
    assert run_time(usable_wh=usable, load_w=500) == pytest.approx(13.68 * 3600)
    with pytest.raises(ZeroDivisionError):
        run_time(usable_wh=usable, load_w=0)
