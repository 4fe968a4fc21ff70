"""Starting loads against what a source can give for seconds."""

from ferrule.quantity import HORSEPOWER_W, ApparentPowerVa, LockedRotorKvaPerHp, PowerW, Ratio, formula


@formula("1000 * locked_kva_per_hp * shaft_w / 745.69987158")
def locked_rotor_power(*, shaft_w: PowerW, locked_kva_per_hp: LockedRotorKvaPerHp) -> ApparentPowerVa:
    """Apparent power a motor takes at standstill, from its rated shaft power and the figure behind its code
    letter, of whose range the upper end is to be taken (NFPA 70-2023 table 430.7(B)).
    """
    return 1000 * locked_kva_per_hp * shaft_w / HORSEPOWER_W


@formula("running_va * start_multiple")
def starting_power(*, running_va: ApparentPowerVa, start_multiple: Ratio) -> ApparentPowerVa:
    """Apparent power of a load while it starts, from its running power and how many times that it takes."""
    return running_va * start_multiple


@formula("running_va - motor_running_va + motor_start_va")
def power_at_largest_start(
    *, running_va: ApparentPowerVa, motor_running_va: ApparentPowerVa, motor_start_va: ApparentPowerVa
) -> ApparentPowerVa:
    """Highest power when all loads run and the largest motor starts last.

    `running_va` is the sum of all loads, this motor included. After an outage several may start at once:
    then their starting powers add.
    """
    return running_va - motor_running_va + motor_start_va
