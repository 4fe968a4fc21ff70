"""A dry contact and the input that watches it: sense, broken wire, voltage, length."""

from typing import Any

import pytest

from houses import REMOVED, answered, constraint, finding

INPUT = "parts.example-hybrid-10k-three.contacts"
OUTPUT = "parts.example-changeover-63.contacts.POSITION.acts_on"


@pytest.mark.parametrize(
    ("edits", "subject", "name", "expected"),
    [({}, "K-island", "sense", "pass"), ({OUTPUT: "opening"}, "K-island", "sense", "fail"),
     ({OUTPUT: REMOVED}, "K-island", "sense", "unknown"),
     ({"contacts.K-stop.acts_on": "closing"}, "K-stop", "sense", "fail"),
     ({"contacts.K-stop.acts_on": REMOVED}, "K-stop", "sense", "unknown"),
     ({}, "K-stop", "broken_wire", "pass"),
     ({"contacts.K-stop.acts_on": "closing", f"{INPUT}.STOP.acts_on": "closing"}, "K-stop", "sense", "pass"),
     ({"contacts.K-stop.acts_on": "closing", f"{INPUT}.STOP.acts_on": "closing"},
      "K-stop", "broken_wire", "caution"),
     ({"contacts.K-stop.dry": False}, "K-stop", "dry", "fail"),
     ({"contacts.K-stop.dry": REMOVED}, "K-stop", "dry", "unknown"),
     ({"contacts.K-stop.length": "50 m"}, "K-stop", "length", "pass"),
     ({"contacts.K-stop.length": "51 m"}, "K-stop", "length", "fail"),
     ({"contacts.K-stop.length": REMOVED}, "K-stop", "length", "unknown")],
)  # fmt: skip
def test_each_end_means_the_same(edits: dict[str, Any], subject: str, name: str, expected: str) -> None:
    found = finding(answered(edits, "changeover-led"), "contact.sense", f"signal/{subject}")
    assert constraint(found, name).verdict.word == expected


def test_only_a_stop_is_asked_about_a_broken_wire() -> None:
    found = finding(answered({}, "changeover-led"), "contact.sense", "signal/K-island")
    assert "broken_wire" not in {each.name for each in found.constraints}
