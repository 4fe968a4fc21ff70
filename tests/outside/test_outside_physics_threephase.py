"""Neutral currents and lost neutrals against printed answers and against the node equation."""

import cmath
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.physics.threephase import (
    lagging_angle,
    neutral_current,
    voltage_with_lost_neutral,
    voltage_with_lost_neutral_split_phase,
)


def test_neutral_of_three_power_factors() -> None:
    """Exercise with answer 4.55 A (forum.allaboutcircuits.com thread 73990): 10 A at power factor 1, 9 A at
    0.9, 8 A at 0.8, all lagging.
    """
    neutral = neutral_current(
        line_1_a=10,
        line_1_deg=lagging_angle(voltage_deg=0, cos_phi=1),
        line_2_a=9,
        line_2_deg=lagging_angle(voltage_deg=-120, cos_phi=0.9),
        line_3_a=8,
        line_3_deg=lagging_angle(voltage_deg=-240, cos_phi=0.8),
    )
    assert round(neutral, 2) == 4.55


def _by_node_equation(loads_w: list[float], sources_v: list[complex], rated_v: float) -> list[float]:
    """Voltages across loads in star with no neutral: Kirchhoff's laws for the branch currents and the star
    point, as one linear system.
    """
    resistances = [rated_v**2 / load for load in loads_w]
    size = len(loads_w)
    system = np.zeros((size + 1, size + 1), dtype=complex)
    right = np.zeros(size + 1, dtype=complex)
    for row, (resistance, source) in enumerate(zip(resistances, sources_v, strict=True)):
        system[row, row] = resistance  # R · I + V_star = V_source
        system[row, size] = 1
        right[row] = source
    system[size, :size] = 1  # the currents add up to nothing
    currents = np.linalg.solve(system, right)[:size]
    return [
        float(abs(current) * resistance) for current, resistance in zip(currents, resistances, strict=True)
    ]


THREE_PHASES = [cmath.rect(230, math.radians(angle)) for angle in (0, -120, -240)]


@given(loads=st.lists(st.floats(10, 10_000), min_size=3, max_size=3))
def test_lost_neutral_by_the_node_equation(loads: list[float]) -> None:
    """Second way: numpy solves the circuit that Millman's theorem shortens."""
    expected = _by_node_equation(loads, THREE_PHASES, 230)
    for own in range(3):
        second, third = (loads[other] for other in range(3) if other != own)
        ours = voltage_with_lost_neutral(
            own_w=loads[own], second_w=second, third_w=third, line_to_neutral_v=230
        )
        assert ours == pytest.approx(expected[own], rel=1e-9)


@pytest.mark.parametrize(
    ("loads", "volts"), [((2000, 1000, 200), (139, 262, 329)), ((3000, 500, 500), (86, 327, 327))]
)
def test_lost_neutral_of_two_houses(loads: tuple[float, ...], volts: tuple[float, ...]) -> None:
    """Figures of an unbalanced house, worked by the node equation and in whole volts."""
    assert tuple(round(volt) for volt in _by_node_equation(list(loads), THREE_PHASES, 230)) == volts
    ours = tuple(
        round(voltage_with_lost_neutral(own_w=own, second_w=second, third_w=third, line_to_neutral_v=230))
        for own, second, third in (loads, (loads[1], loads[2], loads[0]), (loads[2], loads[0], loads[1]))
    )
    assert ours == volts


@given(own=st.floats(10, 10_000), other=st.floats(10, 10_000))
def test_lost_neutral_of_a_split_phase_by_the_node_equation(own: float, other: float) -> None:
    """Second way: the same circuit with two sources in opposition."""
    expected = _by_node_equation([own, other], [120, -120], 120)[0]
    ours = voltage_with_lost_neutral_split_phase(own_w=own, other_w=other, line_to_line_v=240)
    assert ours == pytest.approx(expected, rel=1e-9)
