"""The string plan numbers every module once, in an order in which each is beside the one before."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.job.roof import Block
from ferrule.sheets.scene import Scene, Text
from ferrule.sheets.string_plan import proposal, string_plan
from houses import REMOVED, answered

blocks = st.builds(
    lambda rows, columns: Block(id="B", rows=rows, columns=columns, orientation="portrait"),
    st.integers(1, 6),
    st.integers(1, 20),
)
counts = st.dictionaries(st.sampled_from("ABCDEFGH"), st.integers(1, 30), min_size=1)


def words(scenes: tuple[Scene, ...]) -> list[str]:
    return [item.shown for scene in scenes for item in scene.items if isinstance(item, Text)]


@given(st.lists(blocks, min_size=1, max_size=3), counts)
def test_every_module_belongs_to_one_string_and_every_string_has_its_modules(
    given_blocks: list[Block], wanted: dict[str, int]
) -> None:
    named = [block.model_copy(update={"id": f"B{at}"}) for at, block in enumerate(given_blocks)]
    found = proposal(named, wanted)
    room = sum(block.rows * block.columns for block in named)
    for block in named:
        cells = [cell for piece in found[block.id] for cell in piece.cells]
        assert len(cells) == len(set(cells))
        assert all(0 <= cell.column < block.columns and 0 <= cell.row < block.rows for cell in cells)
    given_out = {
        string: sum(len(p.cells) for pieces in found.values() for p in pieces if p.string == string)
        for string in wanted
    }
    assert sum(given_out.values()) == min(room, sum(wanted.values()))
    assert all(count <= wanted[string] for string, count in given_out.items())


@given(blocks, counts)
def test_each_module_lies_beside_the_one_before(block: Block, wanted: dict[str, int]) -> None:
    for piece in proposal([block], wanted)["B"]:
        for one, other in pairwise(piece.cells):
            assert abs(one.column - other.column) + abs(one.row - other.row) == 1


@given(st.integers(1, 3), st.integers(1, 12))
def test_a_string_of_whole_columns_in_two_rows_ends_over_its_beginning(half: int, columns: int) -> None:
    block = Block(id="B", rows=2 * half, columns=columns, orientation="portrait")
    (piece,) = proposal([block], {"S1": 2 * half * columns})["B"]
    assert piece.cells[0].column == piece.cells[-1].column == 0


@pytest.mark.parametrize(
    ("house", "strings"), [("meter-led", 2), ("controller-led", 5), ("changeover-led", 2)]
)
def test_every_module_of_the_demo_houses_is_numbered(house: str, strings: int) -> None:
    result = answered(house=house)
    shown = words(string_plan(result))
    design = result.design
    for string in design.house.job.strings:
        for number in range(1, design.modules(string.id) + 1):
            assert shown.count(f"{string.id}-{number}") == 1
        assert f"{string.id} to {string.input}" in shown
    assert shown.count("+") == shown.count("−") == strings
    assert sum("proposal" in each for each in shown) == len(string_plan(result))


def test_modules_that_do_not_match_the_strings_are_told() -> None:
    edits = {"faces.0.blocks.0.columns": 20}
    assert any(
        "belong to no string" in each for each in words(string_plan(answered(edits, "changeover-led")))
    )
    edits = {"faces.0.blocks.0.columns": 2}
    assert any(
        "more than the blocks" in each for each in words(string_plan(answered(edits, "changeover-led")))
    )


def test_what_is_not_known_of_a_roof_is_asked_for_on_its_sheet() -> None:
    scenes = string_plan(answered({"faces.0.blocks": REMOVED}, "changeover-led"))
    assert any(each.startswith("find out: how the modules lie") for each in words(scenes[:1]))
    rails = string_plan(answered({"faces.1.roof.spacing": REMOVED}, "changeover-led"))
    assert any(each.startswith("find out: spacing") for each in words(rails[1:]))
