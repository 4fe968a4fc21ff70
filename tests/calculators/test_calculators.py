"""Every calculator runs its own example, says what it takes, and answers alike however a unit is spelled."""

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.calculators import CALCULATORS, BadInput, Calculator, NoAnswer
from ferrule.quantity import UNITS, QuantityError, Size, Unit, split

EACH = pytest.mark.parametrize("calculator", CALCULATORS.values(), ids=CALCULATORS)


def results(name: str, **given: str) -> dict[str, Any]:
    """The results of a calculator's example with some inputs changed."""
    calculator = CALCULATORS[name]
    outcome = calculator.work({**calculator.example, **given})
    return {each.field.key: each.value for each in outcome.results}


def sound(calculator: Calculator, given: dict[str, str]) -> bool:
    """Whether an answer is finite, or refused in words. Anything else that is raised fails the test."""
    try:
        outcome = calculator.work(given)
    except (BadInput, NoAnswer) as refused:
        return bool(str(refused))
    values = [each.value for each in outcome.results if isinstance(each.value, float)]
    return all(math.isfinite(value) for value in values)


def test_the_trade_finds_what_it_asks_for() -> None:
    """By the words of the trade."""
    assert {
        "string-voltage", "string-length", "string-fuse", "reverse-current", "earth-fault-place",
        "cell-temperature", "voltage-to-standard", "voltage-from-standard", "current-to-standard",
        "current-from-standard", "surge-critical-length", "voltage-drop", "voltage-rise", "capacity",
        "smallest-conductor", "breaker-coordination", "loop-limit", "loop-impedance", "adiabatic",
        "fault-current", "rod-electrode", "tape-electrode", "tt-check", "rcd-limits", "battery-current",
        "battery-fault-current", "inverter-clearing", "neutral-current", "motor-start",
        "array-insulation-test", "circuit-insulation-test", "current-transformer",
        "fixing-loads", "anchor-check", "lag-screw", "timber-screw", "floor-stand", "bus-resistance",
        "bus-idle-voltage",
    } <= set(CALCULATORS)  # fmt: skip


@EACH
def test_the_example_runs_and_shows_its_working(calculator: Calculator) -> None:
    outcome = calculator.work(calculator.example)
    assert outcome.steps
    assert outcome.sources[0] == calculator.source
    assert (outcome.grade is not None) is bool(list(outcome.reads))
    for each in outcome.results:
        if isinstance(each.value, float):
            assert math.isfinite(each.value)
            assert each.field.unit.low <= each.value <= each.field.unit.high


@EACH
def test_what_goes_in_and_comes_out_is_told_apart(calculator: Calculator) -> None:
    for fields in (calculator.inputs, calculator.outputs):
        keys = [each.key for each in fields]
        assert len(keys) == len(set(keys))
        assert all(key.replace("_", "").isalnum() and key.islower() for key in keys)
    assert calculator.title.endswith(".")
    required = {each.key for each in calculator.inputs if each.required}
    assert required <= set(calculator.example) <= {each.key for each in calculator.inputs}


@EACH
def test_every_missing_input_is_named_at_once(calculator: Calculator) -> None:
    with pytest.raises(BadInput) as told:
        calculator.work({})
    required = [each.key for each in calculator.inputs if each.required]
    assert [line.partition(" ")[0] for line in told.value.lines] == required
    assert all("allowed is" in line for line in told.value.lines)


@EACH
def test_units_spelled_differently_give_the_same_result(calculator: Calculator) -> None:
    """Each input of the example in every spelling there is for its unit."""
    plain = calculator.work(calculator.example)
    for each in calculator.inputs:
        if each.kind != "quantity" or each.key not in calculator.example:
            continue
        value = each.unit.parse(calculator.example[each.key])
        for spelling, scale in UNITS[each.unit.symbol].items():
            text = f"{(value - scale.offset) / scale.factor!r} {spelling}".strip()
            if each.unit.whole or (spelling == "" and split(calculator.example[each.key])[1]):
                continue
            other = calculator.work({**calculator.example, each.key: text})
            for ours, theirs in zip(plain.results, other.results, strict=True):
                if isinstance(ours.value, float):
                    assert theirs.value == pytest.approx(ours.value, rel=1e-9, abs=1e-12), text
                else:
                    assert theirs.value == ours.value, text


@EACH
@given(text=st.text(max_size=80))
def test_no_text_breaks_it(calculator: Calculator, text: str) -> None:
    """Whatever stands in the first input's place is taken or refused."""
    assert sound(calculator, {**calculator.example, calculator.inputs[0].key: text})


@EACH
@pytest.mark.parametrize("text", ["0", "1e300", "nan", "-1", "0 V", "1e9 A", "0 A", "0 m", "1e-9 m", "0 ohm"])
def test_extremes_are_taken_or_refused(calculator: Calculator, text: str) -> None:
    for each in calculator.inputs:
        assert sound(calculator, {**calculator.example, each.key: text}), each.key


def test_mistakes_are_told_together_with_what_is_allowed() -> None:
    with pytest.raises(BadInput) as told:
        CALCULATORS["voltage-drop"].work({"lenght": "25 m", "size": "4", "current": "5 kV", "phases": "2"})
    lines = told.value.lines
    assert lines[0].startswith("it takes no 'lenght'; did you mean 'length'?")
    assert any(line.startswith("size = '4': allowed is a conductor size") for line in lines)
    assert any("kA" in line and line.startswith("current = '5 kV'") for line in lines)
    assert any("1, 3" in line and line.startswith("phases = '2'") for line in lines)
    assert [line.split()[0] for line in lines[4:]] == ["length", "voltage"]


@pytest.mark.parametrize("text", ["-0.26 %/K", "-0.26 %/°C", "-101.14 mV/K", "-0.10114 V/K"])
def test_a_coefficient_in_either_unit(text: str) -> None:
    assert results("string-voltage", voc_coefficient=text)["string"] == pytest.approx(516.56088)


@pytest.mark.parametrize("text", ["-0.26", "5.9 mA/K", "-0.26 V", "much"])
def test_a_coefficient_of_something_else(text: str) -> None:
    with pytest.raises(BadInput, match="V/K"):
        results("string-voltage", voc_coefficient=text)


def test_a_string_between_its_limits() -> None:
    """12 × 43.05 V = 516.6 V is below 600 V, as is 13 × 43.05 = 559.6 V; 9 × 27.59 V reach 240 V."""
    found = results("string-length")
    assert (found["longest"], found["shortest"]) == (13, 9)
    assert 13 * found["cold_module"] < 600 <= 14 * found["cold_module"]
    assert 8 * found["hot_module"] < 240 <= 9 * found["hot_module"]


def test_cold_cells_lie_above_the_line_of_a_coefficient() -> None:
    """By 2 % at -20 °C (cold_line_shortfall), as the check of a string has it: 516.56 V × 1.02 = 526.9 V; of
    600 V, 13 modules of 45.7 V leave room above the line and not above what cold cells may reach.
    """
    assert results("string-voltage")["most"] == pytest.approx(516.56088 * 1.02)
    found = results("string-length", voc="41.3 V")
    assert (found["longest"], found["longest_above_line"]) == (13, 12)


def test_strings_in_parallel_and_their_fuse() -> None:
    """2 × 13.9 = 27.8 A is more than 25 A; from 1.5 × 13.9 = 20.85 A on and not above 25 A."""
    assert results("string-fuse") == {"needed": True, "reverse": 27.8, "rating": 25, "rating_most": 25}
    assert results("string-fuse", strings="2") == {
        "needed": False, "reverse": 13.9, "rating": None, "rating_most": None,
    }  # fmt: skip
    assert results("string-fuse", series_fuse_max="20 A")["rating"] is None


def test_to_standard_conditions_and_back() -> None:
    there = CALCULATORS["voltage-to-standard"]
    stc = results(there.name, light_factor="0.05")
    assert stc["low"] == stc["high"]
    back = results("voltage-from-standard", voc=f"{stc['low']} V", light_factor="0.05")
    assert back["low"] == pytest.approx(440)
    current = results("current-to-standard")["current"]
    again = results("current-from-standard", isc=f"{current} A")["current"]
    assert again == pytest.approx(9.8)


def test_the_smallest_conductor_is_the_first_that_fits() -> None:
    """46 A × 0.85 = 39.1 A carry 32 A; 4 mm² would carry 34 A × 0.85 = 28.9 A."""
    assert results("smallest-conductor") == {"size": Size("mm²", "6"), "capacity": pytest.approx(39.1)}
    assert (
        results("smallest-conductor", rating="125 A", design="125 A", ambient="60 °C", circuits="9")["size"]
        is None
    )
    fitting = results("breaker-coordination")
    assert fitting == {"protected": True, "capacity": pytest.approx(39.1), "rating_most": 32}
    assert results("breaker-coordination", size="4 mm²")["protected"] is False
    assert results("breaker-coordination", design="33 A")["protected"] is False


def test_the_american_rules_know_the_same_question() -> None:
    """NFPA 70:2023: 40 A at 60 °C terminals for 1.25 × 32 A."""
    american = {
        "edition": "us-2023", "design": "32 A", "rating": "40 A", "circuits": "1", "method": "B1",
        "ambient": "30 °C", "insulation": "pvc",
    }  # fmt: skip
    assert str(results("smallest-conductor", **american)["size"]) == "8 AWG"
    with pytest.raises(NoAnswer, match="has not got"):
        results("voltage-drop", edition="us-2023")


def test_a_conductor_that_does_not_survive() -> None:
    """1200² · 0.4 = 576 000 A²s against 115² · 36 = 476 100 A²s; √576000 / 115 = 6.6 mm²."""
    found = results("adiabatic")
    assert found["survives"] is False
    assert (found["let_through"], found["bears"]) == (576_000, 476_100)
    assert found["smallest"] == pytest.approx(6.6, abs=0.001)
    assert results("adiabatic", size="10 mm²")["survives"] is True
    for time in ("0.09 s", "5.1 s"):
        with pytest.raises(NoAnswer, match="the formula holds"):
            results("adiabatic", time=time)


@pytest.mark.parametrize(
    ("source", "lasts", "tripped"),
    [
        ("80 A", "100 ms", (16, 6, None)),
        ("79.9 A", "100 ms", (13, 6, None)),
        ("120 A", "0.1 s", (20, 10, 6)),
        ("80 A", "90 ms", (None, None, None)),
    ],
)
def test_which_breakers_an_inverter_trips(source: str, lasts: str, tripped: tuple[float | None, ...]) -> None:
    """Type B trips at 5, C at 10, D at 20 times its rating, each within 0.1 s."""
    found = results("inverter-clearing", source=source, lasts=lasts)
    assert tuple(found.values()) == tripped


def test_a_breaker_without_a_curve_asks_for_it() -> None:
    calculator = CALCULATORS["loop-limit"]
    given = {key: text for key, text in calculator.example.items() if key != "curve"}
    with pytest.raises(NoAnswer, match="curve"):
        calculator.work(given)
    assert calculator.work({**given, "device": "fuse-gG"}).results[1].value == pytest.approx(230 / 150)


def test_what_belongs_together_is_asked_for_together() -> None:
    fault = CALCULATORS["battery-fault-current"]
    alone = {"highest": "57.6 V", "internal": "12 mohm"}
    assert [each.value for each in fault.work(alone).results] == [pytest.approx(4800), None]
    with pytest.raises(NoAnswer, match="both or neither"):
        fault.work({**alone, "length": "2 m"})
    with pytest.raises(NoAnswer, match="spacing"):
        CALCULATORS["rod-electrode"].work(
            {"soil": "100 ohm m", "length": "2.4 m", "diameter": "16 mm", "rods": "2"}
        )


@pytest.mark.parametrize("name", ["dc-voltage-drop", "battery-fault-current", "current-transformer"])
def test_an_american_size_is_no_row_of_a_metric_table(name: str) -> None:
    with pytest.raises(NoAnswer, match="tabulated for mm²"):
        results(name, size="AWG 10")


@pytest.mark.parametrize(
    ("changed", "expected"),
    [({"line_2": "16 A", "line_3": "16 A"}, 0.0), ({"line_2": "0 A", "line_3": "0 A"}, 16.0),
     ({"line_2": "16 A", "line_3": "16 A", "angle_2": "0°", "angle_3": "0°"}, 48.0)],
)  # fmt: skip
def test_neutral(changed: dict[str, str], expected: float) -> None:
    assert results("neutral-current", **changed)["current"] == pytest.approx(expected, abs=1e-9)


def test_a_wrong_type_of_number_says_what_is_allowed() -> None:
    with pytest.raises(QuantityError):
        Unit("", 1, 20, whole=True).parse("1.5")
    with pytest.raises(BadInput, match="whole number"):
        results("capacity", circuits="1.5")


def test_a_voltage_coefficient_without_its_minus_sign_is_refused() -> None:
    """It would take a cold morning for a mild one."""
    with pytest.raises(BadInput, match="minus sign"):
        results("string-voltage", voc_coefficient="0.26 %/K")


@pytest.mark.parametrize(
    ("name", "key", "nothing"),
    [
        ("string-voltage", "modules", "0"),
        ("string-fuse", "strings", "0"),
        ("voltage-to-standard", "irradiance", "0 W/m²"),
        ("voltage-from-standard", "irradiance", "0 W/m²"),
        ("string-voltage", "voc", "0 V"),
        ("battery-fault-current", "highest", "0 V"),
        ("battery-fault-current", "packs", "0"),
        ("array-insulation-test", "voc", "0 V"),
    ],
)
def test_nothing_is_refused_with_what_is_allowed(name: str, key: str, nothing: str) -> None:
    with pytest.raises(BadInput, match=f"{key} = '{nothing}': allowed is .* not below 1"):
        results(name, **{key: nothing})


@pytest.mark.parametrize("name", ["voltage-to-standard", "voltage-from-standard"])
def test_a_coefficient_without_its_minus_sign_is_refused(name: str) -> None:
    with pytest.raises(BadInput, match=r"voc_coefficient = '0.26 %/K': allowed is .* not above 0"):
        results(name, voc_coefficient="0.26 %/K")


@pytest.mark.parametrize(
    ("name", "given"),
    [
        ("earth-fault-resistance", {"open": "400 V"}),  # the two poles show 450 V to earth
        ("rod-electrode", {"diameter": "16 m"}),
        ("current-to-standard", {"coefficient": "-5 %/K"}),
        ("string-voltage", {"coldest": "1100 °C"}),
    ],
)
def test_what_cannot_be_is_not_told_as_a_result(name: str, given: dict[str, str]) -> None:
    with pytest.raises(NoAnswer, match=r"of -.* would follow, which cannot be"):
        results(name, **given)
