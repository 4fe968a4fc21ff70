"""The height of the site beside what the inverter is made for."""

from typing import Any

import pytest

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from houses import REMOVED, answered, constraint, finding

PART = "parts.example-hybrid-6k-single"  # to be used up to 2000 m


def asked(edits: dict[str, Any]) -> Finding:
    return finding(answered(edits), "inverter.altitude", "inverter/INV1")


@pytest.mark.parametrize(
    ("altitude", "verdict"),
    [("-3 m", Verdict.PASS), ("2000 m", Verdict.PASS), ("2001 m", Verdict.FAIL), (REMOVED, Verdict.UNKNOWN)],
)
def test_the_site_lies_no_higher_than_the_inverter_may(altitude: object, verdict: Verdict) -> None:
    assert constraint(asked({"site.altitude": altitude}), "highest").verdict is verdict


@pytest.mark.parametrize(("altitude", "verdict"), [("1500 m", Verdict.PASS), ("1501 m", Verdict.CAUTION)])
def test_above_the_height_of_full_power_it_gives_less(altitude: str, verdict: Verdict) -> None:
    found = asked({"site.altitude": altitude, f"{PART}.full_power_altitude": "1500 m"})
    assert constraint(found, "full_power").verdict is verdict
    assert found.verdict is verdict


def test_what_the_sheet_does_not_say_is_asked() -> None:
    found = asked({f"{PART}.altitude_max": REMOVED})
    assert found.verdict is Verdict.UNKNOWN
    assert "highest altitude" in found.governed_by.find_out[0]


def test_beyond_the_table_nobody_knows_how_well_air_insulates() -> None:
    edits = {f"{PART}.altitude_max": "6000 m"}
    assert constraint(asked({**edits, "site.altitude": "5000 m"}), "insulation").verdict is Verdict.CAUTION
    found = asked({**edits, "site.altitude": "5001 m"})
    assert constraint(found, "insulation").verdict is Verdict.UNKNOWN
    assert constraint(found, "thin_air").verdict is Verdict.CAUTION
