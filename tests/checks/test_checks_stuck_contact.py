"""Contacts that weld or stay open, in the demo houses."""

from typing import Any

import pytest

from ferrule import display
from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from houses import REMOVED, answered, constraint, finding

BACKUP = "parts.example-hybrid-6k-single.backup"
UNIT = "parts.example-changeover-63"


def stuck(edits: dict[str, Any], contact: str, house: str = "meter-led") -> Finding:
    return finding(answered(edits, house), "earth.stuck_contact", f"contact/{contact}")


def texts(found: Finding, name: str) -> list[str]:
    return [display.filled(each) for each in found.constraints if each.name == name]


@pytest.mark.parametrize("contact", ["INV1.isolator", "INV1.link"])
@pytest.mark.parametrize(
    ("monitored", "verdict"), [(True, Verdict.PASS), (False, Verdict.CAUTION), (REMOVED, Verdict.UNKNOWN)]
)  # fmt: skip
def test_what_a_sheet_says_of_monitoring_decides(contact: str, monitored: Any, verdict: Verdict) -> None:
    assert stuck({f"{BACKUP}.link_monitored": monitored}, contact).verdict is verdict


def test_a_welded_isolator_joins_both_bonds_and_feeds_the_network() -> None:
    found = stuck({}, "INV1.isolator")
    assert texts(found, "stuck_closed") == [
        "Welded shut in position island, 2 neutral-earth bonds are closed and the network is fed from the "
        "house; the device detects it"
    ]
    assert texts(found, "stuck_open") == ["Stuck open, it leaves neutral and earth as they must be"]


def test_a_link_is_one_too_many_on_the_network_or_lacks_in_island_mode() -> None:
    found = stuck({f"{BACKUP}.link_monitored": False}, "INV1.link")
    assert texts(found, "stuck_closed") == [
        "Welded shut in position grid, 2 neutral-earth bonds are closed; nothing detects it"
    ]
    assert texts(found, "stuck_open") == [
        "Stuck open in position island, 0 neutral-earth bonds are closed; nothing detects it"
    ]
    assert "INV1.link" in display.remedy(found.remedies[0])


def test_the_changeover_unit_is_asked_of_each_contact() -> None:
    result = answered({f"{UNIT}.link_monitored": False}, "changeover-led")
    found = {f.subject.id: f for f in result.findings if f.id == "earth.stuck_contact"}
    assert set(found) == {"INV1.isolator", "CO.grid", "CO.inverter", "CO.link"}
    assert found["CO.link"].verdict is Verdict.CAUTION
    assert found["CO.grid"].verdict is Verdict.CAUTION
    # Without it the cable from the inverter stays live, and the only bond is beyond the contact.
    assert texts(found["CO.inverter"], "stuck_open") == [
        "Stuck open in position island, 0 neutral-earth bonds are closed; nothing detects it"
    ]
    assert found["INV1.isolator"].verdict is Verdict.PASS  # its own maker monitors it


def test_a_welded_isolator_whose_neutral_runs_through_still_feeds_the_network() -> None:
    edits = {
        f"{BACKUP}.neutral": "through",
        "devices.INV1.link": "disabled",
        f"{BACKUP}.link_monitored": False,
    }
    found = stuck(edits, "INV1.isolator")
    assert constraint(found, "stuck_closed").verdict is Verdict.CAUTION
    assert "the network is fed" in texts(found, "stuck_closed")[0]


def test_a_disabled_link_does_not_move() -> None:
    result = answered({"devices.INV1.link": "disabled"})
    assert not [f for f in result.findings if str(f.subject) == "contact/INV1.link"]


def test_a_house_without_backup_has_no_such_contacts() -> None:
    assert not [f for f in answered(house="controller-led").findings if f.id == "earth.stuck_contact"]
