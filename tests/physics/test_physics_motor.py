"""Starting loads."""

import pytest

from ferrule.physics.motor import locked_rotor_power, power_at_largest_start, starting_power


def test_a_code_letter_and_horsepower_give_the_power_at_standstill() -> None:
    """One horsepower is 745.7 W, so 2 hp of 6.29 kVA each take 12.58 kVA."""
    assert locked_rotor_power(shaft_w=2 * 745.7, locked_kva_per_hp=6.29) == pytest.approx(12_580, rel=1e-6)


def test_the_largest_motor_starts_last() -> None:
    start = starting_power(running_va=600, start_multiple=5)
    assert start == 3_000
    assert power_at_largest_start(running_va=2_100, motor_running_va=600, motor_start_va=start) == 4_500
