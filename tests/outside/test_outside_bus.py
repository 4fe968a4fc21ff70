"""Signal buses against published examples, a second way to solve the network, and what must hold of any."""

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule import rules
from ferrule.clauses import bind
from ferrule.clauses.handwork.bus import TwistedPair
from ferrule.physics.bus import Bias, Link, Network, Node

CODE = bind(rules.load("iec-2024"))
TEST_A = 0.001


def line(nodes: Sequence[Node], core_ohm: float = 0.0) -> Network:
    return Network(tuple(nodes), tuple(Link(a, b, core_ohm) for a, b in pairwise(range(len(nodes)))))


def ohms(network: Network, at: int = 0) -> float:
    return network.unpowered_v(at=at, test_a=TEST_A, joined=True) / TEST_A


def idle_v(network: Network, at: int = 0) -> float:
    plus_v, minus_v = network.idle_v()[at]
    return plus_v - minus_v


# Published examples. Notes of this kind take a receiver of one unit load as 12 kΩ between the lines, which is
# 6 kΩ from each line to the reference.


def test_thirty_two_receivers_without_terminators() -> None:
    """Application note of a converter maker on RS-422 and RS-485, chapter 2, example 2: a load of 375 Ω; for
    200 mV no more than 9375 Ω in all on 5 V, so 9 kΩ of bias.
    """
    assert ohms(line([Node(input_ohm=6000)] * 32)) == pytest.approx(375)
    biased = Node(input_ohm=6000, bias=Bias(4500, 4500, 5.0))
    assert idle_v(line([biased, *[Node(input_ohm=6000)] * 31])) == pytest.approx(0.2, rel=1e-9)


def test_ten_nodes_each_with_bias_between_two_terminators() -> None:
    """The same maker's handbook on RS-422 and RS-485 (2010), page 35: ten receivers and two terminators make
    57 Ω; ten pairs of 4.7 kΩ are one of 470 Ω and drive some 5 mA, which is 285 mV.
    """
    bare = line([Node(120, 6000), *[Node(input_ohm=6000)] * 8, Node(120, 6000)])
    assert round(ohms(bare)) == 57
    pair = Bias(4700, 4700, 5.0)
    full = line([node._replace(bias=pair) for node in bare.nodes])
    current_ma = 1000 * idle_v(full) / ohms(bare)
    assert round(ohms(bare)) * round(current_ma) == 285


def test_a_sum_that_was_printed_wrong() -> None:
    """Page 36 of that handbook, without terminators: 470 + 1200 + 470 Ω is printed as 2.24 kΩ. It is 2.14."""
    node = Node(input_ohm=6000, bias=Bias(4700, 4700, 5.0))
    found = idle_v(line([node] * 10))
    assert found == pytest.approx(5 * 1200 / 2140)
    assert abs(found - 5 * 1200 / 2240) > 0.1


def test_two_bias_pairs_on_one_bus() -> None:
    """Question to a transceiver maker's forum: pairs of 500 Ω and 620 Ω, 120 Ω at both ends, with the lowest
    supply of 4.75 V: 0.464 V.
    """
    ends = [Node(120, bias=Bias(500, 500, 4.75)), Node(120, bias=Bias(620, 620, 4.75))]
    assert idle_v(line(ends)) == pytest.approx(0.464, abs=0.0005)


def test_one_terminator_on_three_volts() -> None:
    """A published hardware review: 1 kΩ and 1 kΩ on 3.3 V with one 120 Ω leave some 187 mV."""
    assert idle_v(line([Node(120, bias=Bias(1000, 1000, 3.3)), Node()])) == pytest.approx(0.187, abs=0.0005)


def test_terminators_that_bias() -> None:
    """A public handbook on a field bus over RS-485: 390, 220 and 390 Ω on 5 V at both ends hold the idle line
    at about 1 V.
    """
    end = Node(220, bias=Bias(390, 390, 5.0))
    found = idle_v(line([end, end]))
    assert found == pytest.approx(1.1)
    assert round(found) == 1


@pytest.mark.parametrize(("sign", "resistor_ohm"), [(-1, 277.78), (1, 333.33)])
def test_a_bias_formula_with_its_sign_turned(sign: int, resistor_ohm: float) -> None:
    """A public design notebook quotes a transceiver maker's brief: R = (V/VAB + 1)/0.036, where 0.036 S is
    1/375 + 4/120 for 32 unit loads and two terminators, and prints 333.33 Ω for 0.3 V on 3.3 V. Only with
    minus one do 0.3 V stand there.
    """
    assert resistor_ohm == pytest.approx((3.3 / 0.3 + sign) * 27.7778, abs=0.01)
    ends = [Node(120, 750, Bias(resistor_ohm, resistor_ohm, 3.3)), Node(120, 750)]
    assert (idle_v(line(ends)) == pytest.approx(0.3, abs=0.0001)) is (sign < 0)


@pytest.mark.parametrize(("terminators", "sound"), [(1, False), (2, True), (3, False)])
def test_the_band_of_a_sound_bus(terminators: int, sound: bool) -> None:
    """Troubleshooting pages of a CAN module's manual: from 50 to 70 Ω; below there are more than two
    terminators, above fewer.
    """
    nodes = [Node(120 if at < terminators else None, 25_000) for at in range(4)]
    t = CODE.trace()
    found = TwistedPair().resistance(t, network=line(nodes, 0.1), at=0)
    assert found.high is not None
    assert (found.low >= 50 and found.high <= 70) is sound
    assert sound or found.high < 50 or found.low > 70


def test_a_reading_that_a_tester_refuses() -> None:
    """Manual of a bus tester: 119.3 Ω between the lines of a CAN bus is not within 50 to 85 Ω; it is what one
    terminator reads.
    """
    for count, holds in ((1, True), (2, False)):
        nodes = [Node(120 if at < count else None, 20_000) for at in range(2)]
        assert TwistedPair().resistance(CODE.trace(), network=line(nodes), at=0).holds(119.3) is holds


# A second way: the conductances in one matrix, solved at once.

ohm = st.floats(1, 1e5)
maybe_ohm = st.none() | ohm
bias = st.none() | st.builds(Bias, ohm, ohm, st.floats(1, 24))
node = st.builds(Node, maybe_ohm, ohm, bias)


@st.composite
def trees(draw: st.DrawFn) -> Network:
    nodes = draw(st.lists(node, min_size=2, max_size=9))
    cores = st.floats(0.001, 100)
    links = [Link(draw(st.integers(0, at - 1)), at, draw(cores)) for at in range(1, len(nodes))]
    return Network(tuple(nodes), tuple(links))


def matrix(network: Network, *, joined: bool) -> np.ndarray:
    """Conductances between plus lines (0…n-1), minus lines (n…2n-1) and the reference (2n)."""
    count = len(network.nodes)
    found = np.zeros((2 * count + 1, 2 * count + 1))

    def put(a: int, b: int, resistance: float | None) -> None:
        if resistance is not None:
            found[[a, b], [a, b]] += 1 / resistance
            found[[a, b], [b, a]] -= 1 / resistance

    for at, each in enumerate(network.nodes):
        put(at, count + at, each.terminator_ohm)
        put(at, 2 * count, each.input_ohm)
        put(count + at, 2 * count, each.input_ohm)
        if each.bias is not None:
            put(at, 2 * count, each.bias.up_ohm if joined else None)
            put(count + at, 2 * count, each.bias.down_ohm)
    for link in network.links:
        put(link.one, link.other, link.conductor_ohm)
        put(count + link.one, count + link.other, link.conductor_ohm)
    return found


@given(network=trees(), at=st.integers(0, 8), joined=st.booleans())
def test_resistance_by_one_linear_solve(network: Network, at: int, joined: bool) -> None:
    count, at = len(network.nodes), at % len(network.nodes)
    grounded = np.delete(np.delete(matrix(network, joined=joined), count + at, 0), count + at, 1)
    fed = np.zeros(2 * count)
    fed[at] = 1.0
    expected = np.linalg.solve(grounded, fed)[at]
    found = network.unpowered_v(at=at, test_a=TEST_A, joined=joined) / TEST_A
    assert found == pytest.approx(float(expected), rel=1e-5)


@given(network=trees(), at=st.integers(0, 8))
def test_idle_voltage_by_one_linear_solve(network: Network, at: int) -> None:
    count, at = len(network.nodes), at % len(network.nodes)
    fed = np.array([each.bias.supply_v / each.bias.up_ohm if each.bias else 0.0 for each in network.nodes])
    fed = np.concatenate([fed, np.zeros(count)])
    potentials = np.linalg.solve(matrix(network, joined=True)[:-1, :-1], fed)
    assert network.idle_v()[at] == pytest.approx((potentials[at], potentials[count + at]), rel=1e-5, abs=1e-9)


@given(
    inputs=st.lists(ohm, min_size=2, max_size=8),
    ends=st.tuples(ohm, ohm),
    core_ohm=st.floats(0.001, 100),
)
def test_a_line_by_series_and_parallel(
    inputs: list[float], ends: tuple[float, float], core_ohm: float
) -> None:
    """Like inputs at either line leave the reference in the middle: each node is one resistance across the
    pair, and the line is reduced from its far end.
    """
    nodes = [Node(None, each) for each in inputs]
    nodes[0] = nodes[0]._replace(terminator_ohm=ends[0])
    nodes[-1] = nodes[-1]._replace(terminator_ohm=ends[1])
    beyond = math.inf
    for each in reversed(nodes):
        across = 1 / (1 / beyond + 1 / (2 * (each.input_ohm or 1)) + 1 / (each.terminator_ohm or math.inf))
        beyond = across + 2 * core_ohm
    assert ohms(line(nodes, core_ohm)) == pytest.approx(across, rel=1e-6)


# What must hold of any bus.


@given(network=trees(), at=st.integers(0, 8), where=st.integers(0, 8))
def test_one_terminator_more_lowers_both(network: Network, at: int, where: int) -> None:
    count = len(network.nodes)
    nodes, at, where = list(network.nodes), at % count, where % count
    before = nodes[where].terminator_ohm
    nodes[where] = nodes[where]._replace(terminator_ohm=120 if before is None else 1 / (1 / before + 1 / 120))
    more = network._replace(nodes=tuple(nodes))
    assert ohms(more, at) <= ohms(network, at) * (1 + 1e-9)
    assert ohms(more, where) < ohms(network, where)
    if all(each.bias is None or each.bias.up_ohm == each.bias.down_ohm for each in nodes):
        assert idle_v(more, at) <= idle_v(network, at) * (1 + 1e-9) + 1e-12


@given(network=trees(), at=st.integers(0, 8))
def test_the_line_told_from_its_other_end_is_the_same_line(network: Network, at: int) -> None:
    count = len(network.nodes)
    at %= count
    chain = line(network.nodes, 1.0)
    turned = line(network.nodes[::-1], 1.0)
    assert ohms(turned, count - 1 - at) == pytest.approx(ohms(chain, at), rel=1e-6)
    assert idle_v(turned, count - 1 - at) == pytest.approx(idle_v(chain, at), rel=1e-6, abs=1e-9)


@given(network=trees(), factor=st.floats(0.1, 10))
def test_a_network_of_other_scale(network: Network, factor: float) -> None:
    """All resistances times a factor: the meter reads so many times more, the idle voltage stays."""
    nodes = tuple(
        Node(
            each.terminator_ohm and each.terminator_ohm * factor,
            each.input_ohm and each.input_ohm * factor,
            each.bias and Bias(each.bias.up_ohm * factor, each.bias.down_ohm * factor, each.bias.supply_v),
        )
        for each in network.nodes
    )
    links = tuple(link._replace(conductor_ohm=link.conductor_ohm * factor) for link in network.links)
    other = Network(nodes, links)
    assert ohms(other) == pytest.approx(factor * ohms(network), rel=1e-6)
    assert idle_v(other) == pytest.approx(idle_v(network), rel=1e-6, abs=1e-9)
