"""Cut lists against published problems of one-dimensional cutting whose optimum is known."""

from collections.abc import Iterator, Sequence

import pytest
from scipy.optimize import linprog

from ferrule.layout.cutting import Piece, Stock, cut

#: Chvátal, Linear Programming (1983), chapter 13: raws of 100 in; 453 are needed
CHVATAL = {45: 97, 36: 610, 31: 395, 14: 211}
#: Fourer, Gay, Kernighan, AMPL, second edition (2003), section 15.4: rolls of 110 in; 47 are needed
PAPER_MILL = {20: 48, 45: 35, 50: 24, 55: 10, 75: 8}
#: Wikipedia, "Cutting stock problem", read 2026-11-25: master rolls of 5600 mm; 73 are needed
MASTER_ROLLS = {
    1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20, 2000: 10, 2050: 12, 2100: 14,
    2140: 16, 2150: 18, 2200: 20,
}  # fmt: skip
#: Falkenauer, Journal of Heuristics 2 (1996), instances u120_00 and u120_19 of the OR-Library: bins of 150;
#: 48 and 49 are needed (for the second the library still names 50)
U120_00 = """
42 69 67 57 93 90 38 36 45 42 33 79 27 57 44 84 86 92 46 38 85 33 82 73 49 70 59 23 57 72
74 69 33 42 28 46 30 64 29 74 41 49 55 98 80 32 25 38 82 30 35 39 57 84 62 50 55 27 30 36
20 78 47 26 45 41 58 98 91 96 73 84 37 93 91 43 73 85 81 79 71 80 76 83 41 78 70 23 42 87
43 84 60 55 49 78 73 62 36 44 94 69 32 96 70 84 58 78 25 80 58 66 83 24 98 60 42 43 43 39
"""
U120_19 = """
49 95 38 62 63 97 42 62 100 43 44 77 97 94 68 23 50 36 89 58 97 27 64 65 54 58 24 35 33 63
32 50 58 90 44 50 48 21 72 75 21 74 28 95 77 69 96 24 57 85 72 96 50 83 65 62 99 93 23 77
94 31 50 33 79 73 23 55 44 78 84 66 31 59 97 95 22 76 90 66 29 100 90 92 50 49 47 43 37 40
60 52 54 99 34 46 88 97 85 39 32 51 95 54 99 86 48 90 28 25 86 39 74 26 38 60 41 67 80 33
"""


def ways(sizes: Sequence[int], room: int) -> Iterator[tuple[int, ...]]:
    """Every way to fill a length, by counting up."""
    if not sizes:
        yield ()
        return
    for count in range(room // sizes[0] + 1):
        for rest in ways(sizes[1:], room - count * sizes[0]):
            yield (count, *rest)


def relaxed(demand: dict[int, int], stock: Sequence[int]) -> float:
    """The least length by linear programming over every way written out."""
    columns = [(length, way) for length in stock for way in ways([*demand], length) if any(way)]
    found = linprog(
        [length for length, _ in columns],
        A_ub=[[-way[at] for _, way in columns] for at in range(len(demand))],
        b_ub=[-count for count in demand.values()],
    )
    return float(found.fun)


@pytest.mark.parametrize(
    ("demand", "room", "optimum", "bound"),
    [(CHVATAL, 100, 453, 452.25), (PAPER_MILL, 110, 47, 46.25), (MASTER_ROLLS, 5600, 73, 72.7)],
    ids=["Chvátal", "AMPL", "Wikipedia"],
)
def test_rolls_of_paper(demand: dict[int, int], room: int, optimum: int, bound: float) -> None:
    """The bound is what the books print for the relaxation, the article for the sheer length."""
    found = cut([Piece("p", size, count) for size, count in demand.items()], [Stock("roll", room)], kerf_mm=0)
    assert (len(found.cuts), found.proved) == (optimum, True)
    independent = relaxed(demand, [room]) / room
    assert independent >= bound - 0.005
    assert optimum - 1 < independent <= found.least_bought_mm / room <= optimum


@pytest.mark.parametrize(("sizes", "optimum"), [(U120_00, 48), (U120_19, 49)], ids=["u120_00", "u120_19"])
def test_bins_of_falkenauer(sizes: str, optimum: int) -> None:
    """The sum of the 120 sizes alone asks for no fewer bins, so the optimum needs no trust in any library."""
    lengths = [int(size) for size in sizes.split()]
    assert (len(lengths), -(-sum(lengths) // 150)) == (120, optimum)
    found = cut([Piece("p", length) for length in lengths], [Stock("bin", 150)], kerf_mm=0)
    assert (len(found.cuts), found.proved) == (optimum, True)


def test_sheets_of_three_lengths() -> None:
    """A steel mill's sheets of 100, 80 and 55 in for 150, 200 and 175 pieces of 45, 30 and 18 in
    (solver.com/cutting-stock, read 2026-11-25); the bound by linear programming over all ways written out.
    """
    demand = {45: 150, 30: 200, 18: 175}
    found = cut(
        [Piece("p", size, count) for size, count in demand.items()],
        [Stock(str(length), length) for length in (100, 80, 55)],
        kerf_mm=0,
    )
    assert found.proved
    assert relaxed(demand, [100, 80, 55]) <= found.bought_mm + 1e-6
    assert found.bought_mm - relaxed(demand, [100, 80, 55]) < 5
