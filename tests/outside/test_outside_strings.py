"""Findings about strings against worked examples in print, put to the demo house as a person would."""

from typing import Any

import pytest

from ferrule.answering import Answer
from ferrule.constraint import Constraint, Verdict
from ferrule.design import Decided
from ferrule.job.array import StringFuse
from houses import REMOVED, answered, constraint, finding

MODULE = "parts.example-mono-430"
INPUT = "parts.example-hybrid-6k-single.trackers.PV1"


def judged(result: Answer, question: str, subject: str, name: str) -> Constraint:
    return constraint(finding(result, question, subject), name)


def test_table_factor_of_a_french_course() -> None:
    """Course on grid-connected photovoltaics (photovoltaique.guidenr.fr, 2011, modules in series), after UTE
    C 15-712-1: 12 × 37.95 V × 1.14 = 519.156 V, below the 550 V of the inverter.
    """
    result = answered(
        {
            f"{MODULE}.voc": "37.95 V",
            f"{MODULE}.voc_coefficient": REMOVED,
            f"{INPUT}.voltage_max": "550 V",
            "site.coldest": "-10 °C",
        }
    )
    found = judged(result, "string.cold_voltage", "string/S1", "inverter_input")
    assert found.value == pytest.approx(519.156, abs=0.0005)
    assert found.verdict is Verdict.PASS


def test_flat_factor_of_a_french_examination() -> None:
    """Examination paper with answers on photovoltaics (studylibfr.com 76714, April 2017, page 4): 14 × 33.8 V
    × 1.15 = 544.18 V, below 550 V; 14 is the most the inverter takes.
    """
    declared: dict[str, Any] = {
        "site.cold_factor": 1.15,
        "site.coldest": REMOVED,
        f"{MODULE}.voc": "33.8 V",
        f"{INPUT}.voltage_max": "550 V",
        "strings.S1.modules": 14,
    }
    result = answered(declared)
    found = judged(result, "string.cold_voltage", "string/S1", "inverter_input")
    assert found.value == pytest.approx(544.18, abs=0.005)
    assert found.verdict is Verdict.PASS
    length = judged(result, "string.length", "string/S1", "length")
    assert dict(length.words)["high"] == 14


def test_coefficient_against_flat_factor_in_a_note_for_the_french_inspection() -> None:
    """A French dealer's note for the conformity inspection of one module on an input of 58 V: 1.2 × 49.7 V =
    59.64 V is too much, but −0.25 %/°C down to −20 °C makes 55.29 V, which passes.
    """
    one: dict[str, Any] = {
        f"{MODULE}.voc": "49.7 V",
        f"{MODULE}.voc_coefficient": "-0.25 %/K",
        f"{INPUT}.voltage_max": "58 V",
        "site.coldest": "-20 °C",
        "strings.S1.modules": 1,
    }
    detailed = judged(answered(one), "string.cold_voltage", "string/S1", "inverter_input")
    assert detailed.value == pytest.approx(55.29, abs=0.005)
    assert detailed.verdict is Verdict.PASS
    simplified = judged(
        answered({**one, "site.cold_factor": 1.2}), "string.cold_voltage", "string/S1", "inverter_input"
    )
    assert simplified.value == pytest.approx(59.64, abs=0.005)
    assert simplified.verdict is Verdict.FAIL


def test_hot_and_cold_module_of_a_training_course() -> None:
    """Course on grid-connected design, complete example (scribd.com 700875877): the sheet has no coefficient
    of Vmp, so that of power, 0.145 V/°C, is taken: 38.1 − 0.145 × (75 − 25) = 30.85 V. Cold: 45.8 − 0.133 ×
    (0 − 25) = 49.12 V (49.125 before it was cut).
    """
    result = answered(
        {
            f"{MODULE}.vmp": "38.1 V",
            f"{MODULE}.vmp_coefficient": REMOVED,
            f"{MODULE}.power_coefficient": f"{-100 * 0.145 / 38.1} %/K",
            f"{MODULE}.isc_coefficient": "0 %/K",  # the course leaves that of the current out
            f"{MODULE}.voc": "45.8 V",
            f"{MODULE}.voc_coefficient": "-0.133 V/K",
            "site.hottest": "25 °C",  # and 50 K close to the roof
            "site.coldest": "0 °C",
            "strings.S1.modules": 1,
        }
    )
    hot = judged(result, "string.hot_voltage", "string/S1", "tracking_low")
    assert hot.value == pytest.approx(30.85, abs=0.005)
    cold = judged(result, "string.cold_voltage", "string/S1", "inverter_input")
    assert cold.value == pytest.approx(49.12, abs=0.006)


def strings(count: int) -> dict[str, Any]:
    """So many strings of 16 modules of 51.7 V and 12.28 A, marked for fuses of 20 A, on one input."""
    alike = {"module": "example-mono-430", "modules": 16, "face": "south", "input": "INV1.PV1"}
    return {
        f"{MODULE}.voc": "51.7 V",
        f"{MODULE}.voc_coefficient": "0 V/K",  # the examples leave the cold out
        f"{MODULE}.isc": "12.28 A",
        f"{MODULE}.imp": "11.6 A",
        f"{MODULE}.series_fuse_max": "20 A",
        "strings": [{"id": f"S{n}", **alike} for n in range(1, count + 1)],
        "runs.R-S2.to": "INV1.PV1",
    }


def test_two_strings_need_no_fuse() -> None:
    """Article on fuses for rooftop projects by IS/IEC 62548 (solarsaarthi.com), example 1: (2 − 1) × 12.28 A
    is less than the 20 A the modules are marked for.
    """
    result = answered(strings(2))
    assert result.design.choices[Decided("string_fuse", "S1")] == "none"
    found = judged(result, "string.fuse", "string/S1", "unfused")
    assert found.value == pytest.approx(12.28)
    assert found.limit == 20


def test_four_strings_take_fuses_of_20_a_and_1000_v() -> None:
    """The same article, example 2: (4 − 1) × 12.28 = 36.84 A is more than 20 A; the fuse is to lie above
    18.42 A and below 29.47 A, at 20 A at most, and above 51.7 V × 16 = 827 V: 20 A, 1000 V.
    """
    result = answered(strings(4))
    fuse = result.design.choices[Decided("string_fuse", "S1")]
    assert isinstance(fuse, StringFuse)
    assert (fuse.rating_a, fuse.voltage_max_v) == (20, 1000)
    bare = judged(answered({**strings(4), "strings.0.fuse": "none"}), "string.fuse", "string/S1", "unfused")
    assert bare.value == pytest.approx(36.84)
    assert bare.verdict is Verdict.FAIL
    least, most = (judged(result, "string.fuse", "string/S1", name) for name in ("fuse_least", "fuse_most"))
    assert least.limit == pytest.approx(18.42)
    assert most.limit == pytest.approx(29.47, abs=0.005)


def test_a_string_cable_of_4_mm2() -> None:
    """Worked sheet on direct-current cables (scribd.com 505154620): 9.03 A × 1.25 = 11.2875 A, on a cable
    that carries 44 A; 8.5 A over 120 m of conductor of 5.09 Ω/km lose 0.68857 % of 20 × 37.7 V. The sheet
    takes the conductor at 20 °C and we at 90 °C, which for copper is (234.5 + 90)/(234.5 + 20) times as much.
    """
    result = answered(
        {
            f"{MODULE}.isc": "9.03 A",
            f"{MODULE}.imp": "8.5 A",
            f"{MODULE}.vmp": "37.7 V",
            "strings.S1.modules": 20,
            "runs.R-S1.size": "4 mm²",
            "runs.R-S1.stretches": [{"length": "60 m", "method": "C", "ambient": "40 °C", "circuits": 1}],
        }
    )
    capacity = judged(result, "run.dc_capacity", "run/R-S1", "string_current")
    assert capacity.value == pytest.approx(44)
    assert capacity.limit == pytest.approx(11.2875)
    drop = judged(result, "run.dc_drop", "run/R-S1", "drop")
    assert drop.value == pytest.approx(0.68857 * 324.5 / 254.5, rel=1e-5)


@pytest.mark.parametrize(("building", "constant"), [("dwelling", 115), ("ground", 200), ("other", 450)])
def test_critical_length_of_a_french_guide(building: str, constant: float) -> None:
    """Guide after UTE C 15-712-1 (photovoltaique.guidenr.fr, surge protection of the DC side): 115, 200 and
    450 over the flash density; at the critical length itself protection is obligatory.
    """
    flashes = constant / 39  # the demo house has 18 m of cable from one face and 21 m from the other
    edits = {"site.building": building, "site.lightning_density": f"{flashes} /km²/year"}
    none = {"devices.INV1.inputs": [{"id": "PV1", "surge": "none"}]}
    found = judged(answered({**edits, **none}), "input.surge", "input/INV1.PV1", "critical_length")
    assert found.limit == pytest.approx(39)
    assert found.verdict is Verdict.FAIL


def test_ways_are_added_as_the_french_guide_adds_them() -> None:
    """The same guide: lengths are added where the ways differ, and count once where the cables share one."""
    apart = judged(answered(), "input.surge", "input/INV1.PV1", "critical_length")
    together = judged(
        answered({"strings.S2.face": "south"}), "input.surge", "input/INV1.PV1", "critical_length"
    )
    assert (apart.value, together.value) == (39, 21)


def test_the_isolator_of_a_french_guide() -> None:
    """Guide after UTE C 15-712-1 (photovoltaique.guidenr.fr, rating of switches on the DC side): 1.25 times
    the short-circuit current, and the open-circuit voltage times the factor of the coldest temperature.
    """
    result = answered(
        {
            "parts.example-hybrid-6k-single.dc_switch": "no",
            f"{MODULE}.voc": "40 V",
            f"{MODULE}.voc_coefficient": REMOVED,
            f"{MODULE}.isc": "10 A",
            f"{MODULE}.imp": "9.5 A",
            "site.coldest": "-18 °C",
        }
    )
    current = judged(result, "input.isolator", "input/INV1.PV1", "isolator_current")
    assert current.limit == pytest.approx(12.5)
    voltage = judged(result, "input.isolator", "input/INV1.PV1", "isolator_voltage")
    assert voltage.value == pytest.approx(12 * 40 * 1.18)
