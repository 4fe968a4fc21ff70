"""Earth electrodes against handbooks and against the field worked out numerically."""

import math

import numpy as np
import pytest

from ferrule.physics.electrode import horizontal, line_spacing_factor, rod, rods_in_parallel

FOOT_M = 0.3048


def test_rod_of_a_military_handbook() -> None:
    """MIL-HDBK-419A volume II clause 1.2.2.2: rod of 3/4 inch and 10 feet in 10,000 Ω·cm reads 32 ohms on
    the nomograph.
    """
    assert round(rod(soil_ohm_m=100, length_m=10 * FOOT_M, diameter_m=0.75 * FOOT_M / 12)) == 32


def test_anode_of_a_military_handbook() -> None:
    """MIL-HDBK-1004/10 clause 6.2: 10 inches by 7 feet in 2,000 Ω·cm is 4.77 ohms, which is 2,000 over 7
    times a shape function printed to three figures, 0.0167.
    """
    resistance = rod(soil_ohm_m=20, length_m=7 * FOOT_M, diameter_m=10 * FOOT_M / 12)
    assert resistance * 7 / 2000 == pytest.approx(0.0167, abs=0.00005)


def test_pipe_by_the_british_code() -> None:
    """A deep pipe worked by the formula of BS 7430 (forum egpet.net, thread 70848): 15 m of 60.3 mm in
    244 Ω·m is 17.076 Ω.
    """
    assert rod(soil_ohm_m=244, length_m=15, diameter_m=0.0603) == pytest.approx(17.076, abs=0.0005)


def test_spacing_factor_of_three_rods_in_a_row() -> None:
    """BS 7430 gives λ = 1.66 for three rods in line."""
    assert line_spacing_factor(count=3) == pytest.approx(1.66, rel=0.01)


@pytest.mark.parametrize("spacing", [1.5, 2.0, 4.0])
def test_two_rods_by_the_series_of_dwight(spacing: float) -> None:
    """Dwight, AIEE Transactions 55 (1936) 1319, two rods well farther apart than long. Ours leaves out the
    series' small terms, which keeps it on the high side by less than 1 per cent.
    """
    length, radius = 3.0, 0.008
    s = spacing * length
    single = 100 / (4 * math.pi * length) * (math.log(4 * length / radius) - 1)
    mutual = 100 / (4 * math.pi * s) * (1 - length**2 / (3 * s**2) + 2 * length**4 / (5 * s**4))
    ours = rods_in_parallel(
        single_ohm=rod(soil_ohm_m=100, length_m=length, diameter_m=2 * radius),
        count=2,
        spacing_factor=line_spacing_factor(count=2),
        spacing_m=s,
        soil_ohm_m=100,
    )
    assert 1 <= ours / (single + mutual) <= 1.01


def _mean(values: np.ndarray, places: np.ndarray) -> float:
    return float(np.trapezoid(values, places) / (places[-1] - places[0]))


def _rod_potential(soil_ohm_m: float, length_m: float, distance_m: float) -> float:
    """Mean potential an ampere from one upright rod puts on another at a distance (its own radius: itself).

    The current leaves evenly along the rod; the surface mirrors it.
    """
    z = np.linspace(0, length_m, 20_001)
    field = np.arcsinh((length_m - z) / distance_m) + np.arcsinh((length_m + z) / distance_m)
    return soil_ohm_m / (4 * math.pi * length_m) * _mean(field, z)


@pytest.mark.parametrize(("length", "diameter"), [(1.2, 0.016), (3.0, 0.016), (6.0, 0.0142), (2.4, 0.05)])
def test_rod_by_its_field(length: float, diameter: float) -> None:
    """Second way: the rod's mean potential by numerical integration of the current along it."""
    assert rod(soil_ohm_m=100, length_m=length, diameter_m=diameter) == pytest.approx(
        _rod_potential(100, length, diameter / 2), rel=0.004
    )


@pytest.mark.parametrize(
    ("length", "depth", "diameter"), [(5, 0.6, 0.015), (10, 0.5, 0.008), (30, 0.8, 0.015), (80, 1, 0.01)]
)
def test_horizontal_wire_by_its_field(length: float, depth: float, diameter: float) -> None:
    """Second way: the wire's mean potential, its mirror image above the surface included."""
    x = np.linspace(0, length, 20_001)
    own, image = (
        np.arcsinh((length - x) / away) + np.arcsinh(x / away) for away in (diameter / 2, 2 * depth)
    )
    numeric = 100 / (4 * math.pi * length) * _mean(own + image, x)
    ours = horizontal(soil_ohm_m=100, length_m=length, depth_m=depth, diameter_m=diameter)
    assert ours == pytest.approx(numeric, rel=0.004)


@pytest.mark.parametrize("count", [2, 3, 4, 6, 10])
@pytest.mark.parametrize("spacing", [1.0, 2.0, 5.0])
def test_rods_in_a_row_by_their_fields(count: int, spacing: float) -> None:
    """Second way: all rods at one potential, their currents solved for. Ours is on the high side, by no
    more than 10 per cent at a spacing of one rod length and 3 per cent at two.
    """
    length, radius = 3.0, 0.008
    places = np.arange(count) * spacing * length
    potential = np.array(
        [[_rod_potential(100, length, abs(a - b) or radius) for a in places] for b in places]
    )
    exact = 1 / np.linalg.solve(potential, np.ones(count)).sum()
    ours = rods_in_parallel(
        single_ohm=rod(soil_ohm_m=100, length_m=length, diameter_m=2 * radius),
        count=count,
        spacing_factor=line_spacing_factor(count=count),
        spacing_m=spacing * length,
        soil_ohm_m=100,
    )
    assert 1 - 1e-3 <= ours / exact <= (1.10 if spacing == 1 else 1.03)
