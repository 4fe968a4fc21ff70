"""Burden of current transformers' leads against a second way and a rule of the trade."""

import pytest

from ferrule import rules
from ferrule.physics.instrument import connected_burden

BOOK = rules.load("iec-2024")


def ohm_per_km(size: float) -> float:
    return float(BOOK.cell("ct_lead_resistance", size).value)


@pytest.mark.parametrize("size", [1.5, 2.5, 4.0])
def test_the_lead_resistances_are_those_of_the_cables(size: float) -> None:
    """IEC 60228:2004 table 3, class 5, as the rulebook's other table prints it."""
    assert ohm_per_km(size) == BOOK.cell("conductor_resistance", size, "cu_class5").value


@pytest.mark.parametrize(("size", "by_copper_va"), [(1.5, 5.8), (2.5, 3.5), (4.0, 2.2)])
def test_five_amperes_over_ten_metres(size: float, by_copper_va: float) -> None:
    """I²R of pure copper (1/58 Ω·mm²/m, IEC 60028:1925) there and back is the least a lead can take; fine
    strands may take a sixth more.
    """
    least_va = 5**2 * 2 * 10 / (58 * size)
    assert least_va == pytest.approx(by_copper_va, abs=0.06)
    taken_va = connected_burden(
        meter_va=0.0, secondary_a=5.0, length_m=10.0, resistance_ohm_per_km=ohm_per_km(size)
    )
    assert least_va < taken_va < least_va * 7 / 6


def test_one_ampere_takes_a_twenty_fifth() -> None:
    five, one = (
        connected_burden(meter_va=0.0, secondary_a=a, length_m=10.0, resistance_ohm_per_km=ohm_per_km(1.5))
        for a in (5.0, 1.0)
    )
    assert five / one == pytest.approx(25)
