"""Strings: sums, lengths, reverse current, the place of an earth fault."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.physics.strings import (
    dc_ac_ratio,
    longest_string_below,
    longest_string_within,
    modules_to_earth_fault,
    most_strings_on_input,
    most_strings_without_fuse,
    parallel_current,
    reverse_current,
    shortest_string,
    string_voltage,
)

voltages = st.floats(10, 100)
limits = st.floats(100, 1_500)


def test_modules_in_series_add_their_voltage_and_strings_their_current() -> None:
    assert string_voltage(module_v=54.9, count=11) == pytest.approx(603.9)
    assert parallel_current(string_a=13.9, strings=2) == pytest.approx(27.8)


@given(limit=limits, module=voltages)
def test_the_longest_string_stays_below_and_one_module_more_does_not(limit: float, module: float) -> None:
    count = longest_string_below(limit_v=limit, module_v=module)
    assert string_voltage(module_v=module, count=count) < limit
    assert string_voltage(module_v=module, count=count + 1) >= limit * (1 - 1e-9)


@given(limit=limits, module=voltages, colder=st.floats(1, 1.3))
def test_a_colder_site_never_allows_a_longer_string(limit: float, module: float, colder: float) -> None:
    warm = longest_string_below(limit_v=limit, module_v=module)
    assert longest_string_below(limit_v=limit, module_v=module * colder) <= warm


def test_the_top_of_a_window_may_be_reached_and_an_absolute_maximum_may_not() -> None:
    assert longest_string_within(limit_v=550, module_v=55) == 10
    assert longest_string_below(limit_v=550, module_v=55) == 9


@given(needed=limits, module=voltages)
def test_the_shortest_string_reaches_and_one_module_less_does_not(needed: float, module: float) -> None:
    count = shortest_string(needed_v=needed, module_v=module)
    assert string_voltage(module_v=module, count=count) >= needed * (1 - 1e-9)
    assert string_voltage(module_v=module, count=count - 1) < needed


def test_strings_on_one_input() -> None:
    assert most_strings_on_input(input_a=30, string_a=13.1) == 2
    assert most_strings_on_input(input_a=26.2, string_a=13.1) == 2
    assert most_strings_on_input(input_a=10, string_a=13.1) == 0


def test_reverse_current_comes_from_all_the_others() -> None:
    assert reverse_current(string_a=17.4, strings=3, backfeed_a=0) == pytest.approx(34.8)
    assert reverse_current(string_a=17.4, strings=1, backfeed_a=0) == 0
    assert reverse_current(string_a=17.4, strings=2, backfeed_a=10) == pytest.approx(27.4)


@given(module_limit=st.floats(5, 40), string=st.floats(2, 20))
def test_without_fuses_the_others_never_drive_more_than_a_module_bears(
    module_limit: float, string: float
) -> None:
    strings = most_strings_without_fuse(module_limit_a=module_limit, string_a=string)
    allowed = module_limit * (1 + 1e-9)
    assert reverse_current(string_a=string, strings=strings, backfeed_a=0) <= allowed
    assert reverse_current(string_a=string, strings=strings + 1, backfeed_a=0) > module_limit * (1 - 1e-9)


@pytest.mark.parametrize(
    ("positive_v", "negative_v", "place"),
    [(160, 320, 4.0), (300, 180, 7.5), (0, 480, 0.0), (480, 0, 12.0), (90, 180, 4.0)],
)
def test_the_place_of_an_earth_fault(positive_v: float, negative_v: float, place: float) -> None:
    assert modules_to_earth_fault(count=12, positive_v=positive_v, negative_v=negative_v) == pytest.approx(
        place
    )


@given(
    before=st.integers(0, 24), after=st.integers(0, 24), module=voltages,
    fault_ohm=st.floats(0, 1e7), meter_ohm=st.floats(1e5, 1e7),
)  # fmt: skip
def test_a_loaded_fault_is_still_found_in_its_place(
    before: int, after: int, module: float, fault_ohm: float, meter_ohm: float
) -> None:
    """The meter and the fault form a divider that scales both readings alike."""
    if before + after == 0:
        return
    share = meter_ohm / (meter_ohm + fault_ohm)
    place = modules_to_earth_fault(
        count=before + after, positive_v=before * module * share, negative_v=after * module * share
    )
    assert place == pytest.approx(before, abs=1e-9)


def test_readings_of_zero_tell_no_place() -> None:
    with pytest.raises(ZeroDivisionError):
        modules_to_earth_fault(count=12, positive_v=0, negative_v=0)


def test_array_over_inverter() -> None:
    assert dc_ac_ratio(array_w=9_600, inverter_w=8_000) == 1.2
