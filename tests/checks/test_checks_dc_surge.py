"""Surge protection of an array's lines, and which is chosen."""

from typing import Any

import pytest

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from ferrule.design import Decided
from ferrule.job.array import DcSurgeDevice
from houses import REMOVED, answered, constraint, finding

FITTED = {"type": "2", "voltage_max": "600 V", "nominal": "5 kA", "places": "both-ends"}


def asked(edits: dict[str, Any], terminal: str = "INV1.PV1") -> Finding:
    return finding(answered(edits), "input.surge", f"input/{terminal}")


def fitted(**changed: Any) -> dict[str, Any]:
    device = {key: value for key, value in {**FITTED, **changed}.items() if value is not REMOVED}
    return {"devices.INV1.inputs": [{"id": "PV1", "surge": device}]}


def test_the_cables_of_both_faces_count_once_each() -> None:
    """18 m and 21 m; 115 / 1.8 = 63.9 m."""
    found = constraint(asked({}), "critical_length")
    assert found.value == pytest.approx(39)
    assert found.limit == pytest.approx(63.889, abs=0.001)
    assert found.verdict is Verdict.PASS


def test_cables_from_one_face_go_the_same_way() -> None:
    assert constraint(asked({"strings.S2.face": "south"}), "critical_length").value == pytest.approx(21)


@pytest.mark.parametrize(("flashes", "verdict"), [("2.94", Verdict.PASS), ("2.95", Verdict.FAIL)])
def test_from_the_critical_length_on_none_is_not_enough(flashes: str, verdict: Verdict) -> None:
    """115 / 2.94 = 39.1 m and 115 / 2.95 = 38.98 m, for 39 m of cable."""
    none = {"devices.INV1.inputs": [{"id": "PV1", "surge": "none"}]}
    found = asked({**none, "site.lightning_density": f"{flashes} /km²/year"})
    assert constraint(found, "critical_length").verdict is verdict


@pytest.mark.parametrize(
    ("edits", "kind", "places"),
    [
        ({"site.lightning_density": "4 /km²/year"}, "2", "both-ends"),
        ({"site.lightning_protection": "separated"}, "2", "both-ends"),
        ({"site.lightning_protection": "bonded"}, "1+2", "both-ends"),
        (
            {
                "site.lightning_protection": "bonded",
                "runs.R-S1.stretches": [{"length": "9 m", "method": "F", "ambient": "60 °C", "circuits": 1}],
            },
            "1+2",
            "inverter",
        ),
    ],
    ids=["lightning", "separated", "bonded", "short"],
)
def test_what_is_chosen_where_it_is_needed(edits: dict[str, Any], kind: str, places: str) -> None:
    """Above the 516.6 V of the cold string the lowest rated voltage is 600 V."""
    result = answered(edits)
    device = result.design.choices[Decided("dc_surge", "INV1.PV1")]
    assert isinstance(device, DcSurgeDevice)
    assert (device.type, device.places, device.voltage_max_v) == (kind, places, 600)
    assert finding(result, "input.surge", "input/INV1.PV1").verdict is Verdict.PASS


def test_none_is_chosen_where_none_is_needed() -> None:
    assert answered().design.choices[Decided("dc_surge", "INV1.PV1")] == "none"


@pytest.mark.parametrize(
    ("key", "value", "name", "verdict"),
    [
        ("type", "1", "surge_type", Verdict.FAIL),
        ("voltage_max", "516 V", "surge_voltage", Verdict.FAIL),
        ("voltage_max", "517 V", "surge_voltage", Verdict.PASS),
        ("voltage_max", REMOVED, "surge_voltage", Verdict.UNKNOWN),
        ("nominal", "4.9 kA", "surge_current", Verdict.FAIL),
        ("nominal", REMOVED, "protected", Verdict.UNKNOWN),
        ("places", "inverter", "surge_places", Verdict.FAIL),
        ("places", REMOVED, "protected", Verdict.UNKNOWN),
    ],
)
def test_a_device_that_is_fitted(key: str, value: Any, name: str, verdict: Verdict) -> None:
    assert constraint(asked(fitted(**{key: value})), name).verdict is verdict


@pytest.mark.parametrize(
    "path", ["site.lightning_density", "site.lightning_protection", "site.building", "runs.R-S2"]
)
def test_what_is_not_known_is_asked_for(path: str) -> None:
    found = asked({path: REMOVED})
    assert found.verdict is Verdict.UNKNOWN
    assert found.governed_by.find_out


def test_a_place_without_lightning_passes() -> None:
    assert asked({"site.lightning_density": "0 /km²/year"}).verdict is Verdict.PASS
