"""Whether the walls of a job can be as they are written, and whether every device has one to hang on."""

from collections.abc import Iterator

from ferrule.document import Document, Path, Problem
from ferrule.fact import Unknown
from ferrule.job.job import Job
from ferrule.job.places import Siting, Spot, Wall


def problems(document: Document[Job], job: Job) -> Iterator[Problem]:
    """Ids twice, walls that do not exist, and rectangles that lie beyond their wall."""
    yield from document.repeated((("places", at, "id"), place.id) for at, place in enumerate(job.places))
    walls = [
        (("places", p, "walls", w), wall)
        for p, place in enumerate(job.places)
        for w, wall in enumerate(place.walls)
    ]
    yield from document.repeated(((*path, "id"), wall.id) for path, wall in walls)
    known = [wall.id for _, wall in walls]
    for at, device in enumerate(job.devices):
        siting = getattr(device, "at", None)
        if isinstance(siting, Siting) and siting.wall not in known:
            yield document.mistyped(("devices", at, "at", "wall"), siting.wall, "a wall of a place", known)
    for path, wall in walls:
        yield from _beyond(document, path, wall)
        if wall.services == "clear" and wall.keep_clear:
            yield document.problem(
                (*path, "services"), "'clear' and something to keep clear", "marked, where services run"
            )


def _beyond(document: Document[Job], path: Path, wall: Wall) -> Iterator[Problem]:
    """An opening wider than its wall is a slip of the tape or of the pen."""
    for name in ("openings", "things", "keep_clear"):
        spots = getattr(wall, name)
        for at, spot in enumerate(() if isinstance(spots, Unknown) else spots):
            yield from _outside(document, (*path, name, at), spot, wall)


def _outside(document: Document[Job], path: Path, spot: Spot, wall: Wall) -> Iterator[Problem]:
    across_mm, up_mm = spot.left_mm + spot.width_mm, spot.bottom_mm + spot.height_mm
    if not isinstance(wall.width_mm, Unknown) and across_mm > wall.width_mm:
        yield document.problem(
            path, f"{across_mm:g} mm from the left end to its right edge",
            f"not beyond the wall, which is {wall.width_mm:g} mm wide",
        )  # fmt: skip
    if not isinstance(wall.height_mm, Unknown) and up_mm > wall.height_mm:
        yield document.problem(
            path, f"{up_mm:g} mm from the floor to its upper edge",
            f"not beyond the wall, which is {wall.height_mm:g} mm high",
        )  # fmt: skip
