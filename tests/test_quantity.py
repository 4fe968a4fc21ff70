"""Texts become floats here and nowhere else, so this is where spelling, range and hostility are settled."""

import math
from typing import Any, get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter, ValidationError

from ferrule.quantity import (
    SUFFIXES,
    UNITS,
    AreaMm2,
    Count,
    LengthM,
    QuantityError,
    Scale,
    Size,
    TemperatureC,
    Unit,
    bare_name,
    parse,
    split,
    suffix_of_name,
    unit_of_name,
)

COUNT: Unit = get_args(Count)[1]
SPELLINGS = [(symbol, written) for symbol, spellings in UNITS.items() for written in spellings if written]


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [
        ("30 m", "m", 30.0),
        ("98 ft", "m", 98 * 0.3048),
        ("2 in", "m", 0.0508),
        ("4 mm²", "mm²", 4.0),
        ("4mm2", "mm²", 4.0),
        ("250 kcmil", "mm²", 250 * math.pi / 4 * 0.0254**2 * 1000),
        ("-10 °C", "°C", -10.0),
        ("14 °F", "°C", -10.0),
        ("-40 F", "°C", -40.0),
        ("1.21 ohm/kft", "Ω/km", 1.21 / 0.3048),
        ("18 mV/A/m", "Ω/km", 18.0),
        ("0.0225 ohm mm²/m", "Ω·mm²/m", 0.0225),
        ("40 MΩ·m²", "Ω·m²", 40e6),
        ("-0.29 %/°C", "%/K", -0.29),
        ("-120 mV/K", "V/K", -0.12),
        ("6 kA", "A", 6_000.0),
        ("0.2 s", "s", 0.2),
        ("10 min", "s", 600.0),
        ("100 kohm", "Ω", 100e3),
        ("2.5 /km²/year", "1/km²/year", 2.5),
        ("2.5 1/km²/year", "1/km²/year", 2.5),
        ("1e3 mm", "m", 1.0),
        ("+5 m", "m", 5.0),
        (".5 m", "m", 0.5),
    ],
)
def test_a_written_quantity_becomes_the_canonical_float(text: str, unit: str, value: float) -> None:
    assert parse(text, unit) == pytest.approx(value, rel=1e-14)


@pytest.mark.parametrize(
    ("text", "plain", "unit"),
    [
        ("−10 °C", "-10 °C", "°C"),  # minus sign
        ("5 \u2126", "5 Ω", "Ω"),  # ohm sign for capital omega
        ("20 º", "20 °", "°"),  # ordinal mark for degree sign
        ("100 Ω⋅m", "100 Ω·m", "Ω·m"),  # dot operator
        ("25 ℃", "25 °C", "°C"),
        ("77 ℉", "77 °F", "°C"),
        ("4\u00a0mm²", "4 mm²", "mm²"),  # no-break space
        ("\u202f4\u2009mm²", "4 mm²", "mm²"),  # thin spaces
    ],
)
def test_characters_that_look_alike_mean_the_same(text: str, plain: str, unit: str) -> None:
    assert parse(text, unit) == parse(plain, unit)


@given(
    value=st.floats(-1e9, 1e9).filter(lambda x: x == 0 or abs(x) > 1e-6), spelled=st.sampled_from(SPELLINGS)
)
def test_one_quantity_spelled_in_another_unit_is_the_same_float(
    value: float, spelled: tuple[str, str]
) -> None:
    symbol, written = spelled
    scale = UNITS[symbol][written]
    in_other_unit = (value - scale.offset) / scale.factor
    back = parse(f"{in_other_unit!r} {written}", symbol)
    assert back == pytest.approx(value, rel=1e-12, abs=1e-12 * abs(scale.offset))


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_split_reads_back_any_number(value: float) -> None:
    assert split(f"{value!r} kA") == (value, "kA")


@pytest.mark.parametrize(
    "text",
    ["", " ", "m", "m 30", "nan m", "inf m", "-inf", "1e999 m", "1/0", "3 / 4 m", "--3 m", "- 3 m", "٣ m",
     "1e3e3", pytest.param("x" * 10_000_000, id="long text"), pytest.param("9" * 10_000_000, id="digits")],
)  # fmt: skip
def test_what_is_no_number_with_a_unit_is_refused(text: str) -> None:
    with pytest.raises(QuantityError):
        parse(text, "m")


@pytest.mark.parametrize(
    "given_value",
    [
        math.nan,
        math.inf,
        -math.inf,
        True,
        False,
        None,
        [],
        [1],
        {},
        {"m": 1},
        (),
        b"3 m",
        10**400,
        1j,
        object(),
    ],
)
def test_what_a_file_may_bring_instead_of_a_number_is_refused(given_value: Any) -> None:
    """YAML yields booleans, lists and numbers beyond floats; none may crash the reader."""
    for symbol in ("m", "%"):
        with pytest.raises(QuantityError):
            Unit(symbol).parse(given_value)


@pytest.mark.parametrize("symbol", ["m", "A", "V", "Ω", "°C", "W", "mm²", "s", "W/m²"])
def test_a_bare_number_is_refused_where_two_units_are_possible(symbol: str) -> None:
    with pytest.raises(QuantityError, match="one of the units"):
        Unit(symbol).parse(4)


@pytest.mark.parametrize("symbol", ["K", "%", "Hz", "°", "Ah", "Ω·m", "K·m/W", "%/K", "1/km²/year", ""])
def test_a_bare_number_is_taken_where_only_one_unit_is_possible(symbol: str) -> None:
    assert Unit(symbol).parse("4") == Unit(symbol).parse(4) == 4.0


def test_the_ends_of_a_range_belong_to_it() -> None:
    unit = Unit("V", 0, 1000)
    assert unit.parse("0 V") == 0
    assert unit.parse("1 kV") == 1000
    for beyond in ("-1 mV", "1000.001 V", "1.0001 kV"):
        with pytest.raises(QuantityError, match=r"not below 0 and not above 1,000 V"):
            unit.parse(beyond)


def test_a_number_too_near_to_zero_is_a_slip() -> None:
    with pytest.raises(QuantityError):
        Unit("W").parse("1e-300 W")
    assert Unit("W").parse("0 W") == 0


@pytest.mark.parametrize(
    ("text", "symbol", "near"),
    [("5 KW", "W", "kW"), ("5 v", "V", "V"), ("5 Mω", "Ω", "MΩ"), ("5 mω", "Ω", "mΩ"),
     ("5 kohms", "Ω", "kohm"), ("25 °", "°C", "°C")],
)  # fmt: skip
def test_a_mistyped_unit_is_answered_with_the_nearest(text: str, symbol: str, near: str) -> None:
    with pytest.raises(QuantityError, match=f"did you mean '{near}'"):
        Unit(symbol).parse(text)


def test_a_unit_that_sheets_print_for_two_things_is_refused() -> None:
    """On some sheets 15 kA²s are fifteen thousand A²s, on others fifteen million."""
    with pytest.raises(QuantityError, match="A²s"):
        Unit("A²s").parse("15 kA²s")
    assert Unit("A²s").parse("15e3 A²s") == 15_000


@given(st.sampled_from(sorted(UNITS)), st.text(max_size=20))
def test_any_text_reads_or_is_refused_with_what_is_allowed(symbol: str, text: str) -> None:
    try:
        value = Unit(symbol).parse(text)
    except QuantityError as refused:
        refusal = str(refused)
    else:
        refusal = "" if math.isfinite(value) else "not finite"
    assert refusal == "" or "a number" in refusal or "a plain number" in refusal


def test_a_count_is_whole_and_stays_an_int() -> None:
    assert [COUNT.parse(given) for given in (12, "12", 12.0, "12.0")] == [12] * 4
    assert isinstance(COUNT.parse("12"), int)
    for refused in (12.5, "12.5", -1, "12 m", True):
        with pytest.raises(QuantityError, match=r"a whole number,? not below 0"):
            COUNT.parse(refused)


@pytest.mark.parametrize(
    ("name", "suffix", "unit", "bare"),
    [
        ("length_m", "m", "m", "length"),
        ("area_mm2", "mm2", "mm²", "area"),
        ("roof_m2", "m2", "m²", "roof"),
        ("rise_pct_per_k", "pct_per_k", "%/K", "rise"),
        ("soil_ohm_m", "ohm_m", "Ω·m", "soil"),
        ("irradiance_w_per_m2", "w_per_m2", "W/m²", "irradiance"),
        ("still_w_per_m2_k", "w_per_m2_k", "W/(m²·K)", "still"),
        ("soil_km_per_w", "km_per_w", "K·m/W", "soil"),
        ("flashes_per_km2_year", "per_km2_year", "1/km²/year", "flashes"),
        ("cos_phi", None, None, "cos_phi"),
        ("m", None, None, "m"),
    ],
)
def test_the_suffix_of_a_name_is_its_unit(name: str, suffix: str | None, unit: str | None, bare: str) -> None:
    assert (suffix_of_name(name), unit_of_name(name), bare_name(name)) == (suffix, unit, bare)


def test_every_suffix_names_a_unit_and_every_unit_but_the_plain_number_has_one() -> None:
    assert set(SUFFIXES.values()) == set(UNITS) - {""}


def test_every_canonical_unit_spells_itself() -> None:
    assert all(UNITS[symbol][symbol] == Scale(1) for symbol in UNITS)


@pytest.mark.parametrize(
    ("text", "size"),
    [
        ("4 mm²", Size("mm²", "4")),
        ("2.5mm2", Size("mm²", "2.5")),
        ("16 sqmm", Size("mm²", "16")),
        ("AWG 10", Size("AWG", "10")),
        ("10 AWG", Size("AWG", "10")),
        ("10AWG", Size("AWG", "10")),
        ("awg10", Size("AWG", "10")),
        ("AWG 08", Size("AWG", "8")),
        ("1/0 AWG", Size("AWG", "1/0")),
        ("AWG 0", Size("AWG", "1/0")),
        ("AWG 000", Size("AWG", "3/0")),
        ("250 kcmil", Size("kcmil", "250")),
        ("250 MCM", Size("kcmil", "250")),
    ],
)
def test_a_conductor_size_keeps_its_own_system(text: str, size: Size) -> None:
    assert Size.parse(text) == size


@given(
    st.sampled_from(["1.5", "2.5", "4", "6", "10", "16", "25", "35", "50", "70", "95", "120", "150", "240"])
)
def test_a_size_reads_back_as_it_prints(name: str) -> None:
    assert Size.parse(str(Size("mm²", name))) == Size("mm²", name)


@pytest.mark.parametrize(
    "text",
    ["4", "", "mm²", "-4 mm²", "0 mm²", "4 mm", "nan mm²", "5/0 AWG", "41 AWG", "AWG 10 AWG", "12.5 kcmil",
     "10000 kcmil", "AWG 10" + " " * 60 + "x", pytest.param("x" * 10_000_000, id="long text")],
)  # fmt: skip
def test_what_is_no_conductor_size_is_refused(text: str) -> None:
    with pytest.raises(QuantityError, match="a conductor size such as '4 mm²'"):
        Size.parse(text)


def test_a_larger_gauge_number_is_a_thinner_wire() -> None:
    gauges = ["4/0", "3/0", "2/0", "1/0", *map(str, range(1, 19))]
    areas = [Size("AWG", gauge).area_mm2 for gauge in gauges]
    assert areas == sorted(areas, reverse=True)


def test_models_read_quantities_and_report_what_is_allowed() -> None:
    assert TypeAdapter(LengthM).validate_python("98 ft") == pytest.approx(29.8704)
    assert TypeAdapter(TemperatureC).validate_python("−10 °C") == -10
    assert TypeAdapter(Size).validate_python("AWG 10") == Size("AWG", "10")
    assert TypeAdapter(Size).dump_python(Size("mm²", "4"), mode="json") == "4 mm²"
    with pytest.raises(ValidationError, match="one of the units mm²"):
        TypeAdapter(AreaMm2).validate_python(["4"])
    with pytest.raises(ValidationError, match="a conductor size"):
        TypeAdapter(Size).validate_python({"size": 4})
