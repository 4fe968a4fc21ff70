"""Motors, batteries and lightning against worked examples in print."""

import math

import pytest

from ferrule.physics.battery import battery_fault_current, parallel_resistance
from ferrule.physics.motor import locked_rotor_power
from ferrule.physics.surge import flash_density
from ferrule.physics.threephase import current_from_apparent_power
from ferrule.quantity import parse


def test_locked_rotor_current_of_the_code_handbook() -> None:
    """NEC Handbook, example to table 430.7(B): 20 hp, 460 V, three-phase, code letter G (6.29 kVA/hp at
    most): 125.8 kVA and 158 A.
    """
    locked_va = locked_rotor_power(shaft_w=parse("20 hp", "W"), locked_kva_per_hp=6.29)
    assert round(locked_va / 1000, 1) == 125.8
    current = current_from_apparent_power(
        apparent_va=locked_va, lines=3, line_to_neutral_v=460 / math.sqrt(3)
    )
    assert round(current) == 158


def test_fault_current_of_a_battery_bank() -> None:
    """Engineers' discussion of a telecommunications battery (eng-tips.com thread 345438): 12 V blocks of
    3,800 A, so 3.16 mΩ; seven strings of four give 26.6 kA.
    """
    block_ohm = 12 / 3800
    assert round(1000 * block_ohm, 2) == 3.16
    bank_ohm = parallel_resistance(each_ohm=4 * block_ohm, count=7)
    assert battery_fault_current(voltage_v=48, internal_ohm=bank_ohm, cable_ohm=0) == pytest.approx(26_600)


@pytest.mark.parametrize(("coefficient", "exponent", "printed"), [(0.04, 1.25, 2.2), (0.1, 1, 2.5)])
def test_flash_density_of_twenty_five_storm_days(coefficient: float, exponent: float, printed: float) -> None:
    """Austrian teaching notes on OVE E 8001-1 print 2.2 for 0.04 · Td^1.25; French UTE C 15-712-1 takes a
    tenth of the storm days, 2.5.
    """
    density = flash_density(storm_days=25, coefficient=coefficient, exponent=exponent)
    assert round(density, 1) == printed
