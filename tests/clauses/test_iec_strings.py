"""Heat, current and size of strings by the international rulebook."""

import pytest

from ferrule import rules
from ferrule.clauses.iec60364.array_size import UsualRatio
from ferrule.clauses.iec60364.string_current import BrightestCloudEdge
from ferrule.clauses.iec60364.string_heat import RiseByMounting
from ferrule.constraint import Verdict
from ferrule.working import Trace

BOOK = rules.load("iec-2024")


@pytest.mark.parametrize(("mounting", "cell_c"), [("rack", 63), ("raised-roof", 66), ("close-roof", 80)])
def test_cells_at_30_degrees_of_air(mounting: str, cell_c: float) -> None:
    """The higher published rise of each mounting, 33, 36 and 50 K, on top of the air."""
    assert RiseByMounting().hottest_cell_c(Trace(BOOK), hottest_c=30.0, mounting=mounting) == cell_c


def test_the_highest_current_of_three_strings() -> None:
    assert BrightestCloudEdge().highest_a(Trace(BOOK), short_circuit_a=10.0, count=3) == 37.5


@pytest.mark.parametrize(
    ("array_w", "battery", "small", "large"),
    [
        (6290.0, False, Verdict.CAUTION, Verdict.PASS),
        (6300.0, False, Verdict.PASS, Verdict.PASS),
        (7200.0, False, Verdict.PASS, Verdict.PASS),
        (7210.0, False, Verdict.PASS, Verdict.CAUTION),
        (7210.0, True, Verdict.PASS, None),
    ],
)
def test_the_usual_size_of_an_array(
    array_w: float, battery: bool, small: Verdict, large: Verdict | None
) -> None:
    """1.05 to 1.20 times the inverter's power; a battery takes what is above."""
    found = UsualRatio().usual(BOOK, array_w=array_w, inverter_w=6000.0, battery=battery)
    verdicts = {constraint.name: constraint.verdict for constraint in found}
    assert verdicts["array_not_small"] is small
    assert verdicts.get("array_not_large") is large
