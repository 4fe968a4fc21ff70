"""Rectangles on walls against published layouts and rules."""

from typing import Any

import pytest

from ferrule.constraint import Verdict
from ferrule.layout.wall import Item, Rectangle, Side, WallFace, collisions, wall_faces
from houses import answered, constraint, finding, loaded

# A. J. W. Duijvestijn, Simple perfect squared square of lowest order, J. Combin. Theory B 25 (1978),
# 240-243: 21 squares, no two alike, that fill a square of side 112; each row of the code is laid at the
# highest, leftmost place that is still free.
SIDE = 112
CODE = (
    (50, 35, 27), (8, 19), (15, 17, 11), (6, 24), (29, 25, 9, 2), (7, 18), (16,), (42,), (4, 37), (33,),
)  # fmt: skip


def _squares() -> list[Rectangle]:
    filled, laid = [0] * SIDE, list[Rectangle]()
    for row in CODE:
        depth = min(filled)
        left = filled.index(depth)
        for side in row:
            laid.append(Rectangle(left, SIDE - depth - side, left + side, SIDE - depth))
            filled[left : left + side] = [depth + side] * side
            left += side
    return laid


def _items(squares: list[Rectangle]) -> list[Item]:
    return [Item(str(at), "device", square) for at, square in enumerate(squares)]


def test_the_squared_square_has_no_overlap_and_no_gap() -> None:
    squares, whole = _squares(), Rectangle(0, 0, SIDE, SIDE)
    assert len({square.width_mm for square in squares}) == 21
    assert sum(square.width_mm * square.height_mm for square in squares) == SIDE**2
    assert all(square.within(whole) for square in squares)
    assert list(collisions(_items(squares))) == []
    for square in squares:
        others = [other for other in squares if other is not square]
        edges: tuple[tuple[Side, bool], ...] = (
            ("left", square.left_mm == 0),
            ("below", square.bottom_mm == 0),
        )
        for side, at_edge in edges:
            gaps = [g for other in others if (g := square.gap_mm(other, side)) is not None]
            assert (min(gaps) == 0) if gaps else at_edge


@pytest.mark.parametrize("at", range(21))
def test_each_square_grown_by_one_meets_a_neighbour(at: int) -> None:
    squares = _squares()
    r = squares[at]
    squares[at] = Rectangle(r.left_mm - 1, r.bottom_mm - 1, r.right_mm + 1, r.top_mm + 1)
    met = list(collisions(_items(squares)))
    assert met
    assert {one.rectangle.overlap_mm(other.rectangle) for one, other in met} == {1}


WALL = "places.utility.walls.U-north"
US = {"rulebook": "us-2023", "devices.BAT.at.left": "3.4 m", f"{WALL}.openings": []}


def _between(left: int, right: int) -> dict[str, Any]:
    """Two cupboards that stand out further than the inverter, which hangs from 900 to 1360 mm."""
    deep = {"kind": "other", "bottom": "0 mm", "height": "2 m", "depth": "600 mm", "width": "100 mm"}
    things = [
        {**deep, "name": "left cupboard", "left": f"{left - 100} mm"},
        {**deep, "name": "right cupboard", "left": f"{right} mm"},
    ]
    return {**US, f"{WALL}.things": things}


@pytest.mark.parametrize(
    ("left", "right", "expected"),
    [
        (749, 1_511, Verdict.PASS),  # in the middle
        (900, 1_662, Verdict.PASS),  # flush with its left edge
        (598, 1_360, Verdict.PASS),  # flush with its right edge
        (900, 1_661, Verdict.FAIL),
        (599, 1_360, Verdict.FAIL),
    ],
)
def test_thirty_inches_need_not_be_centred(left: int, right: int, expected: Verdict) -> None:
    """Electrical Contractor, general installation requirements, part XIX, figures 1 and 3, on NFPA 70,
    110.26(A)(2): 30 in (762 mm) before equipment that is no wider, wherever it stands within them.
    """
    found = finding(answered(_between(left, right)), "device.working_space", "inverter/INV1")
    assert constraint(found, "width").verdict is expected


def test_two_panels_an_inch_apart_share_the_space() -> None:
    """The same article: two panelboards 17 in wide, 1 in apart, share one working space; here of 35 in."""
    panel = {"kind": "board", "name": "panel", "left": "1357.2 mm", "width": "17 in", "bottom": "1.2 m",
             "height": "600 mm", "depth": "10 mm"}  # fmt: skip
    edits = _between(900, 1_789)
    edits[f"{WALL}.things"].append(panel)
    edits["parts.example-hybrid-6k-single.body.width"] = "17 in"
    found = constraint(finding(answered(edits), "device.working_space", "inverter/INV1"), "width")
    assert found.verdict is Verdict.PASS
    assert found.value == pytest.approx(35 * 25.4)


def _mirrored(face: WallFace) -> list[Item]:
    width = face.outline.width_mm
    return [
        item._replace(
            rectangle=item.rectangle._replace(
                left_mm=width - item.rectangle.right_mm, right_mm=width - item.rectangle.left_mm
            )
        )
        for item in face.items()
    ]


@pytest.mark.parametrize(("left", "boiler"), [("900 mm", "1 m"), ("600 mm", "4 m"), ("4 m", "4.2 m")])
def test_a_house_and_its_mirror_answer_alike(left: str, boiler: str) -> None:
    """An invariant: what a mirror shows fits exactly where the house does, left and right exchanged."""
    thing = {"kind": "heater", "name": "boiler", "width": "500 mm", "bottom": "200 mm", "height": "900 mm",
             "depth": "300 mm", "left": boiler}  # fmt: skip
    edits: dict[str, Any] = {"devices.INV1.at.left": left, f"{WALL}.things": [thing], f"{WALL}.openings": []}
    face = wall_faces(loaded(edits).job)["U-north"]
    mirror = {item.name: item.rectangle for item in _mirrored(face)}
    turned = {
        **edits,
        f"{WALL}.things": [{**thing, "left": f"{mirror['boiler'].left_mm} mm"}],
        "devices.INV1.at.left": f"{mirror['INV1'].left_mm} mm",
        "devices.BAT.at.left": f"{mirror['BAT'].left_mm} mm",
    }
    swapped = {"air_left": "air_right", "air_right": "air_left"}
    for device in ("inverter/INV1", "battery/BAT"):
        one, other = (finding(answered(e), "device.room", device) for e in (edits, turned))
        verdicts = {swapped.get(c.name, c.name): (c.verdict, c.value) for c in one.constraints}
        assert verdicts == {c.name: (c.verdict, c.value) for c in other.constraints}
