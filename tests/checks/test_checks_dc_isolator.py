"""The isolator at an inverter input, and which is chosen."""

from typing import Any

import pytest

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from ferrule.design import Decided
from ferrule.job.array import Isolator
from houses import REMOVED, answered, constraint, finding

SWITCH = "parts.example-hybrid-6k-single.dc_switch"
FITTED = {"voltage_max": "600 V", "current_max": "20 A", "category": "DC-PV1", "all_poles": "yes"}


def asked(edits: dict[str, Any]) -> Finding:
    return finding(answered(edits), "input.isolator", "input/INV1.PV1")


def fitted(**changed: Any) -> dict[str, Any]:
    isolator = {key: value for key, value in {**FITTED, **changed}.items() if value is not REMOVED}
    return {"devices.INV1.inputs": [{"id": "PV1", "isolator": isolator}]}


def test_the_inverters_own_switch_is_taken_where_it_has_one() -> None:
    result = answered()
    assert result.design.choices[Decided("dc_isolator", "INV1.PV1")] == "built-in"
    assert finding(result, "input.isolator", "input/INV1.PV1").verdict is Verdict.PASS


def test_a_switch_that_is_not_there_fails() -> None:
    built_in = {"devices.INV1.inputs": [{"id": "PV1", "isolator": "built-in"}]}
    assert asked({**built_in, SWITCH: "no"}).verdict is Verdict.FAIL
    assert asked(built_in).verdict is Verdict.PASS
    assert asked({**built_in, SWITCH: REMOVED}).verdict is Verdict.UNKNOWN


def test_without_one_the_smallest_that_bears_the_string_is_chosen() -> None:
    """516.6 V and 1.25 × 13.9 = 17.4 A: 600 V and 20 A, of the category made for one string."""
    result = answered({SWITCH: "no"})
    chosen = result.design.choices[Decided("dc_isolator", "INV1.PV1")]
    assert isinstance(chosen, Isolator)
    assert (chosen.voltage_max_v, chosen.current_max_a) == (600, 20)
    assert (chosen.category, chosen.all_poles) == ("DC-PV1", True)
    assert finding(result, "input.isolator", "input/INV1.PV1").verdict is Verdict.PASS
    choice = next(c for c in result.choices if c.decided == Decided("dc_isolator", "INV1.PV1"))
    assert choice.governed_by is not None
    assert choice.governed_by.value.current_max_a == 16
    assert choice.governed_by.constraint.name == "isolator_current"


def test_not_knowing_whether_there_is_one_leaves_it_open() -> None:
    found = asked({SWITCH: REMOVED})
    assert found.verdict is Verdict.UNKNOWN
    assert [c.find_out for c in found.constraints] == [("whether a DC switch is built in",)]


@pytest.mark.parametrize(
    ("key", "value", "name", "verdict"),
    [
        ("voltage_max", "517 V", "isolator_voltage", Verdict.PASS),
        ("voltage_max", "516 V", "isolator_voltage", Verdict.FAIL),
        ("voltage_max", REMOVED, "isolator_voltage", Verdict.UNKNOWN),
        ("current_max", "17.375 A", "isolator_current", Verdict.PASS),
        ("current_max", "17.3 A", "isolator_current", Verdict.FAIL),
        ("current_max", REMOVED, "switch", Verdict.UNKNOWN),
        ("category", "DC-20", "isolator_category", Verdict.FAIL),
        ("category", "DC-21B", "isolator_category", Verdict.PASS),
        ("category", "DC-21B", "isolator_category_made_for", Verdict.CAUTION),
        ("category", REMOVED, "switch", Verdict.UNKNOWN),
        ("all_poles", "no", "isolator_poles", Verdict.FAIL),
        ("all_poles", REMOVED, "switch", Verdict.UNKNOWN),
    ],
)
def test_an_isolator_that_is_fitted(key: str, value: Any, name: str, verdict: Verdict) -> None:
    assert constraint(asked(fitted(**{key: value})), name).verdict is verdict


def test_strings_in_parallel_add_up_and_want_the_category_made_for_them() -> None:
    shared = {"strings.S2.input": "INV1.PV1", "strings.S2.modules": 12, "runs.R-S2.to": "INV1.PV1"}
    found = asked({**shared, **fitted(current_max="32 A")})
    assert constraint(found, "isolator_current").limit == pytest.approx(34.75)
    assert constraint(found, "isolator_category_made_for").verdict is Verdict.CAUTION
    chosen = answered({**shared, SWITCH: "no"}).design.choices[Decided("dc_isolator", "INV1.PV1")]
    assert (chosen.current_max_a, chosen.category) == (40, "DC-PV2")


def test_one_too_weak_is_answered_with_one_that_passes() -> None:
    found = asked({**fitted(current_max="16 A"), SWITCH: "no"})
    (remedy,) = found.remedies
    assert remedy.value == "{voltage_max: 600 V, current_max: 20 A, category: DC-PV1, all_poles: yes}"
