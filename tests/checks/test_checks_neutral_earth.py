"""Neutral and earth of the demo houses, with the change that would mend each mistake."""

from typing import Any

import pytest

from ferrule import display
from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from houses import REMOVED, answered, constraint, finding

BACKUP = "parts.example-hybrid-6k-single.backup"
UNIT = "parts.example-changeover-63"


def generator(transfer: str = "all-live", link: str = "fixed") -> dict[str, Any]:
    return {
        "devices.+": {"id": "GEN", "kind": "generator", "part": "gen", "transfer": transfer},
        "parts.+": {
            "id": "gen", "kind": "generator", "name": "Example set 5 kVA", "source": "invented", "link": link,
        },
        "runs.+": {
            "id": "R-generator", "from": "GEN", "to": "MB", "cable": "pvc-multicore", "size": "4 mm²",
            "neutral": "4 mm²", "protective": "4 mm²",
            "stretches": [{"length": "5 m", "method": "C", "ambient": "25 °C", "circuits": 1}],
        },
    }  # fmt: skip


def bond(edits: dict[str, Any], position: str, house: str = "meter-led") -> Finding:
    return finding(answered(edits, house), "earth.neutral_bond", f"installation/house@{position}")


def mends(found: Finding) -> list[str]:
    return [display.remedy(remedy) for remedy in found.remedies]


@pytest.mark.parametrize(
    ("house", "positions"),
    [
        ("meter-led", ["grid", "island", "transit"]),
        ("controller-led", ["grid"]),
        ("changeover-led", ["grid", "island", "transit", "bypass"]),
    ],
)
def test_the_demo_houses_are_joined_once_in_every_position(house: str, positions: list[str]) -> None:
    found = [f for f in answered(house=house).findings if f.id == "earth.neutral_bond"]
    assert sorted(f.subject.position for f in found) == sorted(positions)
    assert {f.verdict for f in found} == {Verdict.PASS}


def test_a_disabled_link_is_to_be_enabled() -> None:
    found = bond({"devices.INV1.link": "disabled"}, "island")
    assert constraint(found, "bonds").verdict is Verdict.FAIL
    assert mends(found) == ["enable the neutral-earth link of INV1 by its country setting"]


def test_a_device_without_a_link_is_to_be_replaced() -> None:
    found = bond({f"{BACKUP}.link": "none"}, "island")
    assert found.verdict is Verdict.FAIL
    assert mends(found) == [
        "take an inverter or a changeover unit that joins neutral to earth in island mode"
    ]


def test_an_unknown_country_setting_is_asked() -> None:
    found = bond({"devices.INV1.link": REMOVED}, "island")
    assert found.verdict is Verdict.UNKNOWN
    assert any("country setting" in ask for each in found.constraints for ask in each.find_out)


def test_an_unknown_earthing_system_is_asked() -> None:
    assert bond({"supply.earthing": REMOVED}, "grid").verdict is Verdict.UNKNOWN


def test_a_strap_makes_two_on_the_network_and_is_to_go() -> None:
    found = bond({"boards.BB.strap": True}, "grid")
    assert constraint(found, "bonds").verdict is Verdict.FAIL
    assert mends(found) == ["keep the bond of supply and take away, or disable, that of BB"]
    island = bond({"boards.BB.strap": True}, "island")
    assert mends(island) == ["keep the bond of INV1.link and take away, or disable, that of BB"]


def test_a_neutral_that_runs_through_leaves_no_room_for_a_link() -> None:
    found = bond({f"{BACKUP}.neutral": "through"}, "island")
    assert constraint(found, "bonds").verdict is Verdict.FAIL
    assert constraint(found, "neutral").verdict is Verdict.FAIL
    assert "keep the bond of supply and take away, or disable, that of INV1.link" in mends(found)
    lone = bond({f"{BACKUP}.neutral": "through", "devices.INV1.link": "disabled"}, "island")
    assert constraint(lone, "bonds").verdict is Verdict.PASS


def test_a_combined_conductor_stays_joined() -> None:
    edits = {"supply.earthing": "TN-C", "devices.INV1.link": "disabled", f"{BACKUP}.neutral": "through"}
    assert bond(edits, "island").verdict is Verdict.PASS
    opened = bond({"supply.earthing": "TN-C"}, "island")
    assert constraint(opened, "neutral").verdict is Verdict.FAIL


def test_two_links_in_the_changeover_house_are_one_too_many() -> None:
    found = bond({"devices.INV1.link": "enabled"}, "island", "changeover-led")
    assert found.verdict is Verdict.FAIL
    (mend,) = mends(found)
    assert "CO.link" in mend
    assert "INV1.link" in mend


@pytest.mark.parametrize(
    ("switch_over", "verdict"),
    [("200 ms", Verdict.PASS), ("210 ms", Verdict.FAIL), (REMOVED, Verdict.UNKNOWN)],
)
def test_the_time_without_a_bond(switch_over: Any, verdict: Verdict) -> None:
    found = bond({f"{BACKUP}.switch_over": switch_over}, "transit")
    assert constraint(found, "gap").verdict is verdict


def test_the_changeover_unit_has_a_time_of_its_own() -> None:
    assert bond({f"{UNIT}.transit": "300 ms"}, "transit", "changeover-led").verdict is Verdict.FAIL


def test_a_neutral_that_runs_through_has_no_time_without_a_bond() -> None:
    found = bond({f"{BACKUP}.neutral": "through", "devices.INV1.link": "disabled"}, "transit")
    assert [each.name for each in found.constraints] == ["bonds"]


def test_a_strap_behind_the_boards_rcd_is_on_the_wrong_side() -> None:
    edits = {
        f"{BACKUP}.link": "none",
        "boards.BB.strap": True,
        "boards.BB.rcd": {"type": "A", "residual": "30 mA", "rating": "40 A", "direction": "one"},
    }
    found = bond(edits, "island")
    assert constraint(found, "location").verdict is Verdict.FAIL
    assert "join neutral to earth on the source side of the RCD of BB" in mends(found)
    assert constraint(bond({}, "island"), "location").verdict is Verdict.PASS


def test_the_networks_bond_behind_the_inverters_rcd_is_on_the_wrong_side() -> None:
    """With the neutral through, a fault in the island flows back through that RCD's neutral pole alone."""
    edits = {
        f"{BACKUP}.neutral": "through",
        "devices.INV1.link": "disabled",
        "boards.MB.circuits.C-inverter.rcd": {
            "type": "A", "residual": "300 mA", "rating": "40 A", "direction": "both", "all_poles": True,
        },
    }  # fmt: skip
    found = bond(edits, "island")
    assert dict(constraint(found, "location").words)["behind"] == "C-inverter"
    assert constraint(found, "location").verdict is Verdict.FAIL


# IT


def test_an_it_supply_wants_no_bond_and_a_monitor() -> None:
    edits = {"supply.earthing": "IT", "earth.insulation_monitor": True}
    assert bond(edits, "grid").verdict is Verdict.PASS
    island = bond(edits, "island")
    assert constraint(island, "bonds").verdict is Verdict.FAIL
    assert mends(island) == ["take away the bond of INV1.link; an IT system has none"]
    assert (
        constraint(bond({**edits, "devices.INV1.link": "disabled"}, "island"), "bonds").verdict
        is Verdict.PASS
    )


@pytest.mark.parametrize(("fitted", "verdict"), [(False, Verdict.FAIL), (REMOVED, Verdict.UNKNOWN)])
def test_without_a_monitor_nobody_learns_of_a_first_fault(fitted: Any, verdict: Verdict) -> None:
    edits = {"supply.earthing": "IT"} | ({} if fitted is REMOVED else {"earth.insulation_monitor": fitted})
    assert constraint(bond(edits, "grid"), "insulation_monitor").verdict is verdict


@pytest.mark.parametrize(
    ("earthing", "allowed", "verdict"),
    [
        ("TT", ["TN-S", "TT"], Verdict.PASS),
        ("IT", ["TN-S", "TT"], Verdict.FAIL),
        ("IT", ["IT"], Verdict.PASS),
        ("TT", REMOVED, Verdict.UNKNOWN),
    ],
)
def test_the_inverters_sheet_names_its_earthing_systems(
    earthing: str, allowed: Any, verdict: Verdict
) -> None:
    edits = {"supply.earthing": earthing, "parts.example-hybrid-6k-single.earthing": allowed}
    assert finding(answered(edits), "inverter.earthing_system", "inverter/INV1").verdict is verdict


# Bypass


def test_an_unknown_bypass_is_asked() -> None:
    assert bond({f"{UNIT}.bypass": REMOVED}, "bypass", "changeover-led").verdict is Verdict.UNKNOWN


def test_a_bypassed_inverter_may_still_reach_a_neutral_that_runs_through() -> None:
    edits = {f"{UNIT}.neutral": "through", f"{UNIT}.link": "none", "devices.INV1.link": "enabled"}
    found = bond(edits, "bypass", "changeover-led")
    assert constraint(found, "dead_link").verdict is Verdict.CAUTION
    assert not [c for c in bond({}, "bypass", "changeover-led").constraints if c.name == "dead_link"]


# Generators and backfeed


def backfeed(edits: dict[str, Any], position: str, house: str = "meter-led") -> Finding:
    return finding(answered(edits, house), "supply.backfeed", f"installation/house@{position}")


def test_an_interlocked_generator_is_joined_once_and_feeds_nothing_back() -> None:
    assert constraint(bond(generator(), "generator"), "bonds").verdict is Verdict.PASS
    assert bond(generator(), "grid").verdict is Verdict.PASS
    assert backfeed(generator(), "generator").verdict is Verdict.PASS


def test_a_generator_without_its_own_bond_is_joined_at_the_set() -> None:
    found = bond(generator(link="none"), "generator")
    assert found.verdict is Verdict.FAIL
    assert mends(found) == ["join neutral to earth at GEN"]


def test_a_transfer_switch_of_lines_leaves_two_bonds() -> None:
    assert bond(generator("lines"), "generator").verdict is Verdict.FAIL
    found = bond(generator("lines", "none"), "generator")
    assert constraint(found, "bonds").verdict is Verdict.PASS
    assert found.verdict is Verdict.CAUTION  # the house hangs on a neutral that an outage may have broken


def test_without_an_interlock_the_generator_feeds_the_network() -> None:
    assert backfeed(generator("none"), "generator").verdict is Verdict.FAIL
    assert backfeed(generator("unknown"), "generator").verdict is Verdict.UNKNOWN


@pytest.mark.parametrize("house", ["meter-led", "changeover-led"])
def test_no_island_feeds_the_network(house: str) -> None:
    assert backfeed({}, "island", house).verdict is Verdict.PASS


def test_an_inverter_that_feeds_its_own_network_side_is_told() -> None:
    """Its supply moved behind the changeover unit it feeds."""
    edits = {
        "runs.R-INV1.from": "BB",
        "boards.MB.circuits.C-INV1": REMOVED,
        "boards.BB.circuits.+": {"id": "C-INV1", "run": "R-INV1", "phases": ["L1", "L2", "L3"]},
    }
    found = backfeed(edits, "island", "changeover-led")
    assert constraint(found, "own_grid_port").verdict is Verdict.FAIL


# Electrode


@pytest.mark.parametrize(("electrode", "verdict"), [("none", Verdict.FAIL), (REMOVED, Verdict.UNKNOWN)])
def test_island_mode_stands_on_an_electrode(electrode: Any, verdict: Verdict) -> None:
    result = answered({"earth.electrode": electrode})
    assert finding(result, "earth.island_electrode", "installation/house@island").verdict is verdict
    assert finding(answered(), "earth.island_electrode", "installation/house@island").verdict is Verdict.PASS


def test_a_house_without_backup_is_not_asked() -> None:
    assert not [f for f in answered(house="controller-led").findings if f.id == "earth.island_electrode"]
