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


FOOT_M = 0.3048
#: areas of ASTM B258-02
AWG_10_MM2, AWG_12_MM2 = 5.261, 3.309


def of_copper(area_mm2: float) -> float:
    return 1000 / (58 * area_mm2)


@pytest.mark.parametrize(("area_mm2", "enough"), [(AWG_10_MM2, True), (AWG_12_MM2, False)])
def test_the_lead_of_a_printed_example(area_mm2: float, enough: bool) -> None:
    """A transformer maker's chart of burdens: a meter of 0.75 VA, 30 ft one way, 5 A
    and 2.5 VA at the transformer ask for 0.07 Ω, which is 10 AWG or larger.
    """
    lead = {"length_m": 30 * FOOT_M, "resistance_ohm_per_km": of_copper(area_mm2)}
    taken_va = connected_burden(meter_va=0.75, secondary_a=5.0, **lead)
    assert (taken_va <= 2.5) is enough
    limit = {"length_m": 1.0, "resistance_ohm_per_km": 1000 * 0.07 / 2}
    assert connected_burden(meter_va=0.75, secondary_a=5.0, **limit) == pytest.approx(2.5)


def test_a_lead_counted_one_way_only_looks_short_enough() -> None:
    """In that example 12 AWG would do if the way back were forgotten."""
    one_way_va = 0.75 + 5**2 * 30 * FOOT_M * of_copper(AWG_12_MM2) / 1000
    assert one_way_va < 2.5


@pytest.mark.parametrize(("secondary_a", "too_much"), [(5.0, 5.8), (1.0, 29.0)])
def test_a_rule_with_the_current_not_squared(secondary_a: float, too_much: float) -> None:
    """An instrument maker's page on selecting transformers takes A·m/mm² for the volt-amperes of a lead,
    there and back: it asks for six times the burden at 5 A, and for 29 times at 1 A.
    """
    lead = {"length_m": 10.0, "resistance_ohm_per_km": of_copper(2.5)}
    taken_va = connected_burden(meter_va=0.0, secondary_a=secondary_a, **lead)
    assert secondary_a * 10 / 2.5 / taken_va == pytest.approx(too_much, rel=0.005)


#: largest ratio errors in % at 5, 20 and 100 % of the primary current, IEC 61869-2:2012 table 201, as two
#: makers of transformers print it
ERRORS_PCT = {0.1: (0.4, 0.2, 0.1), 0.2: (0.75, 0.35, 0.2), 0.5: (1.5, 0.75, 0.5), 1: (3.0, 1.5, 1.0)}


@pytest.mark.parametrize("named", ERRORS_PCT)
def test_a_fifth_of_the_primary_is_where_a_class_may_still_err_by_twice_its_name(named: float) -> None:
    at_5, at_20, at_100 = ERRORS_PCT[named]
    assert BOOK.figure("ct_full_share_least").value == 20
    assert at_100 == named
    assert at_20 <= 2 * named < at_5


def test_one_ampere_takes_a_twenty_fifth() -> None:
    five, one = (
        connected_burden(meter_va=0.0, secondary_a=a, length_m=10.0, resistance_ohm_per_km=ohm_per_km(1.5))
        for a in (5.0, 1.0)
    )
    assert five / one == pytest.approx(25)
