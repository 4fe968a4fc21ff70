"""What a meter should read on a bus, by its calculators."""

from typing import Any

import pytest

from ferrule.calculators import CALCULATORS


def results(name: str, **given: str) -> dict[str, Any]:
    calculator = CALCULATORS[name]
    outcome = calculator.work({**calculator.example, **given})
    return {each.field.key: each.value for each in outcome.results}


@pytest.mark.parametrize(
    ("here", "there", "between", "reading"),
    [("no", "no", "0", 38_400), ("yes", "no", "0", 119.6), ("no", "yes", "0", 119.6),
     ("yes", "yes", "0", 59.9), ("yes", "yes", "1", 39.96), ("yes", "yes", "2", 29.98)],
)  # fmt: skip
def test_terminators_on_five_eighth_loads(here: str, there: str, between: str, reading: float) -> None:
    """120 Ω for each, beside 24 kΩ · 8 / 5 of the receivers."""
    found = results("bus-resistance", devices="5", here=here, there=there, between=between, length="0 m")
    assert found["reading"] == pytest.approx(reading, rel=5e-4)
    assert found["low"] <= found["reading"]
    assert (found["high"] is None) is (here == there == "no")


def test_the_band_keeps_one_two_and_three_terminators_apart() -> None:
    bands = [
        results("bus-resistance", here="yes", there=there, between=between)
        for there, between in (("yes", "1"), ("yes", "0"), ("no", "0"))
    ]
    for fewer, more in zip(bands[1:], bands, strict=False):
        assert more["high"] < fewer["low"]


def test_a_dead_bias_pair_lowers_the_reading() -> None:
    """60 Ω beside 1120 Ω: 56.95 Ω."""
    found = results("bus-resistance", bias="560 ohm", length="0 m", load="0.01")
    assert found["reading"] == pytest.approx(56.9, abs=0.1)


def test_thicker_cores_read_less() -> None:
    thin = results("bus-resistance", length="100 m", here="no", load="0.01")["reading"]
    assert thin == pytest.approx(120 + 2 * 7.84, abs=0.2)
    assert results("bus-resistance", length="100 m", here="no", load="0.01", size="AWG 20")["reading"] < thin


def test_three_terminators_leave_too_little() -> None:
    two, three = results("bus-idle-voltage"), results("bus-idle-voltage", between="1")
    assert (two["enough"], three["enough"]) == (True, False)
    assert three["reading"] == pytest.approx(0.17, abs=0.005)
    assert two["low"] < two["reading"] < two["high"]


def test_a_can_device_loads_by_its_own_standard() -> None:
    """5 kΩ from each line: three of them are 3.33 kΩ beside 60 Ω."""
    found = results("bus-resistance", kind="can", length="0 m")
    assert found["reading"] == pytest.approx(1 / (1 / 60 + 3 / 10_000))
