"""What no cutting plan can beat: the linear relaxation over all ways to fill a length.

Columns (ways to fill one length) are made when their price asks for them (Gilmore and Gomory, Operations
Research 9 (1961) 849 and 11 (1963) 863). The bound is taken from the prices alone and holds for any prices
(Farley, Operations Research 38 (1990) 922, with the limited lengths priced as in a Lagrangean relaxation), so
neither rounding nor an early stop can make it too high.
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

#: of each size of piece, how many come out of one length
Pattern = tuple[int, ...]

_FILLINGS = 1_000  # so often a length is filled best; an early stop only makes the bound less tight
_STEPS = 1_000  # in filling one length best; beyond, what cannot be exceeded stands in
_TINY = 1e-9
_SAME = 1e-6


class Kind(NamedTuple):
    """Lengths to cut from: the room in one, what one costs, how many there are (None: any number)."""

    room: int
    cost: int
    limit: int | None


class Bound(NamedTuple):
    """No plan costs less than `cost`; `whole` are the lengths that the relaxation cuts in whole numbers."""

    cost: float
    whole: tuple[tuple[int, Pattern], ...]


class _Column(NamedTuple):
    """One way to fill a length of a kind; without a kind, pieces left over (-1) or lacking (+1)."""

    cost: float
    entries: tuple[float, ...]
    kind: int | None = None
    pattern: Pattern = ()


def bound(sizes: Sequence[int], demand: Sequence[int], kinds: Sequence[Kind], *, enough: float) -> Bound:
    """The bound for pieces of these sizes, so many of each, out of these kinds; no more is worked out of it
    than that it lies above `enough`.
    """
    program = _Program(sizes, demand, kinds)
    lowest = 0.0
    for _ in range(_FILLINGS // len(kinds)):
        worth, column = program.priced()
        lowest = max(lowest, worth)
        if column is None or lowest > enough + _SAME:
            break
        program.enter(column)
    return Bound(lowest, tuple(program.whole()))


class _Program:
    """The revised simplex method, its inverse kept in full: it has a row for each size and limited kind."""

    def __init__(self, sizes: Sequence[int], demand: Sequence[int], kinds: Sequence[Kind]) -> None:
        self._sizes, self._demand, self._kinds = sizes, demand, kinds
        self._limited = [at for at, kind in enumerate(kinds) if kind.limit is not None]
        count, rows = len(sizes), len(sizes) + len(self._limited)
        unit = [tuple(float(at == row) for at in range(rows)) for row in range(rows)]
        lacking = 10.0 * max((kind.room for kind in kinds), default=1)
        self._basis = [_Column(lacking if row < count else 0.0, unit[row]) for row in range(rows)]
        self._slack = [_Column(0.0, tuple(-each for each in unit[row])) for row in range(count)]
        self._slack += [_Column(0.0, unit[row]) for row in range(count, rows)]
        self._inverse = [list(each) for each in unit]
        self._level = [float(each) for each in demand]
        self._level += [float(kinds[at].limit or 0) for at in self._limited]

    def priced(self) -> tuple[float, _Column | None]:
        """The bound by the present prices, and the column that gains most by them, None where none gains."""
        costs = [column.cost for column in self._basis]
        prices = [sum(c * row[at] for c, row in zip(costs, self._inverse, strict=True) if c)
                  for at in range(len(costs))]  # fmt: skip
        count = len(self._sizes)
        worth = [max(price, 0.0) for price in prices[:count]]
        found = [filled(worth, self._sizes, self._demand, kind.room) for kind in self._kinds]
        columns = [self._column(at, pattern) for at, (_, pattern) in enumerate(found)] + self._slack
        gains = [_dot(prices, column.entries) - column.cost for column in columns]
        best = max(range(len(columns)), key=gains.__getitem__)
        gain = gains[best] > _TINY * max(1.0, *(abs(price) for price in prices))
        return self._proved(worth, [most for most, _ in found]), columns[best] if gain else None

    def enter(self, column: _Column) -> None:
        """Bring the column into the basis."""
        change = [_dot(row, column.entries) for row in self._inverse]
        leaves = [(level / step, at) for at, (level, step) in enumerate(zip(self._level, change, strict=True))
                  if step > _TINY]  # fmt: skip
        if not leaves:
            return
        times, out = min(leaves)
        pivot = self._inverse[out] = [each / change[out] for each in self._inverse[out]]
        for at, row in enumerate(self._inverse):
            if at != out and change[at]:
                self._inverse[at] = [a - change[at] * b for a, b in zip(row, pivot, strict=True)]
                self._level[at] = max(self._level[at] - change[at] * times, 0.0)
        self._level[out] = times
        self._basis[out] = column

    def whole(self) -> Iterator[tuple[int, Pattern]]:
        """The lengths that the relaxation cuts whole, without what would be too many pieces."""
        left = list(self._demand)
        for column, level in zip(self._basis, self._level, strict=True):
            for _ in range(int(level + _TINY) if column.kind is not None else 0):
                taken = tuple(min(a, b) for a, b in zip(column.pattern, left, strict=True))
                if any(taken):
                    left = [a - b for a, b in zip(left, taken, strict=True)]
                    yield column.kind or 0, taken

    def _column(self, kind: int, pattern: Pattern) -> _Column:
        uses = [float(at == kind) for at in self._limited]
        return _Column(self._kinds[kind].cost, (*map(float, pattern), *uses), kind, pattern)

    def _proved(self, worth: Sequence[float], most: Sequence[float]) -> float:
        """What the pieces are worth at prices by which no unlimited length holds more than it costs, less
        what the limited ones hold beyond their cost.
        """
        free = [(kind.cost, held) for kind, held in zip(self._kinds, most, strict=True) if kind.limit is None]
        share = min((cost / held for cost, held in free if held > cost), default=1.0)
        total = share * _dot(worth, self._demand)
        return total - sum(
            (kind.limit or 0) * max(share * held - kind.cost, 0.0)
            for kind, held in zip(self._kinds, most, strict=True)
        )


def filled(
    worth: Sequence[float], sizes: Sequence[int], most: Sequence[int], room: int
) -> tuple[float, Pattern]:
    """The way to fill a length whose pieces are worth most, and what no way exceeds."""
    order = sorted((at for at, each in enumerate(worth) if each > 0), key=lambda at: -worth[at] / sizes[at])
    best, chosen = 0.0, [0] * len(sizes)
    taken = [0] * len(sizes)
    steps = 0

    def fill(place: int, left: int, value: float) -> None:
        nonlocal best, chosen, steps
        if value > best:
            best, chosen = value, taken.copy()
        if place == len(order):
            return
        at = order[place]
        if value + left * worth[at] / sizes[at] <= best * (1 + _TINY):
            return
        steps += 1
        for count in range(min(most[at], left // sizes[at]), -1, -1):
            if steps > _STEPS:
                return
            taken[at] = count
            fill(place + 1, left - count * sizes[at], value + count * worth[at])
        taken[at] = 0

    fill(0, room, 0.0)
    stopped = steps > _STEPS
    ceiling = room * worth[order[0]] / sizes[order[0]] if order else 0.0
    return (ceiling if stopped else best * (1 + _TINY)), tuple(chosen)


def _dot(one: Sequence[float], other: Sequence[float]) -> float:
    return sum(a * b for a, b in zip(one, other, strict=True))
