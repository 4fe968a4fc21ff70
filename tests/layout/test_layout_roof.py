"""Rafters, hooks, rails and the count of parts."""

from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.layout.roof import hooks_mm, rafters_mm
from houses import answered

spacings = st.integers(300, 1_200).map(float)
overhangs = st.integers(100, 900).map(float)


def test_the_south_face_by_hand() -> None:
    """Two rows of six modules of 1134 × 1722 mm, 20 mm apart, from 1000 mm on; rails reach 30 mm further.

    6 × 1134 + 5 × 20 = 6904 mm; the rails run from 970 to 7934 mm. Rafters at 400, 1200, … 7600 mm.
    """
    (block,) = answered().design.laid("south")
    assert (block.outline.width_mm, block.outline.height_mm) == (6_904, 3_464)
    assert [rail.height_mm for rail in block.rails] == [1_050, 2_072, 2_792, 3_814]
    assert {(rail.left_mm, rail.right_mm) for rail in block.rails} == {(970, 7_934)}
    assert block.rails[0].hooks_mm == tuple(range(1_200, 7_601, 800))
    assert block.rails[0].overhang_mm == 334
    # four rails of 6964 mm are three pieces of 3300 mm each
    assert block.parts._asdict() == {
        "modules": 12, "hooks": 36, "screws": 72, "rails": 12, "splices": 8, "mid_clamps": 20,
        "end_clamps": 8,
    }  # fmt: skip


@pytest.mark.parametrize(
    ("rail", "pieces"), [("6964 mm", 1), ("6963 mm", 2), ("3482 mm", 2), ("3481 mm", 3), ("2321.34 mm", 3)]
)
def test_a_rail_that_just_fits_takes_no_piece_more(rail: str, pieces: int) -> None:
    """Rounded up, never down; but 6964 mm in two of 3482 mm are two, whatever binary fractions say."""
    (block,) = answered({"parts.example-hook-rail.rail": rail}).design.laid("south")
    assert block.parts.rails == 4 * pieces
    assert block.parts.splices == 4 * (pieces - 1)


def test_a_lying_module_has_its_long_side_along_the_eaves() -> None:
    edits = {"faces.south.blocks.S.orientation": "landscape", "faces.south.roof.width": "20 m"}
    (block,) = answered(edits).design.laid("south")
    assert (block.outline.width_mm, block.outline.height_mm) == (6 * 1_722 + 100, 2 * 1_134 + 20)


@given(st.integers(0, 900).map(float), spacings, st.integers(1_000, 20_000).map(float))
def test_rafters_are_those_that_one_meets_walking_along(first: float, spacing: float, width: float) -> None:
    walked, at = [], first
    while at <= width:
        walked.append(at)
        at += spacing
    assert rafters_mm(first, spacing, width) == pytest.approx(walked)


@given(spacings, st.integers(0, 2_000).map(float), st.integers(2_000, 9_000).map(float), overhangs)
def test_fewer_hooks_never_sit_closer_and_ends_are_held(
    spacing: float, left: float, right: float, overhang: float
) -> None:
    rafters = rafters_mm(100.0, spacing, 10_000.0)
    counts = []
    for every in (1, 2, 3, 4):
        hooks = hooks_mm(rafters, left, right, every, overhang)
        counts.append(len(hooks))
        assert all(left <= hook <= right and hook in rafters for hook in hooks)
        assert all(b - a <= every * spacing + 1e-6 for a, b in pairwise(hooks))
        under = [rafter for rafter in rafters if left <= rafter <= right]
        if under and under[0] - left <= overhang:
            assert hooks[0] - left <= overhang
        if under and right - under[-1] <= overhang:
            assert right - hooks[-1] <= overhang
    assert counts == sorted(counts, reverse=True)


@pytest.mark.parametrize("every", [1, 2, 3])
def test_no_choice_of_rafters_takes_fewer_hooks(every: int) -> None:
    """The second way: of all sets of rafters that keep span and ends, by trying every one, the smallest."""
    rafters, left, right, overhang = rafters_mm(300.0, 600.0, 6_000.0), 250.0, 5_800.0, 400.0
    under = [rafter for rafter in rafters if left <= rafter <= right]

    def holds(chosen: tuple[float, ...]) -> bool:
        return (
            chosen[0] - left <= overhang
            and right - chosen[-1] <= overhang
            and all(b - a <= every * 600 for a, b in pairwise(chosen))
        )

    fewest = next(n for n in range(1, len(under) + 1) if any(holds(each) for each in combinations(under, n)))
    assert len(hooks_mm(rafters, left, right, every, overhang)) == fewest
