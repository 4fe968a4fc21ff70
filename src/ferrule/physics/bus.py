"""A two-wire signal bus as a meter sees it: the resistance between its lines without power, and the voltage
between them while nobody sends.

The bus is a network of resistances: at each node a terminator across the pair, the receiver's input from each
line to the signal reference, and where a node biases the bus a resistor from one line to its supply and from
the other to the reference; between the nodes the cable's two conductors. The references of all nodes count as
one point, as the third conductor of a sound bus makes them. Kirchhoff's current law at every node gives the
equations, and they are solved node by node, neighbours first.
"""

from collections.abc import Mapping
from functools import lru_cache
from itertools import combinations
from typing import NamedTuple

from ferrule.quantity import BitRateBitPerS, CurrentA, LengthM, Ratio, ResistanceOhm, VoltageV, formula


@formula("test_v / test_a")
def resistance_between_lines(*, test_v: VoltageV, test_a: CurrentA) -> ResistanceOhm:
    """What an ohmmeter shows: the voltage it finds between the lines over the current it sends through them.

    Raises `ZeroDivisionError` for no current.
    """
    return test_v / test_a


@formula("plus_v - minus_v")
def idle_voltage(*, plus_v: VoltageV, minus_v: VoltageV) -> VoltageV:
    """The voltage between the two lines while nobody sends; both are against the signal reference."""
    return plus_v - minus_v


@formula("unit_ohm / share")
def input_resistance(*, unit_ohm: ResistanceOhm, share: Ratio) -> ResistanceOhm:
    """Input of a receiver, from each line to its reference, that is a share of one unit load (TIA-485-A).

    Raises `ZeroDivisionError` for a receiver without load.
    """
    return unit_ohm / share


@formula("unit_ohm / resistor_ohm")
def bias_load(*, unit_ohm: ResistanceOhm, resistor_ohm: ResistanceOhm) -> Ratio:
    """How many unit loads the resistors of a bias pair are, one from each line (TIA-485-A).

    Raises `ZeroDivisionError` for a resistor of no resistance.
    """
    return unit_ohm / resistor_ohm


@formula("full_length_m * min(1, full_bit_per_s / speed_bit_per_s)")
def length_at_speed(
    *, full_length_m: LengthM, full_bit_per_s: BitRateBitPerS, speed_bit_per_s: BitRateBitPerS
) -> LengthM:
    """Longest bus at a speed: the full length up to the full speed, above it the less the faster.

    The guideline of TIA-485-A. Raises `ZeroDivisionError` for no speed.
    """
    return full_length_m * min(1, full_bit_per_s / speed_bit_per_s)


class Bias(NamedTuple):
    """Resistors that hold the idle bus: one from the plus line to a supply, one from the minus line to the
    reference.
    """

    up_ohm: float
    down_ohm: float
    supply_v: float


class Node(NamedTuple):
    """What one device puts on the pair; `input_ohm` is from each line to the reference."""

    terminator_ohm: float | None = None
    input_ohm: float | None = None
    bias: Bias | None = None


class Link(NamedTuple):
    """The cable between two nodes, by their places in the network; `conductor_ohm` is that of one core."""

    one: int
    other: int
    conductor_ohm: float


class Network(NamedTuple):
    """A bus: its nodes, and the cables that join them to one piece."""

    nodes: tuple[Node, ...]
    links: tuple[Link, ...]

    def unpowered_v(self, *, at: int, test_a: float, joined: bool) -> float:
        """The voltage between the lines at a node while a meter sends `test_a` through them, in V.

        Nothing has power. `joined` says that the dead supplies of the bias pairs connect their two ends, as
        most do; else they are open. Raises `ZeroDivisionError` where no current can flow.
        """
        return _unpowered_v(self, at, test_a, joined)

    def idle_v(self) -> tuple[tuple[float, float], ...]:
        """The voltages of the plus and the minus line against the reference at each node, nobody sending, in
        V. Without bias they are 0 V.
        """
        return _idle_v(self)

    def mesh(self, *, joined: bool) -> "_Mesh":
        """The conductances between all points, in S. A supply of fixed voltage leaves a bias resistor as a
        conductance to the reference; so does a dead one that joins its ends.
        """
        mesh: _Mesh = {}
        spots = _spots(self)
        for spot, node in zip(spots, self.nodes, strict=True):
            plus, minus = ("plus", spot), ("minus", spot)
            mesh.setdefault(plus, {})
            mesh.setdefault(minus, {})
            if node.terminator_ohm is not None:
                _join(mesh, plus, minus, 1 / node.terminator_ohm)
            if node.input_ohm is not None:
                _join(mesh, plus, _REFERENCE, 1 / node.input_ohm)
                _join(mesh, minus, _REFERENCE, 1 / node.input_ohm)
            if node.bias is not None:
                _join(mesh, minus, _REFERENCE, 1 / node.bias.down_ohm)
                if joined:
                    _join(mesh, plus, _REFERENCE, 1 / node.bias.up_ohm)
        for link in self.links:
            one, other = spots[link.one], spots[link.other]
            if one != other:
                for line in ("plus", "minus"):
                    _join(mesh, (line, one), (line, other), 1 / link.conductor_ohm)
        return mesh


# A house is asked of again and again while its buses stay as they are.


@lru_cache(maxsize=256)
def _unpowered_v(network: Network, at: int, test_a: float, joined: bool) -> float:
    spot = _spots(network)[at]
    plus, minus = ("plus", spot), ("minus", spot)
    found = _potentials_v(network.mesh(joined=joined), {plus: test_a}, datum=minus)
    return found[plus]


@lru_cache(maxsize=256)
def _idle_v(network: Network) -> tuple[tuple[float, float], ...]:
    spots = _spots(network)
    sources: dict[_Point, float] = {}
    for spot, node in zip(spots, network.nodes, strict=True):
        if node.bias is not None:
            plus = ("plus", spot)
            sources[plus] = sources.get(plus, 0.0) + node.bias.supply_v / node.bias.up_ohm
    found = _potentials_v(network.mesh(joined=True), sources, datum=_REFERENCE)
    return tuple((found["plus", spot], found["minus", spot]) for spot in spots)


_Point = tuple[str, int]
_Mesh = dict[_Point, dict[_Point, float]]

_REFERENCE: _Point = ("reference", 0)


def _spots(network: Network) -> list[int]:
    """The point of the cable each node sits on: a cable without resistance makes two nodes one point."""
    spots = list(range(len(network.nodes)))
    for link in network.links:
        if not link.conductor_ohm:
            kept, gone = spots[link.one], spots[link.other]
            spots = [kept if spot == gone else spot for spot in spots]
    return spots


def _join(mesh: _Mesh, one: _Point, other: _Point, conductance_s: float) -> None:
    for here, there in ((one, other), (other, one)):
        joined = mesh.setdefault(here, {})
        joined[there] = joined.get(there, 0.0) + conductance_s


def _potentials_v(mesh: _Mesh, sources_a: Mapping[_Point, float], datum: _Point) -> dict[_Point, float]:
    """The potential of every point against the datum, with currents fed in at some.

    A point is taken out by joining its neighbours to each other in its stead and sharing its current out
    among them; all are sums and products of positive numbers, so nothing is lost to rounding. The points are
    then put back in turn. One that nothing leads to stays at the datum.
    """
    left = {point: dict(around) for point, around in mesh.items()}
    fed_a = dict(sources_a)
    taken: list[tuple[_Point, dict[_Point, float]]] = []
    while points := [point for point in left if point != datum]:
        point = min(points, key=lambda each: len(left[each]))
        around = left.pop(point)
        taken.append((point, around))
        _share_out(left, fed_a, point, around)
    found = {datum: 0.0}
    for point, around in reversed(taken):
        carried_a = fed_a.get(point, 0.0) + sum(found[other] * each_s for other, each_s in around.items())
        found[point] = carried_a / sum(around.values()) if carried_a else 0.0
    return found


def _share_out(
    left: _Mesh, fed_a: dict[_Point, float], point: _Point, around: Mapping[_Point, float]
) -> None:
    total_s = sum(around.values())
    for other, each_s in around.items():
        left[other].pop(point)
        fed_a[other] = fed_a.get(other, 0.0) + fed_a.get(point, 0.0) * each_s / total_s
    for (one, one_s), (other, other_s) in combinations(around.items(), 2):
        _join(left, one, other, one_s * other_s / total_s)
