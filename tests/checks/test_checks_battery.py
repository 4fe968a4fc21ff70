"""The questions about a battery, through a house of 48 V and one of 400 V."""

from typing import Any

import pytest

from ferrule.answering import Answer
from ferrule.constraint import Constraint, Verdict
from ferrule.design import Decided
from ferrule.job.devices import BatteryProtection
from houses import REMOVED, answered, constraint, finding

PART = "parts.example-lfp-10k"
PORT = "parts.example-hybrid-6k-single.battery"
HIGH = "changeover-led"
FUSE = {
    "kind": "fuse-gBat", "rating": "200 A", "voltage_max": "80 V", "breaking_capacity": "10 kA",
    "poles": "both",
}  # fmt: skip
BREAKER = {**FUSE, "kind": "breaker-dc", "polarised": "no", "let_through": "25e6 A²s"}


def judged(edits: dict[str, Any], question: str, name: str, house: str = "meter-led") -> Constraint:
    return constraint(finding(answered(edits, house), f"battery.{question}", "battery/BAT"), name)


def fitted(device: dict[str, Any], **changed: Any) -> dict[str, Any]:
    changed = {key: value for key, value in {**device, **changed}.items() if value is not REMOVED}
    return {"devices.BAT.protection": changed}


def chosen(result: Answer) -> BatteryProtection:
    found = result.design.choices[Decided("battery_protection", "BAT")]
    assert isinstance(found, BatteryProtection)
    return found


@pytest.mark.parametrize("house", ["meter-led", "controller-led", "changeover-led"])
def test_in_the_demo_houses_everything_is_known_and_nothing_fails(house: str) -> None:
    result = answered(house=house)
    found = {f.id.removeprefix("battery."): f for f in result.findings if f.id.startswith("battery.")}
    packs = result.design.battery_device("BAT").packs
    assert set(found) == {
        "voltage_window", "current", "temperature", "protection", "cable", "drop", "connection", "isolation",
        "place",
        *(("parallel_packs",) if packs > 1 else ()),
    }  # fmt: skip
    assert all(f.place == "battery" and f.verdict <= Verdict.CAUTION for f in found.values())


# Voltage and current


@pytest.mark.parametrize(
    ("edit", "value", "name", "verdict"),
    [
        ("voltage_high", "58 V", "highest", Verdict.PASS),
        ("voltage_high", "58.1 V", "highest", Verdict.FAIL),
        ("voltage_low", "42 V", "lowest", Verdict.PASS),
        ("voltage_low", "41.9 V", "lowest", Verdict.CAUTION),
        ("voltage_nominal", "48 V", "nominal", Verdict.PASS),
        ("voltage_nominal", "409.6 V", "nominal", Verdict.FAIL),
        ("voltage_nominal", REMOVED, "window", Verdict.UNKNOWN),
    ],
)
def test_voltage_window(edit: str, value: Any, name: str, verdict: Verdict) -> None:
    """The inverter works from 42 to 58 V."""
    assert judged({f"{PART}.{edit}": value}, "voltage_window", name).verdict is verdict


@pytest.mark.parametrize(
    ("edits", "name", "value", "verdict"),
    [
        ({}, "charging", 120.0, Verdict.PASS),  # just what the battery takes
        ({f"{PORT}.charge_max": "121 A"}, "charging", 121.0, Verdict.FAIL),
        ({f"{PORT}.charge_max": "121 A", "devices.INV1.charge_set": "99 A"}, "charging", 99.0, Verdict.PASS),
        ({f"{PORT}.charge_max": "240 A", "devices.BAT.packs": 2}, "charging", 240.0, Verdict.PASS),
        ({}, "discharging", 142.477, Verdict.PASS),  # 6000 W / (0.94 · 44.8 V), more than the stated 135 A
        ({f"{PORT}.discharge_max": "150 A"}, "discharging", 150.0, Verdict.PASS),
        ({f"{PORT}.discharge_max": "151 A"}, "discharging", 151.0, Verdict.FAIL),
        ({f"{PART}.discharge_max": "142 A"}, "discharging", 142.477, Verdict.FAIL),
        ({"devices.INV1.discharge_set": "60 A"}, "discharging", 60.0, Verdict.PASS),
        ({f"{PART}.voltage_low": "40 V"}, "discharging", 151.976, Verdict.FAIL),  # the inverter stops at 42 V
    ],
)  # fmt: skip
def test_current(edits: dict[str, Any], name: str, value: float, verdict: Verdict) -> None:
    found = judged(edits, "current", name)
    assert found.value == pytest.approx(value, abs=1e-3)
    assert found.verdict is verdict


def test_what_is_missing_for_the_current_is_named_at_once() -> None:
    found = judged({f"{PORT}.efficiency": REMOVED, f"{PART}.voltage_low": REMOVED}, "current", "discharging")
    assert found.verdict is Verdict.UNKNOWN
    assert len(found.find_out) == 2


# Fault current


@pytest.mark.parametrize(
    ("edits", "fault_a"),
    [
        ({}, 4_800.0),  # 57.6 V / 12 mΩ, more than the stated 4.2 kA
        ({f"{PART}.internal": REMOVED}, 4_200.0),
        ({f"{PART}.short_circuit": REMOVED}, 4_800.0),
        ({f"{PART}.short_circuit": "9.9 kA"}, 9_900.0),
        ({f"{PART}.short_circuit": "3.5 kA", f"{PART}.internal": REMOVED, "devices.BAT.packs": 3}, 10_500.0),
        ({f"{PART}.short_circuit": REMOVED, "devices.BAT.packs": 2}, 9_600.0),
    ],
)
def test_prospective_fault_current(edits: dict[str, Any], fault_a: float) -> None:
    found = judged({**edits, **fitted(FUSE)}, "protection", "device_breaking")
    assert found.limit == pytest.approx(fault_a)
    assert found.verdict is (Verdict.PASS if fault_a <= 10_000 else Verdict.FAIL)


def test_nothing_typical_stands_in_for_a_maker_who_is_silent() -> None:
    silent = {f"{PART}.short_circuit": REMOVED, f"{PART}.internal": REMOVED}
    assert judged({**silent, **fitted(FUSE)}, "protection", "device_breaking").verdict is Verdict.UNKNOWN
    result = answered(silent)
    assert Decided("battery_protection", "BAT") not in result.design.choices
    asks = [a for c in finding(result, "battery.protection", "battery/BAT").constraints for a in c.find_out]
    assert any("ask the maker" in ask for ask in asks)
    assert finding(result, "battery.cable", "battery/BAT").verdict is Verdict.UNKNOWN


# The protective device


@pytest.mark.parametrize(
    ("device", "changed", "name", "verdict"),
    [
        (FUSE, {"rating": "143 A"}, "device_rating", Verdict.PASS),
        (FUSE, {"rating": "142 A"}, "device_rating", Verdict.FAIL),
        (FUSE, {"rating": "178 A"}, "device_spare", Verdict.CAUTION),
        (FUSE, {"rating": "179 A"}, "device_spare", Verdict.PASS),
        (FUSE, {"voltage_max": "57.6 V"}, "device_voltage", Verdict.PASS),
        (FUSE, {"voltage_max": "57.5 V"}, "device_voltage", Verdict.FAIL),
        (FUSE, {"voltage_max": REMOVED}, "device_voltage", Verdict.UNKNOWN),
        (FUSE, {"breaking_capacity": "4.8 kA"}, "device_breaking", Verdict.PASS),
        (FUSE, {"breaking_capacity": "4.7 kA"}, "device_breaking", Verdict.FAIL),
        (FUSE, {"breaking_capacity": REMOVED}, "device_breaking", Verdict.UNKNOWN),
        (FUSE, {"poles": "one"}, "device_poles", Verdict.FAIL),
        (FUSE, {"poles": REMOVED}, "device", Verdict.UNKNOWN),
        (FUSE, {"kind": "fuse-gG"}, "device_class", Verdict.FAIL),
        (BREAKER, {}, "device_direction", Verdict.PASS),
        (BREAKER, {"polarised": "yes"}, "device_direction", Verdict.FAIL),
        (BREAKER, {"polarised": REMOVED}, "device", Verdict.UNKNOWN),
        (BREAKER, {"kind": "breaker-ac"}, "device_class", Verdict.FAIL),
    ],
)
def test_a_device_that_is_fitted(
    device: dict[str, Any], changed: dict[str, Any], name: str, verdict: Verdict
) -> None:
    assert judged(fitted(device, **changed), "protection", name).verdict is verdict


def test_nobody_asks_a_fuse_for_its_polarity() -> None:
    found = finding(answered(fitted(FUSE)), "battery.protection", "battery/BAT")
    assert found.verdict is Verdict.PASS


def test_a_device_that_is_too_small_is_answered_with_one_that_passes() -> None:
    found = finding(answered(fitted(FUSE, rating="125 A")), "battery.protection", "battery/BAT")
    assert found.verdict is Verdict.FAIL
    remedy = next(r for r in found.remedies if r.path == "devices.BAT.protection")
    again = finding(
        answered({"devices.BAT.protection": _read(remedy.value)}), "battery.protection", "battery/BAT"
    )
    assert again.verdict is Verdict.PASS


def _read(text: str) -> Any:
    import yaml

    return yaml.safe_load(text)


# What is chosen


def test_chosen_at_48_volts() -> None:
    """1.25 · 142.5 A = 178 A: 200 A, which 35 mm² in air just carries (IEC 60364-5-52 table B.52.12)."""
    result = answered()
    device = chosen(result)
    assert (device.kind, device.rating_a, device.voltage_max_v) == ("fuse-gBat", 200, 80)
    assert (device.breaking_capacity_a, device.poles) == (10_000, "both")
    assert str(result.design.size("R-battery")) == "35 mm²"


def test_chosen_at_460_volts() -> None:
    """40 A both ways: 50 A, which 6 mm² carries where 4 mm² (44 A) does not (EN 50618 table A.3)."""
    result = answered(house=HIGH)
    device = chosen(result)
    assert (device.rating_a, device.voltage_max_v) == (50, 550)
    assert str(result.design.size("R-battery")) == "6 mm²"
    choice = next(c for c in result.choices if c.decided == Decided("conductor", "R-battery"))
    assert choice.governed_by is not None
    assert str(choice.governed_by.value) == "4 mm²"
    assert choice.governed_by.constraint.name == "conductor_capacity"


@pytest.mark.parametrize("house", ["meter-led", HIGH])
def test_one_rating_less_is_missed_by_name(house: str) -> None:
    choice = next(
        c for c in answered(house=house).choices if c.decided == Decided("battery_protection", "BAT")
    )
    assert choice.passes
    assert choice.governed_by is not None
    assert choice.governed_by.constraint.name == "device_spare"


def test_a_long_run_is_thickened_for_its_drop() -> None:
    result = answered({"runs.R-battery.stretches.0.length": "6 m"})
    assert str(result.design.size("R-battery")) == "95 mm²"
    choice = next(c for c in result.choices if c.decided == Decided("conductor", "R-battery"))
    assert choice.governed_by is not None
    assert choice.governed_by.constraint.name == "drop"
    assert judged({"runs.R-battery.stretches.0.length": "6 m", "runs.R-battery.size": "70 mm²"},
                  "drop", "drop").verdict is Verdict.CAUTION  # fmt: skip


def test_a_cable_that_lies_there_already_gets_the_largest_device_it_carries() -> None:
    """25 mm² carries 161 A: 160 A, which has less than a quarter to spare."""
    result = answered({"runs.R-battery.size": "25 mm²"})
    assert chosen(result).rating_a == 160
    found = finding(result, "battery.protection", "battery/BAT")
    assert found.governed_by.name == "device_spare"
    assert found.verdict is Verdict.CAUTION
    assert finding(result, "battery.cable", "battery/BAT").verdict is Verdict.PASS


# The cable


@pytest.mark.parametrize(
    ("edits", "name", "verdict"),
    [
        ({"runs.R-battery.size": "35 mm²", **fitted(FUSE)}, "conductor_capacity", Verdict.PASS),
        ({"runs.R-battery.size": "25 mm²", **fitted(FUSE)}, "conductor_capacity", Verdict.FAIL),
        ({"runs.R-battery.size": "25 mm²", **fitted(FUSE)}, "short_circuit", Verdict.FAIL),
        ({"runs.R-battery.size": "35 mm²"}, "short_circuit", Verdict.PASS),
        ({"runs.R-battery.size": "35 mm²", **fitted(BREAKER)}, "short_circuit", Verdict.PASS),
        ({"runs.R-battery.size": "35 mm²", **fitted(BREAKER, let_through="26e6 A²s")},
         "short_circuit", Verdict.FAIL),
        ({"runs.R-battery.size": "35 mm²", **fitted(BREAKER, let_through=REMOVED)},
         "withstands", Verdict.UNKNOWN),
        ({"runs.R-battery.size": "6 mm²", **fitted(FUSE)}, "carries", Verdict.UNKNOWN),  # not printed
    ],
)  # fmt: skip
def test_cable(edits: dict[str, Any], name: str, verdict: Verdict) -> None:
    assert judged(edits, "cable", name).verdict is verdict


@pytest.mark.parametrize(
    ("edits", "name", "verdict"),
    [
        ({"devices.BAT.protection_distance": "0.3 m"}, "device_distance", Verdict.CAUTION),
        ({"devices.BAT.protection_distance": REMOVED}, "device_distance", Verdict.UNKNOWN),
        ({"parts.battery-flex.double_insulated": "no"}, "insulation", Verdict.FAIL),
        ({"parts.example-hybrid-6k-single.separation": REMOVED}, "insulation", Verdict.UNKNOWN),
        ({"parts.battery-flex.voltage_max": "57.6 V"}, "cable_voltage", Verdict.PASS),
        ({"parts.battery-flex.voltage_max": "57 V"}, "cable_voltage", Verdict.FAIL),
        ({"parts.battery-flex.voltage_max": REMOVED}, "cable_voltage", Verdict.UNKNOWN),
        ({"devices.BAT.earthed_pole": "minus"}, "earthed_pole", Verdict.FAIL),
    ],
)
def test_connection(edits: dict[str, Any], name: str, verdict: Verdict) -> None:
    assert judged(edits, "connection", name).verdict is verdict


def test_behind_a_transformer_a_pole_may_be_earthed_and_single_insulation_does() -> None:
    edits = {
        "parts.example-hybrid-6k-single.separation": "simple",
        "parts.battery-flex.double_insulated": "no",
        "devices.BAT.earthed_pole": "minus",
    }
    found = finding(answered(edits), "battery.connection", "battery/BAT")
    assert constraint(found, "earthed_pole").verdict is Verdict.PASS
    assert "insulation" not in {c.name for c in found.constraints}


def test_an_unknown_place_of_the_device_keeps_nothing_from_being_chosen() -> None:
    result = answered({"devices.BAT.protection_distance": REMOVED, "parts.battery-flex.voltage_max": REMOVED})
    assert Decided("battery_protection", "BAT") in result.design.choices
    assert Decided("conductor", "R-battery") in result.design.choices


# Packs side by side

TWO: dict[str, Any] = {
    "devices.BAT.packs": 2, "devices.BAT.pack_leads": ["3 m", "3 m"], "devices.BAT.pack_lead_size": "25 mm²",
}  # fmt: skip


def test_one_pack_has_nothing_to_share() -> None:
    assert "battery.parallel_packs" not in {f.id for f in answered().findings}


def test_packs_with_equal_leads_share_alike() -> None:
    found = finding(answered(TWO), "battery.parallel_packs", "battery/BAT")
    assert found.verdict is Verdict.PASS
    assert constraint(found, "pack_discharge").value == pytest.approx(142.477 / 2, abs=1e-3)


def test_packs_with_unequal_leads() -> None:
    """Beside 12 mΩ, 25 mm² of class 5 (0.780 Ω/km, warm 0.9945): 1 m and 9 m are 12.99 and 20.95 mΩ."""
    found = finding(
        answered({**TWO, "devices.BAT.pack_leads": ["1 m", "9 m"]}), "battery.parallel_packs", "battery/BAT"
    )
    assert found.verdict is Verdict.CAUTION
    assert constraint(found, "equal_leads").verdict is Verdict.CAUTION
    share = 20.95 / (12.99 + 20.95)
    assert constraint(found, "pack_discharge").value == pytest.approx(share * 142.477, rel=1e-3)
    assert constraint(found, "pack_charge").value == pytest.approx(share * 120, rel=1e-3)


@pytest.mark.parametrize(
    ("edits", "name", "verdict"),
    [
        ({"devices.BAT.packs": 4, "devices.BAT.pack_leads": ["3 m"] * 4}, "allowed", Verdict.PASS),
        ({"devices.BAT.packs": 5, "devices.BAT.pack_leads": ["3 m"] * 5}, "allowed", Verdict.FAIL),
        ({f"{PART}.parallel_max": REMOVED}, "allowed", Verdict.UNKNOWN),
        ({"devices.BAT.pack_leads": ["3 m"]}, "equal_leads", Verdict.UNKNOWN),
        ({"devices.BAT.pack_lead_size": "unknown"}, "sharing", Verdict.UNKNOWN),
        ({f"{PART}.internal": REMOVED}, "sharing", Verdict.UNKNOWN),
        ({f"{PART}.discharge_max": "72 A"}, "pack_discharge", Verdict.PASS),
        ({f"{PART}.discharge_max": "71 A"}, "pack_discharge", Verdict.FAIL),
    ],
)
def test_packs_side_by_side(edits: dict[str, Any], name: str, verdict: Verdict) -> None:
    assert judged({**TWO, **edits}, "parallel_packs", name).verdict is verdict


# Isolation and temperature


@pytest.mark.parametrize(
    ("own", "beside", "name", "verdict"),
    [
        ("all-poles", "none", "isolated_poles", Verdict.PASS),
        ("none", "all-poles", "isolated_poles", Verdict.PASS),
        (REMOVED, "all-poles", "isolated_poles", Verdict.PASS),
        ("one-pole", "none", "isolated_poles", Verdict.FAIL),
        ("one-pole", REMOVED, "isolates", Verdict.UNKNOWN),
    ],
)
def test_isolation(own: Any, beside: Any, name: str, verdict: Verdict) -> None:
    edits = {f"{PART}.isolates": own, "devices.BAT.isolator": beside}
    assert judged(edits, "isolation", name).verdict is verdict


@pytest.mark.parametrize(
    ("lockable", "name", "verdict"),
    [
        ("yes", "locked_off", Verdict.PASS),
        ("no", "locked_off", Verdict.FAIL),
        (REMOVED, "locks", Verdict.UNKNOWN),
    ],
)
def test_locking(lockable: Any, name: str, verdict: Verdict) -> None:
    assert judged({"devices.BAT.isolator_lockable": lockable}, "isolation", name).verdict is verdict


@pytest.mark.parametrize(
    ("edits", "name", "verdict"),
    [
        ({"places.utility.coldest": "0 °C"}, "charge_cold", Verdict.PASS),
        ({"places.utility.coldest": "-1 °C"}, "charge_cold", Verdict.FAIL),
        ({"places.utility.coldest": "-10 °C"}, "discharge_cold", Verdict.PASS),
        ({"places.utility.coldest": "-11 °C"}, "discharge_cold", Verdict.FAIL),
        ({"places.utility.hottest": "50 °C"}, "charge_hot", Verdict.PASS),
        ({"places.utility.hottest": "51 °C"}, "charge_hot", Verdict.FAIL),
        ({"places.utility.hottest": "51 °C"}, "discharge_hot", Verdict.FAIL),
        ({"places.utility.hottest": REMOVED}, "charge_temperature", Verdict.UNKNOWN),
        ({f"{PART}.charge_low": REMOVED}, "charge_temperature", Verdict.UNKNOWN),
        ({f"{PART}.charge_low": "-9 °C", "places.utility.coldest": "-5 °C"}, "charge_cold", Verdict.PASS),
        ({f"{PART}.charge_low": "-9 °C", "places.utility.coldest": "-5 °C"},
         "cells_cold", Verdict.CAUTION),
        ({f"{PART}.chemistry": REMOVED}, "chemistry", Verdict.UNKNOWN),
    ],
)  # fmt: skip
def test_temperature(edits: dict[str, Any], name: str, verdict: Verdict) -> None:
    assert judged(edits, "temperature", name).verdict is verdict


# What the job may lack


def test_a_battery_without_a_run_asks_for_it() -> None:
    result = answered({"runs.R-battery": REMOVED})
    for question in ("voltage_window", "protection", "cable"):
        found = finding(result, f"battery.{question}", "battery/BAT")
        assert found.verdict is Verdict.UNKNOWN
        assert any("cable run" in ask for c in found.constraints for ask in c.find_out)


def test_an_inverter_whose_sheet_has_no_battery_port_asks_for_it() -> None:
    found = finding(answered({PORT: REMOVED}), "battery.voltage_window", "battery/BAT")
    assert found.verdict is Verdict.UNKNOWN


def test_a_run_written_the_other_way_round_is_the_same() -> None:
    turned = answered({"runs.R-battery.from": "INV1.battery", "runs.R-battery.to": "BAT"})
    straight = answered()
    for question in ("protection", "cable", "drop"):
        ours, theirs = (finding(r, f"battery.{question}", "battery/BAT") for r in (turned, straight))
        assert [c.verdict for c in ours.constraints] == [c.verdict for c in theirs.constraints]
    assert turned.design.size("R-battery") == straight.design.size("R-battery")
