"""How sources feed a house: the way to each terminal by switch position, and the runs between two sources."""

from typing import Any

from ferrule.design import House
from ferrule.wiring.recipes import topology
from houses import REMOVED, loaded

#: one inverter that lands by its grid port on the inverter side of the changeover unit
BEHIND_THE_UNIT: dict[str, Any] = {
    "runs.R-INV1": REMOVED,
    "boards.MB.circuits.C-INV1": REMOVED,
    "runs.R-island.from": "INV1.grid",
}


def house(name: str, edits: dict[str, Any] | None = None) -> House:
    job = loaded(edits, name).job
    return House(job, topology(job))


def runs(found: House, position: Any, terminal: str) -> list[str]:
    return [link.by.removeprefix("run/") for link in found.feeding[position][terminal]]


def test_the_backup_board_is_fed_through_the_inverter_or_by_it() -> None:
    found = house("meter-led")
    assert runs(found, "grid", "BB") == [
        "R-tails",
        "R-main",
        "R-inverter",
        "contact/INV1.isolator",
        "R-backup",
    ]
    assert runs(found, "island", "BB") == ["R-backup"]
    assert "MB" not in found.feeding["island"]


def test_in_transit_nothing_is_fed() -> None:
    assert "transit" not in house("meter-led").feeding


def test_what_lies_between_the_network_and_an_inverter_carries_both_ways() -> None:
    assert house("meter-led").two_way == {"R-tails", "R-main", "R-inverter"}
    assert house("controller-led").two_way == {"R-tails", "R-garage", "R-INV1", "R-INV2"}


def test_an_inverter_behind_the_changeover_unit_feeds_back_through_it() -> None:
    found = house("changeover-led", BEHIND_THE_UNIT)
    assert found.two_way == {"R-tails", "R-main", "R-changeover", "R-island"}
    assert runs(found, "island", "BB")[0] == "R-island"


def test_of_several_sources_the_nearest_feeds() -> None:
    """A second inverter beside the first on the backup board: the first of two that are as near."""
    second = {
        "devices.+": {
            "id": "INV2", "kind": "inverter", "part": "example-hybrid-6k-single", "link": "disabled",
        },
        "runs.+": {
            "id": "R-second", "from": "INV2.backup", "to": "BB", "cable": "pvc-multicore", "size": "10 mm²",
            "stretches": [{"length": "5 m", "method": "C", "ambient": "30 °C", "circuits": 1}],
        },
    }  # fmt: skip
    found = house("meter-led", second)
    assert runs(found, "island", "BB") == ["R-backup"]
    assert runs(found, "island", "INV2.backup") == []
