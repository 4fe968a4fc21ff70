"""Conductors from port to port, along the grid: around devices and words, never along each other, with few
crossings and few bends.

Each is laid by a search for the cheapest way (A*), the short ones first; those that cross others are then
taken up and laid once more, until that betters nothing. The same input gives the same drawing.
"""

from collections.abc import Iterable, Iterator, Sequence
from heapq import heappop, heappush
from itertools import pairwise
from typing import NamedTuple, TypeAlias

from ferrule.sheets.scene import FACINGS, GRID_MM, HEAVY, Box, Circle, Item, Layer, Line, Pen, Point
from ferrule.sheets.symbol import Port

CLEAR_MM = 1.2
"""Room kept between a conductor and what it goes around."""

_BEND, _CROSSING, _OWN = 3.0, 10.0, 0.05  # in steps of the grid; what its own net already laid is nearly free
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
    """Lay the wires within the area, around the obstacles. Ports lie on the grid, at the edge of or outside
    whatever they belong to; a port's wire leaves it straight. Raises `ValueError` for a port that lies off
    the grid or outside the area, and for two wires of one name.
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
        self.first_column = -int(-area.left_mm // step_mm)
        self.first_row = -int(-area.top_mm // step_mm)
        # A border that no wire enters saves asking at each step whether the page ends.
        self.columns = int(area.right_mm // step_mm) - self.first_column + 3
        self.rows = int(area.bottom_mm // step_mm) - self.first_row + 3
        self.steps = (-self.columns, 1, self.columns, -1)  # as FACINGS: up, right, down, left
        count = self.columns * self.rows
        self.blocked = [
            not (0 < node % self.columns < self.columns - 1 and 0 < node // self.columns < self.rows - 1)
            for node in range(count)
        ]
        self.kept: dict[Node, str] = {}
        # Who passes a node along the page (0) and across it (1), and where a wire bends or ends.
        self.upright: list[str | None] = [None] * count
        self.level: list[str | None] = [None] * count
        self.corner: list[str | None] = [None] * count

    def node(self, at: Point) -> Node:
        column, row = round(at.x_mm / self.step_mm), round(at.y_mm / self.step_mm)
        across, along = column - self.first_column + 1, row - self.first_row + 1
        off = abs(column * self.step_mm - at.x_mm) + abs(row * self.step_mm - at.y_mm)
        if off > 1e-6 or not (0 < across < self.columns - 1 and 0 < along < self.rows - 1):
            raise ValueError(f"port at {at.x_mm:g}, {at.y_mm:g} mm lies off the grid or outside the area")
        return along * self.columns + across

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
        for row in range(max(-int(-top // 1), self.first_row), int(bottom // 1) + 1):
            for column in range(max(-int(-left // 1), self.first_column), int(right // 1) + 1):
                across, along = column - self.first_column + 1, row - self.first_row + 1
                if across < self.columns and along < self.rows:
                    self.blocked[along * self.columns + across] = True

    def keep(self, node: Node, facing: int, net: str) -> None:
        """A port and the first step out of it are for its own net."""
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
    """The cheapest way between two ports, as the nodes it passes; None where there is none."""
    (start, out), (goal, goal_out) = ends
    arriving = (goal_out + 2) % 4
    columns, steps = grid.columns, grid.steps
    goal_row, goal_column = divmod(goal, columns)

    def left(node: Node) -> float:
        """No more than what is still to be spent."""
        row, column = divmod(node, columns)
        along, across = abs(row - goal_row), abs(column - goal_column)
        return least * (along + across) + (_BEND if along and across else 0.0)

    least = _OWN if net in grid.corner else 1.0  # a step along one's own net is nearly free
    best = {(start, out): 0.0}
    came: dict[tuple[Node, int], tuple[Node, int]] = {}
    queue = [(left(start), 0.0, start, out)]
    done = set()
    while queue:
        _, _, node, heading = heappop(queue)
        state = (node, heading)
        if state in done:
            continue
        done.add(state)
        if node == goal and heading == arriving:
            return _walked(state, came)
        spent = best[state]
        straight = node == start or grid.foreign(node, net)
        for turn in (0,) if straight else (0, 1, 3):
            way = (heading + turn) % 4
            after = node + steps[way]
            if after == goal:
                if way != arriving:
                    continue
            elif grid.blocked[after]:
                continue
            cost = _step(grid, node, after, way, net)
            if cost is None:
                continue
            total = spent + cost + (_BEND if turn else 0.0)
            if total < best.get((after, way), total + 1):
                best[after, way] = total
                came[after, way] = state
                to_go = left(after)  # of equal ways the one that is further on is tried first
                heappush(queue, (total + to_go, to_go, after, way))
    return None


def _step(grid: _Grid, node: Node, after: Node, way: int, net: str) -> float | None:
    """What a step costs; None where another net lies along it, bends, ends, or is to leave its port."""
    along, across = (grid.level, grid.upright) if way % 2 else (grid.upright, grid.level)
    if grid.kept.get(after, net) != net or grid.corner[after] not in (None, net):
        return None
    if along[after] not in (None, net):
        return None
    if across[after] not in (None, net):
        return 1.0 + _CROSSING
    return _OWN if along[node] == net and along[after] == net else 1.0


def _walked(state: tuple[Node, int], came: dict[tuple[Node, int], tuple[Node, int]]) -> Way:
    way = [state[0]]
    while state in came:
        state = came[state]
        way.append(state[0])
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
