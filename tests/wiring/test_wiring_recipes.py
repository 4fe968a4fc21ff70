"""What each kind of device joins inside: positions, where inverters land, generators, unknowns."""

import pytest

from arrangements import RUNS, WITH_CHANGEOVER, bonds, house, job
from ferrule.fact import Missing
from ferrule.wiring.recipes import topology

SET = {"transfer": "all-live", "link": "fixed"}


def test_a_house_without_anything_on_the_backup_port_knows_the_network_alone() -> None:
    plain = job("backup board")
    runs = [run for run in plain.runs if not run.start.endswith(".backup")]
    found = topology(plain.model_copy(update={"runs": runs}))
    assert found.positions == ("grid",)
    assert [bond.by for bond in found.bonds] == ["supply"]


@pytest.mark.parametrize("arrangement", RUNS)
def test_positions_follow_from_the_devices(arrangement: str) -> None:
    bypass = arrangement in WITH_CHANGEOVER
    expected = {"grid", "island", "transit"} | ({"bypass"} if bypass else set())
    assert set(house(arrangement).positions) == expected
    assert set(house(arrangement, generator=SET).positions) == expected | {"generator"}


def test_a_unit_without_bypass_has_no_such_position_and_an_unknown_one_may_have() -> None:
    assert "bypass" not in house("whole house", bypass=False).positions
    assert "bypass" in house("whole house", bypass=None).positions


@pytest.mark.parametrize(
    ("arrangement", "source"),
    [("backup board", "INV1.backup"), ("chosen circuits", "INV1.backup"), ("grid ports", "INV1.grid")],
)
def test_an_inverter_feeds_the_island_by_the_port_it_lands_with(arrangement: str, source: str) -> None:
    found = house(arrangement)
    assert found.sources["island"] == (source,)
    assert "BB" in found.joined([source], "line", "island")
    assert "supply" not in found.joined([source], "line", "island")


@pytest.mark.parametrize("arrangement", RUNS)
def test_on_the_network_everything_is_fed_from_it(arrangement: str) -> None:
    fed = house(arrangement, inverters=2).joined(["supply"], "line", "grid")
    assert {"BB", "INV1.grid", "INV2.grid"} <= fed


def test_inverters_that_land_by_their_grid_ports_are_joined_through_the_unit_on_the_network() -> None:
    found = house("grid ports")
    assert found.path("supply", "INV1.grid", "grid") is not None
    assert found.path("supply", "INV1.grid", "bypass") is None


@pytest.mark.parametrize("arrangement", RUNS)
def test_in_transit_nothing_feeds_the_house(arrangement: str) -> None:
    found = house(arrangement)
    assert len(found.zones("transit")) == 1
    assert "supply" not in found.joined(found.sources["transit"], "line", "transit")


def test_inverters_with_boards_of_their_own_are_islands_of_their_own() -> None:
    """Two inverters that do not meet have one bond each, not two."""
    plain = job("cascade", inverters=2)
    apart = [
        run.model_copy(update={"end": "B2"}) if run.start == "INV2.backup" else run for run in plain.runs
    ]
    assert bonds(topology(plain.model_copy(update={"runs": apart})), "island") == ["R", "R"]


# Generators


def test_an_interlocked_generator_is_apart_from_the_network_either_way() -> None:
    found = house("backup board", generator=SET)
    assert "supply" not in found.joined(["GEN"], "line", "generator")
    assert "GEN" not in found.joined(["supply"], "line", "grid")
    assert "BB" in found.joined(["GEN"], "line", "generator")


def test_without_an_interlock_the_generator_feeds_the_network() -> None:
    found = house("backup board", generator={"transfer": "none", "link": "fixed"})
    assert "supply" in found.joined(["GEN"], "line", "generator")
    assert bonds(found, "grid") == ["UX"]


def test_a_generator_may_land_behind_the_changeover() -> None:
    found = house("chosen circuits", generator=SET, generator_at="BB")
    assert bonds(found, "generator") == ["X"]
    assert "MB" not in found.joined(["GEN"], "line", "generator")
    assert bonds(found, "grid") == ["U"]


def test_an_unknown_transfer_switch_leaves_the_lines_apart_and_the_neutral_unknown() -> None:
    found = house("backup board", generator={"link": "fixed"})
    assert "supply" not in found.joined(["GEN"], "line", "generator")
    for position, zone in (("grid", ["supply"]), ("generator", ["GEN"])):
        with pytest.raises(Missing, match="interlocked switch"):
            found.closed_bonds(zone, position)  # type: ignore[arg-type]


def test_a_generator_that_is_not_wired_yet_changes_nothing() -> None:
    plain = job("backup board", generator=SET)
    loose = topology(plain.model_copy(update={"runs": [run for run in plain.runs if run.start != "GEN"]}))
    assert bonds(loose, "grid") == ["U"]
    assert bonds(loose, "generator") == ["X"]


# What nobody knows


def test_an_unknown_earthing_system_leaves_every_position_unknown_that_sees_the_network() -> None:
    found = house("backup board", earthing=None)
    with pytest.raises(Missing, match="earthing system"):
        bonds(found, "grid")
    assert bonds(found, "island") == ["R"]


def test_an_unknown_neutral_matters_in_island_mode_only() -> None:
    found = house("backup board", neutral=None)
    assert bonds(found, "grid") == ["U"]
    with pytest.raises(Missing, match="neutral"):
        bonds(found, "island")


@pytest.mark.parametrize(("relay", "setting"), [(None, "enabled"), ("automatic", None)])
def test_an_unknown_link_or_setting_matters_in_island_mode_only(
    relay: str | None, setting: str | None
) -> None:
    found = house("backup board", relay=relay, setting=setting)
    assert bonds(found, "grid") == ["U"]
    with pytest.raises(Missing, match="neutral-earth link"):
        bonds(found, "island")


def test_no_link_is_no_link_whatever_its_setting() -> None:
    assert bonds(house("backup board", relay="none", setting=None), "island") == [""]


def test_a_link_that_is_built_in_ignores_the_setting() -> None:
    found = house("backup board", relay="fixed", setting="disabled")
    assert [len(bonds(found, position)[0]) for position in ("grid", "island")] == [2, 1]
