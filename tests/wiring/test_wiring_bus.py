"""The shape of a bus: ends and branches, in whatever order its links are written."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from ferrule.job.bus import Bus, BusLink, BusNode
from ferrule.wiring.bus import line

PORTS = [f"D{n}.BUS" for n in range(6)]


def bus(links: list[tuple[str, str]]) -> Bus:
    ports = dict.fromkeys(port for link in links for port in link)
    nodes = [BusNode.model_validate({"port": port}) for port in ports]
    cables = [BusLink.model_validate({"from": a, "to": b}) for a, b in links]
    return Bus.model_validate({"id": "RS", "kind": "rs485", "cable": "x", "nodes": nodes, "links": cables})


@given(order=st.permutations(PORTS), data=st.data())
def test_a_line_has_two_ends_and_no_branch(order: list[str], data: st.DataObject) -> None:
    links = data.draw(st.permutations(list(pairwise(order))))
    turned = [(b, a) if data.draw(st.booleans()) else (a, b) for a, b in links]
    found = line(bus(turned))
    assert set(found.ends) == {order[0], order[-1]}
    assert found.branches == ()


def test_a_star_branches_at_its_middle() -> None:
    found = line(bus([(PORTS[0], PORTS[n]) for n in (1, 2, 3)]))
    assert found.branches == (PORTS[0],)
    assert set(found.ends) == set(PORTS[1:4])
