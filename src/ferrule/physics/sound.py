"""Sound of a device at a distance, and of several together."""

import math

from ferrule.quantity import Count, LengthM, SoundDba, formula


@formula("max(level_dba - 20 * log10(max(distance_m, 1)), 0)")
def level_at_distance(*, level_dba: SoundDba, distance_m: LengthM) -> SoundDba:
    """Level at a distance of a device whose sheet states it at 1 m: at twice the distance 6 dB less.

    The inverse-square law of a small source in the open (ISO 9613-2:1996, 7.1), without what air and ground
    take away. Nearer than 1 m the law does not hold, and the level at 1 m stands; less than 0 dB(A) is not
    heard.
    """
    return max(level_dba - 20 * math.log10(max(distance_m, 1.0)), 0.0)


@formula("10 * log10(count * 10**(level_dba / 10))")
def level_of_equal(*, level_dba: SoundDba, count: Count) -> SoundDba:
    """Level of several equal sources together: two are 3 dB louder than one. `count` is 1 or more."""
    return level_dba + 10 * math.log10(count)


@formula("10 * log10(10**(one_dba / 10) + 10**(other_dba / 10))")
def levels_together(*, one_dba: SoundDba, other_dba: SoundDba) -> SoundDba:
    """Level of two sources together, by the sum of their energies."""
    return 10 * math.log10(10 ** (one_dba / 10) + 10 ** (other_dba / 10))
