"""Counts on a roof against a printed exercise."""

import pytest

from ferrule.job.roof import Block
from ferrule.layout.roof import Rail, counted, rafters_mm

FOOT_MM = 304.8


def test_rafters_of_a_building_of_thirty_feet() -> None:
    """An exercise of carpentry (gauthmath.com, 1815163216611384): 30 ft at 24 in on centre are 15 spaces and
    16 rafters.
    """
    rafters = rafters_mm(0.0, 2 * FOOT_MM, 30 * FOOT_MM)
    assert len(rafters) == 16
    assert rafters[-1] == pytest.approx(30 * FOOT_MM)


def test_offcuts_do_not_add_up_to_whole_pieces() -> None:
    """The same exercise asks for 16 ft pieces for rafters of 14 ft and is answered with 14, from the sum of
    all lengths. From each piece comes one: it takes 16.
    """
    rails = [Rail(0.0, 14 * FOOT_MM, float(at), (0.0,)) for at in range(16)]
    block = Block(id="A", rows=8, columns=1, orientation="portrait")
    parts = counted(block, rails, 16 * FOOT_MM, 1)
    assert (parts.rails, parts.splices) == (16, 0)
