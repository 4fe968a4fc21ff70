"""How a working reads: what was given, the cell that was read, the formula with names and with numbers."""

from ferrule import display
from ferrule.physics import module, threephase
from ferrule.rules import load
from ferrule.working import Trace


def test_a_given_value_has_its_unit_and_its_origin() -> None:
    t = Trace(load("iec-2024"))
    t.given("coldest_c", -16.0, "site")
    t.given("voc_v", 38.94)
    assert list(display.working(tuple(t.steps))) == ["coldest = −16 °C  (site)", "voc = 38.94 V"]


def test_a_cell_has_its_keys_source_and_grade() -> None:
    t = Trace(load("iec-2024"))
    t.read("grouping_factor", 2, "bunched")
    (line,) = display.working(tuple(t.steps))
    assert line == "grouping factor [2, bunched] = 0.8  (IEC 60364-5-52:2009 table B.52.17; verified)"


def test_a_formula_stands_once_with_names_and_once_with_numbers() -> None:
    t = Trace(load("iec-2024"))
    t.calculate(threephase.current_from_apparent_power, apparent_va=3000.0, lines=1, line_to_neutral_v=230.0)
    named, numbered = display.working(tuple(t.steps))
    assert named.startswith("current from apparent power = ")
    assert "3 kVA" in numbered
    assert "230 V" in numbered
    assert numbered.endswith("= 13.04 A")
    assert numbered.index("=") == named.index("=")


def test_a_negative_number_in_a_formula_stands_in_brackets() -> None:
    t = Trace(load("iec-2024"))
    t.calculate(module.voltage_at_cell, stc_v=38.9, coefficient_v_per_k=-0.1011, cell_c=-16.0)
    _, numbered = display.working(tuple(t.steps))
    assert numbered.endswith("= 38.9 V + (−0.1011 V/K) × ((−16 °C) − 25) = 43.05 V")
