"""A pack as files: the paper, its lists, its drawings."""

from collections.abc import Callable, Iterator

from ferrule.sheets.csvfile import csv_bytes
from ferrule.sheets.dxf import dxf
from ferrule.sheets.pack import Pack
from ferrule.sheets.svg import svg
from ferrule.sheets.typeset import pdf
from ferrule.sheets.xlsx import workbook


def files(made: Pack, tell: Callable[[str], None] = lambda _what: None) -> Iterator[tuple[str, bytes]]:
    """Name and content of each file; `tell` hears what is being made."""
    tell("setting the pages")
    yield "pack.pdf", pdf(made.paper)
    yield "four-sheets.pdf", pdf(made.pocket)
    tell("writing the lists")
    yield "lists.xlsx", workbook(made.tables, paper=made.paper.size, mark=made.paper.band)
    for table in made.tables:
        yield f"{table.id}.csv", csv_bytes(table)
    for drawing in made.drawings:
        tell(f"drawing {drawing.id}")
        yield f"{drawing.id}.svg", svg(drawing.scene).encode()
        yield f"{drawing.id}.dxf", dxf(drawing.scene)
