"""Write the pictures of the README from the demo houses, as the typesetter sets them: `make docs`."""

from pathlib import Path
from typing import Any

from ferrule.answering import answer
from ferrule.job.load import load
from ferrule.sheets import font
from ferrule.sheets.pack import pack
from ferrule.sheets.paper import Paper
from ferrule.sheets.typeset import sources

ROOT = Path(__file__).parent.parent
FOLDER = ROOT / "docs" / "pictures"
_DOTS_PER_INCH = 72


def main() -> None:
    FOLDER.mkdir(exist_ok=True)
    made = pack(answer(load(ROOT / "examples" / "changeover-led" / "job.yaml")), (2026, 5, 31))
    drawings = {drawing.id: drawing for drawing in made.drawings}
    (FOLDER / "cover.png").write_bytes(_page(made.paper, 0))
    for name in ("single-line", "ports-INV1"):
        alone = made.paper._replace(cover=(drawings[name],), chapters=(), attachments=())
        (FOLDER / f"{name}.png").write_bytes(_page(alone, -1))


def _page(paper: Paper, at: int) -> bytes:
    """One page as a picture."""
    import typst

    fonts = typst.Fonts(include_system_fonts=False, font_paths=[str(font.folder())])
    files: Any = dict(sources(paper))
    pages: Any = typst.compile(files, font_paths=fonts, format="png", ppi=_DOTS_PER_INCH)
    page: bytes = pages[at] if isinstance(pages, list) else pages
    return page


if __name__ == "__main__":
    main()
