"""A paper as PDF, built as PDF/A-3a (ISO 19005-3) and PDF/UA-1 (ISO 14289-1); same paper, same bytes."""

import json
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from ferrule.constraint import Verdict
from ferrule.sheets import font
from ferrule.sheets.harmless import harmless, spelled
from ferrule.sheets.paper import Block, Drawing, Paper
from ferrule.sheets.scene import Scene
from ferrule.sheets.svg import svg
from ferrule.sheets.table import Cell, Column, Table, number

_LOOK = Path(__file__).with_name("paper.typ")


def pdf(paper: Paper) -> bytes:
    """The finished file. Takes neither the clock, the network nor a font of the machine."""
    return compiled(sources(paper))


def sources(paper: Paper) -> Mapping[str, bytes]:
    """What the typesetter is given: the look, everything the paper says as data, and what is attached."""
    attached = {f"attachment-{at}": each.text.encode() for at, each in enumerate(paper.attachments)}
    said = json.dumps(_plain(paper), ensure_ascii=False).encode()
    return {"main": _LOOK.read_bytes(), "paper.json": said, **attached}


def compiled(given: Mapping[str, bytes]) -> bytes:
    """The sources set."""
    import typst

    fonts = typst.Fonts(include_system_fonts=False, font_paths=[str(font.folder())])
    # Files in memory, by name, are not in the types that the typesetter declares.
    files: Any = dict(given)
    return typst.compile(files, font_paths=fonts, format="pdf", pdf_standards=["a-3a", "ua-1"])


def _plain(paper: Paper) -> dict[str, Any]:
    """The paper as the look reads it. Names of files and the title of the metadata are not set, only kept."""
    return {
        "title": spelled(" ".join(paper.title.split())), "heading": harmless(paper.title),
        "subtitle": harmless(paper.subtitle),
        "author": spelled(paper.author), "day": paper.day, "language": paper.language, "size": paper.size,
        "band": harmless(paper.band), "foot": [harmless(each) for each in paper.foot],
        "cover": _blocks(paper.cover),
        "chapters": [
            {
                "id": each.id, "title": harmless(each.title), "foot": harmless(each.foot),
                "blocks": _blocks(each.blocks),
            }
            for each in paper.chapters
        ],
        "attachments": [
            {"name": each.name, "media_type": each.media_type, "description": each.description}
            for each in paper.attachments
        ],
    }  # fmt: skip


def _blocks(blocks: Iterable[Block]) -> list[dict[str, Any]]:
    return [{"block": type(each).__name__.lower(), **_block(each)} for each in blocks]


def _block(block: Block) -> dict[str, Any]:
    if isinstance(block, Table):
        return _table(block)
    if isinstance(block, Drawing):
        return _drawing(block.scene)
    said: dict[str, Any] = _said(block)
    return said


def _drawing(scene: Scene) -> dict[str, Any]:
    return {
        "svg": spelled(svg(scene)), "title": harmless(scene.title), "width_mm": scene.width_mm,
        "height_mm": scene.height_mm,
        "alt": spelled(scene.description or scene.title),
    }  # fmt: skip


def _said(value: Any) -> Any:
    """Every text in it harmless, every verdict its word."""
    if isinstance(value, str):
        return harmless(value)
    if isinstance(value, Verdict):
        return value.word
    if isinstance(value, tuple):
        named = getattr(value, "_fields", None)
        said = [_said(each) for each in value]
        return dict(zip(named, said, strict=True)) if named else said
    return value


def _table(table: Table) -> dict[str, Any]:
    return {
        "title": harmless(table.title),
        "columns": [
            {
                "heading": harmless(each.titled),
                "width": each.width,
                "numeric": each.kind != "text",
            }
            for each in table.columns
        ],
        "rows": [
            [harmless(_cell(*each)) for each in zip(table.columns, row, strict=True)] for row in table.rows
        ],
        "notes": [harmless(each) for each in table.notes],
    }


def _cell(column: Column, cell: Cell) -> str:
    if cell is None:
        return ""
    return cell if isinstance(cell, str) else number(column, cell).replace("-", "−")
