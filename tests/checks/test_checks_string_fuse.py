"""Current that flows back into a faulted string, the fuses against it, and which are chosen."""

from typing import Any

import pytest

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from ferrule.design import Decided
from ferrule.job.array import StringFuse
from houses import REMOVED, answered, constraint, finding

MODULE = "parts.example-mono-430"
INVERTER = "parts.example-hybrid-6k-single"
FUSE = {"rating": "25 A", "voltage_max": "600 V", "breaking_capacity": "10 kA", "poles": "both"}


def shared(count: int) -> dict[str, Any]:
    """Two or three like strings on the first input."""
    strings = [
        {"id": f"S{n}", "module": "example-mono-430", "modules": 12, "face": "south", "input": "INV1.PV1"}
        for n in range(1, count + 1)
    ]
    edits: dict[str, Any] = {"strings": strings, "runs.R-S2.to": "INV1.PV1"}
    if count == 3:
        stretch = {"length": "12 m", "method": "F", "ambient": "60 °C", "circuits": 1}
        edits["runs.+"] = {
            "id": "R-S3", "from": "S3", "to": "INV1.PV1", "cable": "pv-single", "stretches": [stretch],
        }  # fmt: skip
    return edits


def asked(edits: dict[str, Any], string: str = "S1") -> Finding:
    return finding(answered(edits), "string.fuse", f"string/{string}")


def test_a_string_alone_needs_none_and_nothing_but_the_inverters_sheet() -> None:
    result = answered({f"{MODULE}.series_fuse_max": REMOVED, "site.coldest": REMOVED})
    assert result.design.choices[Decided("string_fuse", "S1")] == "none"
    found = finding(result, "string.fuse", "string/S1")
    assert found.verdict is Verdict.PASS
    assert found.governed_by.name == "alone"


def test_two_strings_need_none() -> None:
    """13.9 A flow back; the modules bear 25 A."""
    found = asked(shared(2))
    assert found.verdict is Verdict.PASS
    assert found.governed_by.value == pytest.approx(13.9)


def test_three_strings_are_given_the_one_rating_that_fits() -> None:
    """27.8 A flow back, more than 25 A. A fuse must exceed 1.5 × 13.9 = 20.85 A and not exceed 25 A; above
    the 517 V of the cold string the lowest rated voltage is 600 V.
    """
    result = answered(shared(3))
    fuse = result.design.choices[Decided("string_fuse", "S1")]
    assert isinstance(fuse, StringFuse)
    assert (fuse.rating_a, fuse.voltage_max_v, fuse.poles) == (25, 600, "both")
    assert finding(result, "string.fuse", "string/S1").verdict is Verdict.PASS
    choice = next(c for c in result.choices if c.decided == Decided("string_fuse", "S1"))
    assert choice.lacked[0].value == "none"
    assert choice.lacked[0].constraint.name == "unfused"
    assert choice.governed_by is not None
    assert choice.governed_by.value.rating_a == 20
    assert choice.governed_by.constraint.name == "fuse_least"


def test_no_fuse_given_where_one_is_needed_is_answered_with_the_fuse() -> None:
    found = asked({**shared(3), "strings.0.fuse": "none"})
    assert found.verdict is Verdict.FAIL
    (remedy,) = found.remedies
    assert remedy.path == "strings.S1.fuse"
    assert remedy.value == "{rating: 25 A, voltage_max: 600 V, breaking_capacity: 10 kA, poles: both}"


def test_a_fuse_of_no_use_is_a_caution_only() -> None:
    found = asked({"strings.S1.fuse": dict(FUSE)})
    assert found.verdict is Verdict.CAUTION
    assert found.governed_by.name == "fuse_of_use"


@pytest.mark.parametrize(
    ("key", "value", "name", "verdict"),
    [
        ("rating", "20 A", "fuse_least", Verdict.FAIL),
        ("rating", "30 A", "fuse_module", Verdict.FAIL),
        ("rating", "35 A", "fuse_most", Verdict.FAIL),
        ("voltage_max", "516 V", "fuse_voltage", Verdict.FAIL),
        ("voltage_max", "517 V", "fuse_voltage", Verdict.PASS),
        ("breaking_capacity", "34.7 A", "fuse_breaking", Verdict.FAIL),  # 2 × 1.25 × 13.9 A
        ("breaking_capacity", "34.75 A", "fuse_breaking", Verdict.PASS),
        ("poles", "one", "fuse_poles", Verdict.FAIL),
        ("voltage_max", REMOVED, "fuse_voltage", Verdict.UNKNOWN),
        ("breaking_capacity", REMOVED, "fuse_breaking", Verdict.UNKNOWN),
        ("poles", REMOVED, "fused", Verdict.UNKNOWN),
    ],
)
def test_a_fuse_that_is_fitted(key: str, value: Any, name: str, verdict: Verdict) -> None:
    fuse = {**FUSE, key: value}
    edits = {**shared(3), "strings.0.fuse": {k: v for k, v in fuse.items() if v is not REMOVED}}
    assert constraint(asked(edits), name).verdict is verdict


def test_what_the_inverter_feeds_back_counts() -> None:
    """13.9 A of the other string and 11.1 A from behind are as much as the modules bear."""
    at, beyond = ({**shared(2), f"{INVERTER}.backfeed": f"{a} A"} for a in (11.1, 11.2))
    assert answered(at).design.choices[Decided("string_fuse", "S1")] == "none"
    assert isinstance(answered(beyond).design.choices[Decided("string_fuse", "S1")], StringFuse)


def test_a_battery_that_reaches_the_array_counts_with_all_it_can_drive() -> None:
    """Even a string alone then needs fuses, and they must break what the battery drives."""
    edits = {f"{INVERTER}.battery_feeds_pv_bus": "yes", "parts.example-lfp-10k.short_circuit": "6 kA"}
    result = answered(edits)
    assert isinstance(result.design.choices[Decided("string_fuse", "S1")], StringFuse)
    found = finding(result, "string.fuse", "string/S1")
    assert constraint(found, "fuse_breaking").limit == pytest.approx(6000)
    assert found.verdict is Verdict.PASS
    two = asked({**edits, "devices.BAT.packs": 2, "strings.S1.fuse": dict(FUSE)})
    assert constraint(two, "fuse_breaking").verdict is Verdict.FAIL


@pytest.mark.parametrize("path", [f"{MODULE}.series_fuse_max", f"{MODULE}.isc", f"{INVERTER}.backfeed"])
def test_what_is_not_known_is_asked_for(path: str) -> None:
    found = asked({**shared(3), path: REMOVED})
    assert found.verdict is Verdict.UNKNOWN
    assert found.governed_by.find_out
