"""The tables of the rulebook iec-2024 against the formulas behind them and against published results."""

import math

import pytest

from ferrule import rules
from ferrule.rules.entry import Table

BOOK = rules.load("iec-2024")


def printed(name: str) -> list[tuple[str, str, float]]:
    """Every printed cell of a table: row, column, value."""
    table = BOOK.entry(name)
    assert isinstance(table, Table)
    return [
        (row, column, float(value))
        for row, cells in zip(table.rows, table.cells, strict=True)
        for column, value in zip(table.columns, cells, strict=True)
        if value is not None
    ]


def read(name: str, row: str | float, column: str | None = None) -> float:
    return float(BOOK.cell(name, row, column).value)


def figure(name: str) -> float:
    return float(BOOK.figure(name).value)


def square_root(limit_c: float, ambient_c: float, reference_c: float) -> float:
    return math.sqrt((limit_c - ambient_c) / (limit_c - reference_c))


@pytest.mark.parametrize(
    ("name", "reference"),
    [
        ("air_temperature_factor", "capacity_air_reference"),
        ("ground_temperature_factor", "capacity_ground_reference"),
    ],
)
def test_temperature_factors_are_their_formula_to_two_places(name: str, reference: str) -> None:
    """IEC 60364-5-52:2009 tables B.52.14 and B.52.15; IEC 60287-1-1:2006 clause 1.4, losses left out.

    Heat given off grows with the temperature difference and heat made with the square of the current.
    """
    cells = printed(name)
    assert len(cells) == 26
    for ambient, insulation, value in cells:
        limit_c = read("insulation_temperature", insulation, "operating")
        assert value == round(square_root(limit_c, float(ambient), figure(reference)), 2), (
            ambient,
            insulation,
        )


def test_pv_cable_square_root_column_is_its_formula_to_two_places() -> None:
    """IEC 60287-1-1:2006 clause 1.4 without losses, with the limits of EN 50618:2014."""
    limit_c = read("insulation_temperature", "pv", "operating")
    for ambient, column, value in printed("pv_cable_temperature_factor"):
        exact = square_root(limit_c, float(ambient), figure("pv_cable_ambient_reference"))
        if column == "square_root":
            assert value == round(exact, 2)
        else:
            assert exact <= value + 0.005, "the printed factor is the more generous one"


def test_every_k_is_its_formula_to_the_printed_digit() -> None:
    """IEC 60364-5-54:2011 annex A: k = K · √ln((β + θf)/(β + θi)), with tables A.54.2 to A.54.5 and 43A."""
    cells = printed("adiabatic_k")
    assert len(cells) == 25
    for conductor, metal, value in cells:
        beta = read("zero_resistance_temperature", metal)
        start_c, final_c = (read("adiabatic_temperature", conductor, at) for at in ("start", "final"))
        exact = read("adiabatic_material", metal) * math.sqrt(math.log((beta + final_c) / (beta + start_c)))
        assert value == round(exact), (conductor, metal)


def test_service_resistivity_is_a_quarter_above_that_at_20_c() -> None:
    """IEC 60364-5-52:2009 annex G: 1.25 times the resistivity at 20 °C, 0.018 and 0.0288 Ω·mm²/m."""
    assert read("service_resistivity", "cu") == pytest.approx(1.25 * 0.018)
    assert read("service_resistivity", "al") == pytest.approx(1.25 * 0.0288)


@pytest.mark.parametrize(
    ("area_mm2", "drop", "places"), [(1.5, 30, 0), (2.5, 18, 0), (4, 11.2, 1), (10, 4.5, 1), (16, 2.8, 1)]
)
def test_drop_per_ampere_and_kilometre_of_a_printed_guide(area_mm2: float, drop: float, places: int) -> None:
    """Electrical installation guide 2010, figure G28, single-phase lighting column, V/(A·km)."""
    exact = 2 * read("service_resistivity", "cu") / area_mm2 * 1000
    assert exact == pytest.approx(drop, abs=0.5 * 10**-places + 1e-9)


BS7671_LOOP_OHM = {
    6: (7.28, 3.64, 1.82), 10: (4.37, 2.19, 1.09), 16: (2.73, 1.37, 0.68), 20: (2.19, 1.09, 0.55),
    25: (1.75, 0.87, 0.44), 32: (1.37, 0.68, 0.34), 40: (1.09, 0.55, 0.27), 50: (0.87, 0.44, 0.22),
    63: (0.69, 0.35, 0.17), 80: (0.55, 0.27, 0.14), 100: (0.44, 0.22, 0.11), 125: (0.35, 0.17, 0.09),
}  # fmt: skip


@pytest.mark.parametrize("rating_a", BS7671_LOOP_OHM)
def test_highest_loop_impedance_of_breakers(rating_a: int) -> None:
    """BS 7671:2018 table 41.3: 0.95 · 230 V over the current that surely trips the breaker, in Ω."""
    for kind, loop_ohm in zip("BCD", BS7671_LOOP_OHM[rating_a], strict=True):
        exact = figure("voltage_factor_least_uk") * 230 / (read("breaker_trip", kind, "trip") * rating_a)
        assert exact == pytest.approx(loop_ohm, abs=0.005 + 1e-9), kind


@pytest.mark.parametrize(("loop_ohm", "tested_ohm"), [(7.28, 5.82), (4.37, 3.50), (2.73, 2.18), (1.37, 1.10)])
def test_loop_impedance_allowed_when_measured_cold_in_britain(loop_ohm: float, tested_ohm: float) -> None:
    """BS 7671:2018 appendix 3 and the test values beside table 41.3: 0.8 of the tabulated limit, in Ω."""
    assert round(figure("loop_measured_share_uk") * loop_ohm, 2) == tested_ohm


def test_loop_impedance_allowed_when_measured_cold() -> None:
    """IEC 60364-6:2016 annex D.6.4.3.7.2, worked: 230 V and 160 A allow 0.958 Ω."""
    allowed_ohm = figure("loop_measured_share") * 230 / 160
    assert round(allowed_ohm, 3) == 0.958
    assert allowed_ohm <= 2 / 3 * 230 / 160, "rounded to the safe side"


@pytest.mark.parametrize(("residual_a", "loop_ohm"), [(0.03, 1667), (0.1, 500), (0.3, 167), (0.5, 100)])
def test_highest_loop_impedance_of_residual_current_devices(residual_a: float, loop_ohm: int) -> None:
    """BS 7671:2018 table 41.5: 50 V over the rated residual current, in Ω."""
    assert residual_a in BOOK.series("rcd_ratings").numbers()
    assert round(figure("touch_voltage_ac") / residual_a) == loop_ohm


@pytest.mark.parametrize(("device", "factor"), [("fuse_gg", 1.10), ("fuse_gg_small", 1.31), ("mcb", 1.0)])
def test_overload_factor_of_a_device(device: str, factor: float) -> None:
    """NF C 15-100 clause 433.1: factors on the rated current for gG fuses, from 1.6 and 1.9 over 1.45."""
    trip = read("conventional_current", device, "trip")
    assert round(trip / figure("overload_multiple"), 2) == factor
