"""Sound, enclosures and height against printed figures."""

import pytest

from ferrule import rules
from ferrule.physics.climate import power_left_in_thin_air
from ferrule.physics.sound import level_at_distance, level_of_equal, levels_together

BOOK = rules.load("iec-2024")


def test_six_decibels_for_each_doubling() -> None:
    """ISO 9613-2:1996, 7.1: 20 log10 of the distance; 6 dB for each doubling, 20 dB for ten times."""
    assert level_at_distance(level_dba=60, distance_m=2) == pytest.approx(54, abs=0.05)
    assert level_at_distance(level_dba=60, distance_m=10) == pytest.approx(40)


@pytest.mark.parametrize(("difference", "added"), [(0, 3.0), (1, 2.5), (3, 1.8), (6, 1.0), (10, 0.4)])
def test_what_a_second_source_adds(difference: float, added: float) -> None:
    """The handbooks' table for adding two levels by how far apart they are; from memory."""
    assert levels_together(one_dba=50, other_dba=50 - difference) - 50 == pytest.approx(added, abs=0.05)


def test_ten_equal_sources_are_ten_decibels_louder() -> None:
    assert level_of_equal(level_dba=40, count=10) == pytest.approx(50)


@pytest.mark.parametrize(("water", "digit"), [("drips", 2), ("spray", 3), ("splash", 4), ("jets", 5)])
def test_the_second_digit_of_the_ip_code(water: str, digit: int) -> None:
    """EN 60529: 2 drips up to 15 degrees, 3 spray up to 60 degrees, 4 splash, 5 jets."""
    assert BOOK.cell("ip_water", water).value == digit


def test_a_drive_at_1500_metres() -> None:
    """An industrial drive's derating table: 0.95 of its output at 1500 m."""
    start_m = float(BOOK.figure("thin_air_cooling_start").value)
    loss_pct = float(BOOK.figure("thin_air_cooling_loss").value)
    left = power_left_in_thin_air(altitude_m=1_500, start_m=start_m, per_100_m_pct=loss_pct)
    assert left == pytest.approx(95)


@pytest.mark.parametrize(("altitude", "factor"), [(3_000, 0.88), (4_000, 0.78), (5_000, 0.68)])
def test_insulation_of_switchgear_at_a_height(altitude: float, factor: float) -> None:
    """IEC 61439-2, as a switchgear maker prints it."""
    assert BOOK.cell("thin_air_insulation", altitude).value == factor
