"""The datasheets of inverter and battery: noughts and windows upside down are refused."""

from typing import Any

import pytest

from ferrule.document import Unreadable
from houses import loaded

INVERTER = "parts.example-hybrid-6k-single"
TRACKER = f"{INVERTER}.trackers.PV1"


def battery() -> str:
    """The battery of the demo house."""
    return next(f"parts.{part.id}" for part in loaded().job.parts if part.kind == "battery")


@pytest.mark.parametrize(
    ("path", "value", "allowed"),
    [
        (f"{INVERTER}.grid.current_max", "0 A", "not below 0.1"),
        (f"{INVERTER}.grid.power", "0 W", "not below 10"),
        (f"{INVERTER}.backup.power", "0 VA", "not below 10"),
        (f"{INVERTER}.trips_above", "0 V", "not below 1"),
        (f"{INVERTER}.battery.efficiency", "-94 %", "not below 50"),
        (f"{INVERTER}.battery.voltage_high", "42 V", "more than voltage_low"),
        (f"{TRACKER}.voltage_max", "0 V", "not below 1"),
        (f"{TRACKER}.tracking_low", "0 V", "not below 1"),
        (f"{TRACKER}.short_circuit_max", "0 A", "not below 0.1"),
        ("BATTERY.voltage_high", "0 V", "not below 1"),
        ("BATTERY.voltage_high", "20 V", "more than voltage_low"),
        ("BATTERY.voltage_nominal", "20 V", "more than voltage_low"),
        ("BATTERY.short_circuit", "0 A", "not below 0.1"),
        ("BATTERY.charge_max", "0 A", "not below 0.1"),
        ("BATTERY.parallel_max", -4, "not below 1"),
    ],
)
def test_what_no_sheet_can_mean_is_refused_where_it_stands(path: str, value: Any, allowed: str) -> None:
    with pytest.raises(Unreadable) as refused:
        loaded({path.replace("BATTERY", battery()): value})
    (problem,) = refused.value.problems
    assert str(value) in problem.found
    assert allowed in problem.allowed
    assert problem.line > 1


@pytest.mark.parametrize("key", ["backfeed", "leakage_max"])
def test_what_may_well_be_nothing_is_read(key: str) -> None:
    """An inverter that feeds nothing back, and one with windings that leaks nothing."""
    assert loaded({f"{INVERTER}.{key}": "0 A"})
