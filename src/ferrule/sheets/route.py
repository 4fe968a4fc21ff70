"""Conductors from port to port, along the grid: around devices and words, never along each other, with few
crossings and few bends.

Each is laid by a search for the cheapest way (A*), the short ones first; those that cross others are then
taken up and laid once more, until that betters nothing. The same input gives the same drawing.
"""

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from heapq import heappop, heappush
from itertools import pairwise
from typing import NamedTuple, TypeAlias

from ferrule.sheets.scene import FACINGS, GRID_MM, HEAVY, Box, Circle, Item, Layer, Line, Pen, Point
from ferrule.sheets.symbol import Port

CLEAR_MM = 1.2
"""Room kept between a conductor and what it goes around."""

_STEP, _BEND, _CROSSING = 2, 6, 12
_OWN = 1  # a step along what the net has laid already
_ORDERS, _ROUNDS = 4, 3

Node: TypeAlias = int
Way: TypeAlias = tuple[Node, ...]


class Wire(NamedTuple):
    """A conductor to be laid. Those of one net (by default each is its own) may join, which makes a joint."""

    name: str
    start: Port
    end: Port
    net: str = ""
    pen: Pen = HEAVY
    layer: Layer = "conductor"


class Routed(NamedTuple):
    """What was laid: lines and joints to draw, the corners of each wire by its name, and the names of those
    for which there is no way. A drawing with any of these needs more room.
    """

    items: tuple[Item, ...]
    paths: dict[str, tuple[Point, ...]]
    unrouted: tuple[str, ...]


def route(area: Box, obstacles: Iterable[Box], wires: Sequence[Wire], step_mm: float = GRID_MM) -> Routed:
    """Lay the wires within the area, off its edges and around the obstacles. Ports lie on the grid, at the
    edge of or outside whatever they belong to; a wire leaves its port straight. Raises `ValueError` for a
    port that lies off the grid or outside the area, and for two wires of one name.
    """
    if len({wire.name for wire in wires}) < len(wires):
        raise ValueError("two wires have one name")
    grid = _Grid(area, step_mm)
    for box in obstacles:
        grid.block(box)
    ends = {wire.name: (grid.end(wire.start), grid.end(wire.end)) for wire in wires}
    for wire in wires:
        for node, facing in ends[wire.name]:
            grid.keep(node, facing, _net(wire))
    ways = _lay_all(grid, wires, ends)
    return Routed(
        (*_lines(grid, wires, ways), *_joints(grid, wires, ways)),
        {name: tuple(map(grid.point, _corners(way))) for name, way in ways.items()},
        tuple(wire.name for wire in wires if wire.name not in ways),
    )


End: TypeAlias = tuple[Node, int]


def _net(wire: Wire) -> str:
    return wire.net or wire.name


class _Grid:
    """The nodes of an area, a border around it, and who lies on them."""

    def __init__(self, area: Box, step_mm: float) -> None:
        self.step_mm = step_mm
        left, top, right, bottom = (each / step_mm for each in area.grown(-CLEAR_MM))
        self.first_column, self.first_row = math.ceil(left), math.ceil(top)
        # A border that no wire enters saves asking at each step whether the page ends.
        self.columns = math.floor(right) - self.first_column + 3
        self.rows = math.floor(bottom) - self.first_row + 3
        self.steps = (-self.columns, 1, self.columns, -1)  # as FACINGS: up, right, down, left
        count = self.columns * self.rows
        self.blocked = [
            not (0 < node % self.columns < self.columns - 1 and 0 < node // self.columns < self.rows - 1)
            for node in range(count)
        ]
        self.kept: dict[Node, str] = {}
        # Who passes a node down the page and across it, and who bends or ends there.
        self.upright: list[str | None] = [None] * count
        self.level: list[str | None] = [None] * count
        self.corner: list[str | None] = [None] * count

    def node(self, at: Point) -> Node:
        column, row = round(at.x_mm / self.step_mm), round(at.y_mm / self.step_mm)
        off = abs(column * self.step_mm - at.x_mm) + abs(row * self.step_mm - at.y_mm)
        across, along = column - self.first_column, row - self.first_row
        if off > 1e-6 or not (0 <= across < self.columns - 2 and 0 <= along < self.rows - 2):
            raise ValueError(f"port at {at.x_mm:g}, {at.y_mm:g} mm lies off the grid or outside the area")
        return self._node(column, row)

    def _node(self, column: int, row: int) -> Node:
        return (row - self.first_row + 1) * self.columns + column - self.first_column + 1

    def point(self, node: Node) -> Point:
        along, across = divmod(node, self.columns)
        return Point(
            (across - 1 + self.first_column) * self.step_mm, (along - 1 + self.first_row) * self.step_mm
        )

    def end(self, port: Port) -> End:
        return self.node(port.at), FACINGS.index(port.facing)

    def block(self, box: Box) -> None:
        """No wire comes nearer to the box than is clear."""
        left, top, right, bottom = (each / self.step_mm for each in box.grown(CLEAR_MM))
        last_column, last_row = self.first_column + self.columns - 3, self.first_row + self.rows - 3
        for row in range(max(math.ceil(top), self.first_row), min(math.floor(bottom), last_row) + 1):
            for column in range(
                max(math.ceil(left), self.first_column), min(math.floor(right), last_column) + 1
            ):
                self.blocked[self._node(column, row)] = True

    def keep(self, node: Node, facing: int, net: str) -> None:
        """A port and the first step out of it are for its own net."""
        self.blocked[node] = False
        for each in (node, node + self.steps[facing]):
            self.kept.setdefault(each, net)

    def lay(self, way: Way, net: str | None) -> None:
        """Note who passes where; with no net, take it up again."""
        for node in (way[0], way[-1]):
            self.corner[node] = net
        for before, node, after in zip(way, way[1:], way[2:], strict=False):
            if node - before != after - node:
                self.corner[node] = net
        for one, other in pairwise(way):
            passing = self.level if abs(other - one) == 1 else self.upright
            passing[one] = passing[other] = net

    def crossed(self, way: Way, net: str) -> int:
        """How many others the way crosses."""
        return sum(self.foreign(node, net) for node in way)

    def closed(self, node: Node, net: str) -> bool:
        """No wire of the net may come here, whichever way it goes."""
        bent = self.corner[node]
        if bent is not None and bent != net:
            return True
        return self.blocked[node] or self.kept.get(node, net) != net

    def foreign(self, node: Node, net: str) -> bool:
        return self.upright[node] not in (None, net) or self.level[node] not in (None, net)


def _lay_all(grid: _Grid, wires: Sequence[Wire], ends: dict[str, tuple[End, End]]) -> dict[str, Way]:
    """The most wires that some order could lay: the short ones first, then whichever found no way."""

    def span(wire: Wire) -> int:
        (start, _), (end, _) = ends[wire.name]
        (row, column), (end_row, end_column) = divmod(start, grid.columns), divmod(end, grid.columns)
        return abs(row - end_row) + abs(column - end_column)

    order, best = sorted(wires, key=span), dict[str, Way]()
    for _ in range(_ORDERS):
        ways = _laid(grid, order, ends)
        if len(ways) > len(best):
            best = ways
        stuck = [wire for wire in order if wire.name not in ways]
        if not stuck:
            break
        for way in ways.values():
            grid.lay(way, None)
        order = stuck + [wire for wire in order if wire.name in ways]
    return best


def _laid(grid: _Grid, order: Sequence[Wire], ends: dict[str, tuple[End, End]]) -> dict[str, Way]:
    ways: dict[str, Way] = {}
    for _ in range(_ROUNDS):
        before = dict(ways)
        for wire in order:
            _lay(grid, wire, ends[wire.name], order, ways)
        if ways == before:
            break
    return ways


def _lay(grid: _Grid, wire: Wire, ends: tuple[End, End], wires: Sequence[Wire], ways: dict[str, Way]) -> None:
    """Lay a wire; one that lies already only if it crosses others, and the others stay where they are."""
    net, laid = _net(wire), ways.get(wire.name)
    if laid and not grid.crossed(laid, net):
        return
    if laid:
        grid.lay(laid, None)
        for other in wires:  # of its own net, whose common stretches were taken up with it
            if other.name != wire.name and _net(other) == net and other.name in ways:
                grid.lay(ways[other.name], net)
    found = _cheapest(grid, ends, net) or laid
    if found:
        ways[wire.name] = found
        grid.lay(found, net)


def _cheapest(grid: _Grid, ends: tuple[End, End], net: str) -> Way | None:
    """The cheapest way between two ports, as the nodes it passes; None where there is none.

    A state is a node and a heading (as in FACINGS) in one number, and so is an entry of the queue: what is
    spent and may still be, the latter alone (of equal ways the one further on goes first), the state.
    """
    (start, out), (goal, goal_out) = ends
    left = _still_to_spend(grid, goal, (goal_out + 2) % 4, _OWN if net in grid.corner else _STEP)
    best: dict[int, int] = {4 * start + out: 0}
    came: dict[int, int] = {}
    to_go = left(start, out)
    queue = [(to_go << 40) + (to_go << 20) + 4 * start + out]
    final, done = 4 * goal + (goal_out + 2) % 4, set()
    while queue:
        state = heappop(queue) & 0xFFFFF
        if state == final:
            return _walked(state, came)
        if state in done:
            continue
        done.add(state)
        node, heading = divmod(state, 4)
        straight = node == start or grid.foreign(node, net)
        for turn in (0,) if straight else (0, 1, 3):
            way = (heading + turn) % 4
            after = node + grid.steps[way]
            cost = _cost(grid, node, after, way, net) if after != goal or 4 * goal + way == final else None
            if cost is None:
                continue
            total = best[state] + cost + (_BEND if turn else 0)
            reached = 4 * after + way
            if total < best.get(reached, total + 1):
                best[reached], came[reached] = total, state
                to_go = left(after, way)
                heappush(queue, (total + to_go << 40) + (to_go << 20) + reached)
    return None


def _still_to_spend(grid: _Grid, goal: Node, arriving: int, step: int) -> Callable[[Node, int], int]:
    """A lower bound of what a way from a node with a heading still costs: the steps and the bends that it
    would take on an empty page.
    """
    goal_row, goal_column = divmod(goal, grid.columns)

    def left(node: Node, heading: int) -> int:
        row, column = divmod(node, grid.columns)
        down, right = goal_row - row, goal_column - column
        # How far the goal lies ahead, by each heading.
        ahead = (-down, right, down, -right)
        turn = (arriving - heading) % 4
        if turn == 0:
            bends = (0 if not ahead[(heading + 1) % 4] else 2) if ahead[heading] >= 0 else 4
        elif turn == 2:
            bends = 2 if ahead[(heading + 1) % 4] else 4
        else:
            bends = 1 if ahead[heading] >= 0 and ahead[arriving] >= 0 else 3
        return step * (abs(down) + abs(right)) + _BEND * bends

    return left


def _cost(grid: _Grid, node: Node, after: Node, way: int, net: str) -> int | None:
    """What a step costs; None where something is in the way, or another net lies along it, bends, ends, or is
    to leave its port.
    """
    along, across = (grid.level, grid.upright) if way % 2 else (grid.upright, grid.level)
    passing = along[after]
    if passing is not None and passing != net:
        return None
    if grid.closed(after, net):
        return None
    crossing = across[after]
    if crossing is not None and crossing != net:
        return _STEP + _CROSSING
    return _OWN if passing == net and along[node] == net else _STEP


def _walked(state: int, came: dict[int, int]) -> Way:
    way = [state // 4]
    while state in came:
        state = came[state]
        way.append(state // 4)
    return tuple(reversed(way))


def _corners(way: Sequence[Node]) -> list[Node]:
    """The ends and the bends of a way."""
    bends = [
        node
        for before, node, after in zip(way, way[1:], way[2:], strict=False)
        if node - before != after - node
    ]
    return [way[0], *bends, way[-1]]


def _lines(grid: _Grid, wires: Sequence[Wire], ways: dict[str, Way]) -> Iterator[Line]:
    """Each stretch once, however many wires of a net share it."""
    drawn: set[tuple[Node, Node]] = set()
    for wire in wires:
        piece: list[Node] = []
        for one, other in pairwise(ways.get(wire.name, ())):
            edge = (min(one, other), max(one, other))
            if edge in drawn:
                if piece:
                    yield _line(grid, wire, piece)
                piece = []
            else:
                drawn.add(edge)
                piece = [*piece, other] if piece else [one, other]
        if piece:
            yield _line(grid, wire, piece)


def _line(grid: _Grid, wire: Wire, piece: list[Node]) -> Line:
    return Line(tuple(map(grid.point, _corners(piece))), wire.pen, wire.layer)


def _joints(grid: _Grid, wires: Sequence[Wire], ways: dict[str, Way]) -> Iterator[Circle]:
    """A dot where three or more stretches of one net meet."""
    nets: dict[tuple[Node, str], tuple[Wire, set[Node]]] = {}
    for wire in wires:
        for one, other in pairwise(ways.get(wire.name, ())):
            for here, there in ((one, other), (other, one)):
                nets.setdefault((here, _net(wire)), (wire, set()))[1].add(there)
    for (node, _), (wire, others) in nets.items():
        if len(others) > 2:
            yield Circle(grid.point(node), 0.7, wire.pen, wire.layer, filled=True)
