"""Whether the blocks of modules on a face can be as they are written."""

from collections.abc import Iterator

from ferrule.document import Document, Problem
from ferrule.fact import Unknown
from ferrule.job.job import Job
from ferrule.job.roof import Roof


def problems(document: Document[Job], job: Job) -> Iterator[Problem]:
    """Services that are there and are not, blocks of one name, and rails that lie the wrong way round."""
    for f, face in enumerate(job.faces):
        if isinstance(face.roof, Roof) and face.roof.services == "clear" and face.roof.keep_clear:
            yield document.problem(
                ("faces", f, "roof", "services"), "'clear' and something to keep clear",
                "marked, where services run",
            )  # fmt: skip
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
