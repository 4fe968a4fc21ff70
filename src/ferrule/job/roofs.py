"""Whether the blocks of modules on a face can be as they are written."""

from collections.abc import Iterator

from ferrule.document import Document, Path, Problem
from ferrule.fact import Unknown
from ferrule.job.job import Job
from ferrule.job.roof import Roof
from ferrule.job.walls import ON_ROOF, outside


def problems(document: Document[Job], job: Job) -> Iterator[Problem]:
    """Modules on a roof that is none, services that are there and are not or lie beyond the roof, blocks of
    one name, and rails that lie the wrong way round.
    """
    for f, face in enumerate(job.faces):
        if face.roof == "none" and face.mounting in {"close-roof", "raised-roof"}:
            yield document.problem(
                ("faces", f, "roof"), f"'none' and mounting {face.mounting}",
                "what the survey found of the roof, or mounting rack for a frame on the ground",
            )  # fmt: skip
        if isinstance(face.roof, Roof):
            yield from _services(document, ("faces", f, "roof"), face.roof)
        if isinstance(face.blocks, Unknown):
            continue
        blocks = list(enumerate(face.blocks))
        yield from document.repeated((("faces", f, "blocks", b, "id"), block.id) for b, block in blocks)
        for b, block in blocks:
            low_mm, high_mm = block.low_rail_mm, block.high_rail_mm
            if not isinstance(low_mm, Unknown) and not isinstance(high_mm, Unknown) and high_mm <= low_mm:
                yield document.problem(
                    ("faces", f, "blocks", b, "high_rail"), f"{high_mm:g} mm",
                    f"more than low_rail, which is {low_mm:g} mm",
                )  # fmt: skip


def _services(document: Document[Job], path: Path, roof: Roof) -> Iterator[Problem]:
    """A cable marked beyond the roof lies somewhere else under it, where nothing would keep a hook off it."""
    if roof.services == "clear" and roof.keep_clear:
        yield document.problem(
            (*path, "services"), "'clear' and something to keep clear", "marked, where services run"
        )
    for at, spot in enumerate(roof.keep_clear):
        across_mm, up_mm = spot.left_mm + spot.width_mm, spot.bottom_mm + spot.height_mm
        yield from outside(document, (*path, "keep_clear", at), across_mm, up_mm, roof, ON_ROOF)
