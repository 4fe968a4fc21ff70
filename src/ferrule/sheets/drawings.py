"""The drawings of a house by name. A new one is one line in `DRAWINGS`."""

from collections.abc import Callable, Iterator, Mapping
from typing import TypeAlias

from ferrule.answering import Answer
from ferrule.sheets.bus_diagram import bus_diagram
from ferrule.sheets.drilling import drilling
from ferrule.sheets.earthing_diagram import earthing_diagram
from ferrule.sheets.paper import Block, Drawing, Paragraph
from ferrule.sheets.scene import Scene
from ferrule.sheets.single_line import single_line
from ferrule.sheets.string_plan import string_plan
from ferrule.sheets.texts import say
from ferrule.sheets.wall_view import wall_view
from ferrule.sheets.wiring_diagram import wiring_diagram

Draw: TypeAlias = Callable[[Answer], tuple[Scene, ...]]

#: what a person asks for -> what draws it: its sheets in order, none where the house has nothing of it
DRAWINGS: Mapping[str, Draw] = {
    "single-line": single_line,
    "earthing": earthing_diagram,
    "bus": bus_diagram,
    "wiring": wiring_diagram,
    "strings": string_plan,
    "wall": wall_view,
    "drilling": drilling,
}


def sheet_names(drawing: str, count: int) -> list[str]:
    """What the sheets of a drawing are called as files: `bus`, `bus-2`, `bus-3`."""
    return [drawing if at == 0 else f"{drawing}-{at + 1}" for at in range(count)]


def drawings(result: Answer) -> Iterator[tuple[str, Block]]:
    """Every drawing, in their chapter of the pack."""
    yield "drawings", Paragraph(say("drawn.intro"))
    for name, draw in DRAWINGS.items():
        scenes = draw(result)
        for sheet, scene in zip(sheet_names(name, len(scenes)), scenes, strict=True):
            yield "drawings", Drawing(sheet, scene)
