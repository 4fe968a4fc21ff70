"""Pieces on the lengths one can buy, cables on drums and rails on bars: one-dimensional cutting stock.

Bought length comes first, then the number of lengths that are cut into. What is in the van already costs
nothing. The plan is searched. That it is best is proved by a bound that does not depend on the search
(`cutting_bound`), or by a search that tried everything; one that stops early claims no more than the bound.
"""

import math
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from itertools import islice
from operator import mul, sub
from typing import NamedTuple

from ferrule.layout.cutting_bound import Kind, Pattern, bound

#: The search stops after so many steps, about a second, with the best plan so far.
_STEPS = 200_000
#: About so many ways to fill one length are looked at; the rest of them is left out.
_WAYS = 400
#: Of more pieces only those are searched that the relaxation leaves over: the search goes one call deeper for
#: each length.
_MOST_PIECES = 400
_SAME = 1e-6  # two costs this close are one
_ROUNDING_MM = 1e-6  # what is left of a whole millimetre by binary arithmetic

#: a kind of length and what comes out of one
_Filled = tuple[int, Pattern]


class Piece(NamedTuple):
    """What is to be cut, so many times. The name is for messages and lists."""

    name: str
    length_mm: float
    times: int = 1


class Stock(NamedTuple):
    """A length to cut from. `limit` is how many there are, None any number; what is not `bought` is there."""

    name: str
    length_mm: float
    limit: int | None = None
    bought: bool = True


class Cut(NamedTuple):
    """One length and the names of the pieces that come out of it, in the order of cutting: longest first."""

    stock: str
    length_mm: float
    bought: bool
    pieces: tuple[str, ...]
    left_mm: float


class Plan(NamedTuple):
    """Every length that is cut into. No plan whatever buys less than `least_bought_mm`."""

    cuts: tuple[Cut, ...]
    bought_mm: float
    least_bought_mm: float

    @property
    def proved(self) -> bool:
        """Whether nothing shorter can be bought."""
        return self.bought_mm <= self.least_bought_mm


class Uncuttable(ValueError):
    """Pieces that no plan can serve; the message names the piece."""


def cut(pieces: Iterable[Piece], stock: Iterable[Stock], *, kerf_mm: float) -> Plan:
    """The plan that buys least, and of those the one that cuts into the fewest lengths, as far as the search
    gets; `Plan.proved` tells whether that is as little as can be bought.

    `kerf_mm` is what a cut itself takes away between two pieces. Lengths count in whole millimetres: pieces
    and kerf are rounded up, stock down. The same input gives the same plan. Raises `Uncuttable` where a piece
    is longer than every stock, and where there is not enough stock.
    """
    wanted, kinds = _named(pieces), _kinds(stock, kerf_mm)
    if not wanted:
        return Plan((), 0.0, 0.0)
    kerf = _up(kerf_mm)
    sizes = sorted({_up(piece.length_mm) + kerf for piece in wanted}, reverse=True)
    names = {size: [p.name for p in wanted if _up(p.length_mm) + kerf == size] for size in sizes}
    longest = max((kind.room for kind, _ in kinds), default=0)
    if sizes[0] > longest:
        raise Uncuttable(
            f"{names[sizes[0]][0]} of {_m(sizes[0] - kerf)} is longer than every length there is"
            + (f" (at most {_m(longest - kerf)})" if kinds else "")
        )
    search = _Search(sizes, [len(names[size]) for size in sizes], [kind for kind, _ in kinds])
    found = search.best()
    if found is None:
        raise Uncuttable(
            f"there is not enough to cut all pieces from, of which {names[sizes[0]][0]} of "
            f"{_m(sizes[0] - kerf)} is the longest: add lengths"
        )
    cuts = tuple(
        _cut_of(kinds[at][1], kinds[at][0].room - kerf, sizes, pattern, names)
        for at, pattern in sorted(found, key=lambda each: (each[0], [-count for count in each[1]]))
    )
    return Plan(cuts, float(sum(kinds[at][0].cost for at, _ in found)), float(search.least))


def _named(pieces: Iterable[Piece]) -> list[Piece]:
    """Each single piece. Raises `Uncuttable` for a length that is none."""
    single = []
    for piece in pieces:
        if not (math.isfinite(piece.length_mm) and piece.length_mm > 0) or piece.times < 0:
            raise Uncuttable(f"{piece.name}: {piece.times} pieces of {piece.length_mm} mm cannot be cut")
        single += [piece] * piece.times
    return single


def _kinds(stock: Iterable[Stock], kerf_mm: float) -> list[tuple[Kind, Stock]]:
    """What is there already before what is bought, and the longer before the shorter."""
    if not (math.isfinite(kerf_mm) and kerf_mm >= 0):
        raise Uncuttable(f"a cut of {kerf_mm} mm is none")
    found = []
    for each in sorted(stock, key=lambda one: (one.bought, -one.length_mm, one.name)):
        if not (math.isfinite(each.length_mm) and each.length_mm >= 0):
            raise Uncuttable(f"{each.name}: a length of {each.length_mm} mm cannot be cut from")
        if not each.bought and each.limit is None:
            raise Uncuttable(f"{each.name}: say how many of them are there already")
        length = _down(each.length_mm)
        if length > 0 and (each.limit is None or each.limit > 0):
            # A length takes one cut fewer than it has pieces, so it is as if it were one kerf longer.
            found.append((Kind(length + _up(kerf_mm), length * each.bought, each.limit), each))
    return found


def _cut_of(
    stock: Stock, length: int, sizes: Sequence[int], pattern: Pattern, names: dict[int, list[str]]
) -> Cut:
    taken = [names[size].pop(0) for size, count in zip(sizes, pattern, strict=True) for _ in range(count)]
    used = sum(map(mul, sizes, pattern))
    return Cut(stock.name, stock.length_mm, stock.bought, tuple(taken), float(max(length - used, 0)))


def _up(length_mm: float) -> int:
    return math.ceil(length_mm - _ROUNDING_MM)


def _down(length_mm: float) -> int:
    return math.floor(length_mm + _ROUNDING_MM)


def _m(length: int) -> str:
    return f"{length / 1000:g} m"


class _Search:
    """Depth first, always from the longest piece left, fullest lengths first; a branch that cannot beat the
    best plan so far is cut off.
    """

    def __init__(self, sizes: Sequence[int], demand: Sequence[int], kinds: Sequence[Kind]) -> None:
        self._sizes, self._demand, self._kinds = sizes, tuple(demand), kinds
        self._weight = sum(map(mul, sizes, demand))
        most = sum(demand)
        self._there = tuple(most if kind.limit is None else min(kind.limit, most) for kind in kinds)
        self._widest = max(kind.room for kind in kinds)
        self._thrift = min((kind.cost / kind.room for kind in kinds if kind.cost), default=0.0)
        self._best: list[_Filled] | None = None
        self._cost: tuple[float, float] = (math.inf, math.inf)
        self._fewest: dict[int, int] = {}
        self._totals: list[int] = []
        self._settled = False  # whether nothing can be better, in length or in number
        self._steps, self._left_out = 0, False
        self._seen: set[tuple[Pattern, Pattern]] = set()
        self._least = self._cost_at_least(self._weight, self._there)

    @property
    def least(self) -> float:
        """What no plan is cheaper than."""
        return self._lifted(self._least)

    def best(self) -> list[_Filled] | None:
        """The lengths cut into; None where no plan was found."""
        small = sum(self._demand) <= _MOST_PIECES
        if small:
            self._run([], _STEPS // 10)
        if self._cost[0] > self.least:
            relaxed = bound(self._sizes, self._demand, self._kinds, enough=self._below_best())
            self._least = max(self._least, relaxed.cost)
            # What the relaxation cuts in whole lengths is nearly always right: the rest is searched.
            self._run(relaxed.whole, _STEPS)
        if small and not self._settled:
            self._run([], _STEPS)
        return self._best

    def _run(self, begun: Sequence[_Filled], steps: int) -> None:
        left, there = self._demand, self._there
        for at, pattern in begun:
            left, there = tuple(map(sub, left, pattern)), _one_less(there, at)
        self._steps, self._left_out = steps, False
        self._seen.clear()
        self._go_on(left, there, list(begun), sum(self._kinds[at].cost for at, _ in begun))
        if not begun and self._steps >= 0 and not self._left_out:  # everything was tried
            self._least, self._settled = self._cost[0], True

    def _go_on(self, left: Pattern, there: Pattern, made: list[_Filled], cost: int) -> None:
        if not any(left):
            if (cost, len(made)) < self._cost:
                self._keep(made, cost)
            return
        # The first plan is always found to its end, unless it is hopeless.
        if (self._steps < 0 and (self._best or self._steps < -_STEPS)) or (left, there) in self._seen:
            return
        self._seen.add((left, there))
        weight = sum(map(mul, self._sizes, left))
        for at, pattern, used in self._ways(left, there):
            if self._settled:
                return
            fewer, dearer = _one_less(there, at), cost + self._kinds[at].cost
            if self._may_win(weight - used, fewer, dearer, len(made) + 1):
                made.append((at, pattern))
                self._go_on(tuple(map(sub, left, pattern)), fewer, made, dearer)
                made.pop()

    def _keep(self, made: Sequence[_Filled], cost: int) -> None:
        self._best, self._cost = list(made), (cost, len(made))
        self._fewest = self._fewest or _fewest(self._kinds, self._there, cost)
        self._totals = sorted(total for total in self._fewest if total <= cost)
        self._settled = cost <= self.least and len(made) <= self._fewest[cost] + self._free_needed(cost)

    def _free_needed(self, cost: int) -> int:
        """How many lengths that cost nothing must hold what the bought ones cannot."""
        left, count = self._weight - (cost / self._thrift if cost else 0), 0
        for kind, n in zip(self._kinds, self._there, strict=True):
            for _ in range(0 if kind.cost else n):
                if left > _SAME:
                    left, count = left - kind.room, count + 1
        return count

    def _may_win(self, weight: int, there: Pattern, cost: int, count: int) -> bool:
        """Whether what is left can still make a better plan, by weight alone."""
        least = self._lifted(cost + self._cost_at_least(weight, there))
        return (least, count - -weight // self._widest) < self._cost

    def _cost_at_least(self, weight: int, there: Pattern) -> float:
        free = sum(n * kind.room for n, kind in zip(there, self._kinds, strict=True) if not kind.cost)
        return max(weight - free, 0) * self._thrift

    def _ways(self, left: Pattern, there: Pattern) -> list[tuple[int, Pattern, int]]:
        """Ways to fill a length from the longest piece left on, with the room they use: out of what is there
        already first, then those that waste least.
        """
        found = []
        for at, (kind, n) in enumerate(zip(self._kinds, there, strict=True)):
            ways = list(islice(self._full(left, kind.room), _WAYS + 1)) if n else []
            self._left_out |= len(ways) > _WAYS
            found += [(at, *way) for way in ways]
        return sorted(
            found, key=lambda way: (self._kinds[way[0]].cost > 0, self._kinds[way[0]].room - way[2])
        )

    def _full(self, left: Pattern, room: int) -> Iterator[tuple[Pattern, int]]:
        """Ways to fill a length that leave no room for another piece."""
        sizes, last = self._sizes, len(left)
        first = next(at for at, n in enumerate(left) if n)
        taken = [0] * last

        def fill(at: int, space: int, spared: int) -> Iterator[tuple[Pattern, int]]:
            """`spared` is the shortest piece passed over so far."""
            self._steps -= 1
            if at == last:
                if space < spared:
                    yield tuple(taken), room - space
                return
            most = min(left[at], space // sizes[at])
            for count in range(most, int(at == first) - 1, -1):
                taken[at] = count
                yield from fill(at + 1, space - count * sizes[at], sizes[at] if count < left[at] else spared)
            taken[at] = 0

        return fill(first, room, room + 1) if sizes[first] <= room else iter(())

    def _lifted(self, cost: float) -> float:
        """The least total of whole bought lengths that is not below the cost, as far as a plan is known."""
        at = bisect_left(self._totals, cost - _SAME)
        return self._totals[at] if at < len(self._totals) else cost

    def _below_best(self) -> float:
        """A bound above this proves the best plan, for no total of whole lengths lies between."""
        return self._totals[-2] if len(self._totals) > 1 else math.inf


def _one_less(there: Pattern, at: int) -> Pattern:
    return (*there[:at], there[at] - 1, *there[at + 1 :])


def _fewest(kinds: Sequence[Kind], there: Sequence[int], upto: int) -> dict[int, int]:
    """What whole bought lengths can add up to, and how few of them do."""
    found = {0: 0}
    for kind, most in zip(kinds, there, strict=True):
        if kind.cost:
            for total, count in list(found.items()):
                for n in range(1, min(most, (upto - total) // kind.cost) + 1):
                    more = total + n * kind.cost
                    found[more] = min(found.get(more, count + n), count + n)
    return found
