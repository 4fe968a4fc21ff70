"""The graph by itself: walks, zones, contacts that are unknown or stuck, and what more links can only add."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.fact import Missing
from ferrule.wiring.topology import ALWAYS, CLOSED, NEVER, Bond, Contact, Link, Position, Positions, Topology

ISLAND: Positions = frozenset({"island"})
ON_GRID: Positions = frozenset({"grid"})

CHAIN = Topology(
    links=(
        Link("supply", "MB", "run/R1"),
        Link("MB", "I.grid", "run/R2"),
        Link("I.grid", "I.backup", "contact/I.isolator", ON_GRID, Contact(ON_GRID)),
        Link("I.backup", "BB", "run/R3"),
    ),
    bonds=(Bond("supply", "supply", CLOSED), Bond("I.backup", "contact/I.link", Contact(ISLAND))),
    sources={"grid": ("supply",), "island": ("I.backup",)},
)


def test_a_path_runs_along_closed_lines() -> None:
    on_grid = CHAIN.path("supply", "BB", "grid")
    assert on_grid is not None
    assert [link.by for link in on_grid] == ["run/R1", "run/R2", "contact/I.isolator", "run/R3"]
    assert CHAIN.path("supply", "BB", "island") is None
    assert CHAIN.path("MB", "MB", "grid") == ()


def test_each_position_has_the_bonds_of_its_own_neutral() -> None:
    assert [bond.by for bond in CHAIN.closed_bonds(["supply"], "grid")] == ["supply"]
    assert [bond.by for bond in CHAIN.closed_bonds(["I.backup"], "island")] == ["contact/I.link"]


def test_sources_that_lines_join_make_one_zone() -> None:
    apart = Topology((), (), {"island": ("A", "B")})
    joined = Topology((Link("A", "BB", "run/1"), Link("B", "BB", "run/2")), (), {"island": ("A", "B")})
    assert apart.zones("island") == (("A",), ("B",))
    assert joined.zones("island") == (("A", "B"),)


def test_a_shared_neutral_counts_the_bond_of_another_zone() -> None:
    """Two islands whose lines are apart but whose neutrals meet have both bonds between them."""
    links = (Link("A", "N", "run/1", line=NEVER), Link("B", "N", "run/2", line=NEVER))
    bonds = (Bond("A", "contact/A.link", Contact(ISLAND)), Bond("B", "contact/B.link", Contact(ISLAND)))
    found = Topology(links, bonds, {"island": ("A", "B")})
    assert found.zones("island") == (("A",), ("B",))
    assert [len(found.closed_bonds(zone, "island")) for zone in found.zones("island")] == [2, 2]


def test_what_is_unknown_is_asked_only_where_it_matters() -> None:
    unsure = Contact(ON_GRID, ISLAND, "whether the neutral is switched")
    links = tuple(link._replace(neutral=unsure) if "contact" in link.by else link for link in CHAIN.links)
    found = replace(CHAIN, links=links)
    assert len(found.closed_bonds(["supply"], "grid")) == 1
    with pytest.raises(Missing, match="whether the neutral is switched"):
        found.closed_bonds(["I.backup"], "island")


def test_an_unknown_bond_elsewhere_is_not_asked() -> None:
    far = Bond("far", "strap/far", Contact(NEVER, ALWAYS, "far"))
    assert len(replace(CHAIN, bonds=(*CHAIN.bonds, far)).closed_bonds(["supply"], "grid")) == 1


def test_a_welded_isolator_joins_both_bonds_and_the_network() -> None:
    stuck = CHAIN.stuck("contact/I.isolator", ALWAYS)
    assert len(stuck.closed_bonds(["I.backup"], "island")) == 2
    assert "supply" in stuck.joined(["I.backup"], "line", "island")


def test_a_link_stuck_open_leaves_the_island_without_a_bond() -> None:
    assert CHAIN.stuck("contact/I.link", NEVER).closed_bonds(["I.backup"], "island") == ()


def test_a_neutral_that_runs_through_has_no_contact_to_stick() -> None:
    links = tuple(link._replace(neutral=CLOSED) if "contact" in link.by else link for link in CHAIN.links)
    stuck = replace(CHAIN, links=links).stuck("contact/I.isolator", NEVER)
    assert "supply" in stuck.joined(["I.backup"], "neutral", "grid")
    assert "supply" not in stuck.joined(["I.backup"], "line", "grid")


POSITIONS: tuple[Position, ...] = ("grid", "island", "bypass", "transit", "generator")
terminals = st.sampled_from("abcdefg")
contacts = st.frozensets(st.sampled_from(POSITIONS)).map(Contact)
some_links = st.builds(
    Link, terminals, terminals, st.just("run/x"), st.frozensets(st.sampled_from(POSITIONS)), contacts
)
some_bonds = st.builds(Bond, terminals, st.sampled_from(["contact/1", "contact/2"]), contacts)
topologies = st.builds(
    Topology,
    st.lists(some_links, max_size=8).map(tuple),
    st.lists(some_bonds, max_size=5).map(tuple),
    st.just(dict.fromkeys(POSITIONS, ("a", "b"))),
)


@given(found=topologies, more=some_links, position=st.sampled_from(POSITIONS))
def test_one_more_link_never_takes_a_bond_away(found: Topology, more: Link, position: Position) -> None:
    wider = replace(found, links=(*found.links, more))
    for zone in found.zones(position):
        assert set(found.closed_bonds(zone, position)) <= set(wider.closed_bonds(zone, position))


@given(found=topologies, more=some_bonds, position=st.sampled_from(POSITIONS))
def test_one_more_bond_adds_one_at_most(found: Topology, more: Bond, position: Position) -> None:
    wider = replace(found, bonds=(*found.bonds, more))
    for zone in found.zones(position):
        added = len(wider.closed_bonds(zone, position)) - len(found.closed_bonds(zone, position))
        assert added in {0, 1}


@given(found=topologies, position=st.sampled_from(POSITIONS))
def test_a_contact_welded_shut_never_lowers_and_one_stuck_open_never_raises_the_count(
    found: Topology, position: Position
) -> None:
    for zone in found.zones(position):
        as_it_is = len(found.closed_bonds(zone, position))
        assert len(found.stuck("contact/1", ALWAYS).closed_bonds(zone, position)) >= as_it_is
        assert len(found.stuck("contact/1", NEVER).closed_bonds(zone, position)) <= as_it_is


@given(found=topologies, position=st.sampled_from(POSITIONS))
def test_zones_share_out_all_sources_and_no_line_joins_two(found: Topology, position: Position) -> None:
    zones = found.zones(position)
    assert sorted(source for zone in zones for source in zone) == ["a", "b"]
    if len(zones) == 2:
        assert "b" not in found.joined(["a"], "line", position)


@given(found=topologies, position=st.sampled_from(POSITIONS))
def test_joined_is_mutual(found: Topology, position: Position) -> None:
    for terminal in found.joined(["a"], "neutral", position):
        assert "a" in found.joined([terminal], "neutral", position)
