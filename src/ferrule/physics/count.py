"""How many of something fit, or are needed: counts from a division, rounded to the safe side."""

import math

from ferrule.quantity import Count, Ratio, formula

#: A quotient this near to a whole number is that number: 15.000000000000002 is fifteen, not a part of
#: the sixteenth.
TOLERANCE = 1e-9


@formula("floor(limit / each + 1e-9)")
def count_at_most(*, limit: Ratio, each: Ratio) -> Count:
    """The most of `each` whose sum does not exceed `limit`, both in one unit; it may reach it."""
    return math.floor(limit / each + TOLERANCE)


@formula("max(0, ceil(limit / each - 1e-9) - 1)")
def count_below(*, limit: Ratio, each: Ratio) -> Count:
    """The most of `each` whose sum stays below `limit`, both in one unit; it may not reach it."""
    return max(0, math.ceil(limit / each - TOLERANCE) - 1)


@formula("ceil(needed / each - 1e-9)")
def count_at_least(*, needed: Ratio, each: Ratio) -> Count:
    """The fewest of `each` whose sum reaches `needed`, both in one unit."""
    return math.ceil(needed / each - TOLERANCE)
