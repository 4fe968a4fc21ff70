"""What has to be known of an inverter before anybody starts it, or opens it again."""

from typing import Any

import pytest

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from houses import REMOVED, answered, constraint, finding

PART = "parts.example-hybrid-6k-single"


def asked(edits: dict[str, Any]) -> Finding:
    return finding(answered(edits), "inverter.starting", "inverter/INV1")


@pytest.mark.parametrize("fact", ["start_order", "start_wait", "discharge_time"])
def test_what_the_sheet_does_not_say_is_asked(fact: str) -> None:
    assert asked({}).verdict is Verdict.PASS
    found = asked({f"{PART}.{fact}": REMOVED})
    assert constraint(found, fact).verdict is Verdict.UNKNOWN
    assert [each.name for each in found.constraints if each.verdict is not Verdict.PASS] == [fact]


def test_an_order_without_a_source_of_the_house_is_asked_for() -> None:
    found = constraint(asked({f"{PART}.start_order": ["battery", "ac"]}), "start_order")
    assert found.verdict is Verdict.UNKNOWN
    assert found.find_out == ("INV1: where pv comes in its order of starting",)


def test_an_order_may_leave_out_what_the_house_does_not_have() -> None:
    edits = {
        f"{PART}.start_order": ["pv", "ac"], "runs.R-battery": REMOVED, "devices.BAT": REMOVED,
        "buses.CAN": REMOVED, "earth.leads.E-BAT": REMOVED,
    }  # fmt: skip
    assert constraint(asked(edits), "start_order").verdict is Verdict.PASS


@pytest.mark.parametrize(
    ("lockable", "verdict"), [("yes", Verdict.PASS), ("no", Verdict.CAUTION), (REMOVED, Verdict.UNKNOWN)]
)
def test_a_switch_without_a_lock_has_to_be_guarded(lockable: object, verdict: Verdict) -> None:
    assert asked({f"{PART}.dc_switch_lockable": lockable}).verdict is verdict


def test_a_separate_isolator_is_asked_for_its_own_lock() -> None:
    gear = [{"id": "PV1", "isolator": {"lockable": "yes"}}, {"id": "PV2", "isolator": {"lockable": "no"}}]
    found = asked({"devices.INV1.inputs": gear, f"{PART}.dc_switch_lockable": REMOVED})
    assert {each.verdict for each in found.constraints if each.name == "dc_lock"} == {
        Verdict.PASS, Verdict.CAUTION,
    }  # fmt: skip
