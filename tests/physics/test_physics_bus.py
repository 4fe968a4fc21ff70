"""The resistance and the idle voltage of small buses, worked by hand."""

from itertools import pairwise

import pytest

from ferrule.physics.bus import Bias, Link, Network, Node, input_resistance, length_at_speed


def line(*nodes: Node, core_ohm: float = 0.0) -> Network:
    return Network(nodes, tuple(Link(a, b, core_ohm) for a, b in pairwise(range(len(nodes)))))


def ohms(network: Network, at: int = 0, *, joined: bool = True) -> float:
    return network.unpowered_v(at=at, test_a=0.001, joined=joined) / 0.001


PLAIN = Node(input_ohm=12_000)
ENDED = Node(120, 12_000)


@pytest.mark.parametrize("nodes", [2, 5, 8, 16, 32])
@pytest.mark.parametrize("terminators", range(5))
def test_every_receiver_is_twenty_four_kilohms_between_the_lines(nodes: int, terminators: int) -> None:
    """12 kΩ from each line to the reference; 120 Ω for each terminator: all in parallel."""
    loaded = [ENDED] * min(terminators, nodes) + [PLAIN] * max(nodes - terminators, 0)
    if terminators > nodes:
        loaded[0] = Node(120 / (terminators - nodes + 1), 12_000)
    assert ohms(line(*loaded)) == pytest.approx(1 / (terminators / 120 + nodes / 24_000))


#: what a meter shows by unit loads of each receiver and by terminators, for 2, 5, 8, 16 and 32 receivers
SHOWN = {
    (1.0, 0): ("12 k", "4.8 k", "3 k", "1.5 k", "750"),
    (1.0, 1): ("119", "117", "115", "111", "103"),
    (1.0, 2): ("59.7", "59.3", "58.8", "57.7", "55.6"),
    (1.0, 3): ("40", "40", "39", "39", "38"),
    (1.0, 4): ("30", "30", "30", "29", "29"),
    (0.125, 0): ("96 k", "38 k", "24 k", "12 k", "6 k"),
    (0.125, 1): ("120", "120", "119", "119", "118"),
    (0.125, 2): ("60", "60", "60", "60", "59"),
}


@pytest.mark.parametrize(("load", "terminators"), SHOWN)
def test_what_a_meter_shows(load: float, terminators: int) -> None:
    """Each within its last printed digit, whichever devices have the terminators."""
    for nodes, shown in zip((2, 5, 8, 16, 32), SHOWN[load, terminators], strict=True):
        number, _, kilo = shown.partition(" ")
        step = 10.0 ** -len(number.partition(".")[2])
        input_ohm = input_resistance(unit_ohm=12_000, share=load)
        spread = [terminators // nodes + (at < terminators % nodes) for at in range(nodes)]
        found = ohms(line(*[Node(120 / each if each else None, input_ohm) for each in spread]))
        assert abs(found / (1000 if kilo else 1) - float(number)) <= step / 2 * (1 + 1e-9), (nodes, shown)


@pytest.mark.parametrize(
    ("resistor_ohm", "terminators", "expected_v"),
    [(560, 1, 0.48), (560, 2, 0.25), (560, 3, 0.17), (650, 1, 0.42), (650, 2, 0.22), (650, 3, 0.15),
     (4700, 1, 0.06), (4700, 2, 0.03)],
)  # fmt: skip
def test_one_bias_pair_on_five_volts(resistor_ohm: float, terminators: int, expected_v: float) -> None:
    """5 V over 2 · R + 120/n: a third terminator or weak bias leaves too little."""
    ends = [Node(120 if at < terminators else None) for at in range(3)]
    ends[0] = ends[0]._replace(bias=Bias(resistor_ohm, resistor_ohm, 5.0))
    plus_v, minus_v = line(*ends).idle_v()[0]
    assert plus_v - minus_v == pytest.approx(expected_v, abs=0.005)
    assert plus_v + minus_v == pytest.approx(5.0)


@pytest.mark.parametrize(("core_ohm", "both", "far"), [(8.4, 63.9, 136.8), (3.9, 61.9, 127.8)])
def test_a_hundred_metres_of_cable(core_ohm: float, both: float, far: float) -> None:
    """Cores of 84 and 39 Ω/km, as of 0.22 and 0.5 mm²: 120 Ω beside 120 Ω and two cores, or these alone."""
    assert ohms(line(Node(120), Node(120), core_ohm=core_ohm)) == pytest.approx(both, abs=0.05)
    assert ohms(line(Node(), Node(120), core_ohm=core_ohm)) == pytest.approx(far, abs=0.05)


def test_a_dead_bias_pair() -> None:
    """560 + 560 Ω beside 60 Ω make 57 Ω; where its supply stays open nothing flows through it."""
    network = line(Node(120, bias=Bias(560, 560, 5.0)), Node(120))
    assert ohms(network) == pytest.approx(1 / (1 / 60 + 1 / 1120))
    assert ohms(network, joined=False) == pytest.approx(60)


def test_a_branch_reads_like_a_line() -> None:
    """A star of three arms of 10 Ω a core, terminated at two of their ends, read at the third."""
    star = Network(
        (Node(), Node(120), Node(120), Node()), (Link(0, 1, 10.0), Link(0, 2, 10.0), Link(0, 3, 10.0))
    )
    assert ohms(star, 3) == pytest.approx(20 + 140 / 2)


def test_an_open_pair_lets_no_current_flow() -> None:
    with pytest.raises(ZeroDivisionError):
        line(Node(), Node(), core_ohm=1.0).unpowered_v(at=0, test_a=0.001, joined=True)


def test_without_bias_nothing_stands_between_the_lines() -> None:
    assert line(ENDED, PLAIN, ENDED).idle_v() == ((0.0, 0.0),) * 3


def test_an_eighth_of_a_unit_load() -> None:
    assert input_resistance(unit_ohm=12_000, share=0.125) == 96_000


@pytest.mark.parametrize(("speed", "length"), [(9600, 1000), (100_000, 1000), (115_200, 868), (1e6, 100)])
def test_faster_is_shorter(speed: float, length: float) -> None:
    found = length_at_speed(full_length_m=1000, full_bit_per_s=100_000, speed_bit_per_s=speed)
    assert found == pytest.approx(length, abs=0.5)
