"""A drawing in the frame of its sheet: what the frame says comes from the answered job."""

from collections.abc import Iterable

from ferrule.answering import Answer
from ferrule.sheets.frame import A4, Frame, Page, Sheet, frame
from ferrule.sheets.scene import Item, Scene

LANDSCAPE = A4.across()


def frame_of(
    result: Answer, drawing: str, page: Page = LANDSCAPE, *, place: str = "", number: int = 1, of: int = 1
) -> Frame:
    """The frame of a sheet, and the room that it leaves."""
    loaded = result.loaded
    return frame(
        page,
        Sheet(
            drawing, loaded.job.name, loaded.job.rulebook, loaded.revision[:12], result.cleared,
            place=place, number=number, of=of,
        ),
    )  # fmt: skip


def framed(
    made: Frame, items: Iterable[Item], title: str, page: Page = LANDSCAPE, *, description: str = ""
) -> Scene:
    """The whole sheet."""
    return Scene(*page, (*made.items, *items), title, description)
