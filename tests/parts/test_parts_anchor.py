"""The datasheet of an anchor: one style, each base once, and noughts refused, each told where it stands."""

import pytest

from ferrule.document import Unreadable
from ferrule.document.reader import parse
from ferrule.parts.anchor import Anchor
from ferrule.parts.library import PartFile

SHEET = """ferrule: 1
part:
  id: a
  kind: anchor
  name: A
  source: invented
  family: metal
  holds_by: expansion
  diameter: 8 mm
  clamps: 30 mm
  bases:
    - base: concrete
      characteristic: {tension: 9 kN, shear: 11.9 kN}
      partial_factor: 1.5
      hole: 8 mm
      depth: 60 mm
    - base: solid-brick
      characteristic: {tension: 1.2 kN, shear: 2 kN}
      hole: 8 mm
      depth: 60 mm
"""


def read(text: str) -> Anchor:
    part = parse(text, PartFile).value.part
    assert isinstance(part, Anchor)
    return part


def test_a_sheet_in_one_style_reads() -> None:
    anchor = read(SHEET)
    brick = anchor.in_base("solid-brick")
    assert brick is not None
    assert (brick.styles, brick.held.tension_n) == (["characteristic"], 1200)
    assert anchor.in_base("timber") is None
    assert anchor.interaction == "sum"


@pytest.mark.parametrize(
    ("old", "new", "line", "found", "allowed"),
    [
        (
            "      partial_factor: 1.5\n",
            "      partial_factor: 1.5\n      edge: 50 mm\n      edge_least: 70 mm\n",
            16,
            "70 mm",
            "not above that for what it holds, which is 50 mm",
        ),
        (
            "characteristic: {tension: 1.2",
            "permissible: {tension: 1.2",
            18,
            "permissible",
            "'characteristic' alone, the style of concrete",
        ),
        (
            "      characteristic: {tension: 9 kN, shear: 11.9 kN}\n",
            "      characteristic: {tension: 9 kN, shear: 11.9 kN}\n"
            "      design: {tension: 6 kN, shear: 7.9 kN}\n",
            14,
            "design",
            "'characteristic' alone, the style of concrete",
        ),
        (
            "hole: 8 mm\n      depth: 60 mm\n    - ",
            "hole: 7 mm\n      depth: 60 mm\n    - ",
            15,
            "7 mm",
            "not below its diameter",
        ),
        (
            "      partial_factor: 1.5\n",
            "      partial_factor: 1.5\n      torque: 0 N·m\n",
            15,
            "0 N·m",
            "not below 0.1",
        ),
        (
            "depth: 60 mm\n    - ",
            "depth: 60 mm\n      thickness_least: 59 mm\n    - ",
            17,
            "59 mm",
            "not below the depth of the hole, which is 60 mm",
        ),
        (
            "holds_by: expansion\n  diameter: 8 mm",
            "holds_by: thread\n  diameter: 7 mm",
            15,
            "8 mm",
            "not above its",
        ),
        (
            "  bases:\n",
            "  curing: [{from: 5 °C, time: 6 h}, {from: 30 °C, time: 1 h}]\n  sets_upto: 29 °C\n  bases:\n",
            12,
            "29 °C",
            "which is from 30 °C on",
        ),
        ("base: solid-brick", "base: concrete", 17, "concrete", "each base once"),
        ("tension: 9 kN", "tension: 0 kN", 13, "0 kN", "not below 1"),
        ("partial_factor: 1.5", "partial_factor: 0.8", 14, "0.8", "not below 1"),
        ("depth: 60 mm\n    - ", "depth: -60 mm\n    - ", 16, "-60 mm", "not below 1"),
        (
            "      characteristic: {tension: 1.2 kN, shear: 2 kN}\n",
            "",
            17,
            "nothing",
            "one of characteristic, design, permissible, mean_failure",
        ),
    ],
    ids=[
        "upside down",
        "two bases",
        "one base",
        "screw",
        "torque",
        "through",
        "thread",
        "hot",
        "base twice",
        "nought",
        "factor",
        "negative",
        "no style",
    ],
)
def test_what_no_sheet_can_mean_is_refused_where_it_stands(
    old: str, new: str, line: int, found: str, allowed: str
) -> None:
    assert old in SHEET
    with pytest.raises(Unreadable) as refused:
        parse(SHEET.replace(old, new), PartFile)
    (problem,) = refused.value.problems
    assert problem.line == line
    assert found in problem.found
    assert allowed in problem.allowed
