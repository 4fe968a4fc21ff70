"""Whether the walls of a job can be as they are written, and whether every device has one to hang on."""

from collections.abc import Iterator
from itertools import combinations
from typing import NamedTuple

from ferrule.document import Document, Path, Problem
from ferrule.fact import Unknown
from ferrule.job.job import Job
from ferrule.job.places import Corner, Place, Siting, Wall
from ferrule.job.roof import Roof


class Ends(NamedTuple):
    """What a plane is called, and where its measures begin."""

    plane: str
    left: str
    bottom: str


ON_WALL = Ends("wall", "left end", "floor")
ON_ROOF = Ends("roof", "left edge", "eaves")


def problems(document: Document[Job], job: Job) -> Iterator[Problem]:
    """Ids twice, walls that do not exist or cannot meet, and rectangles that lie beyond their wall."""
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
    for at, place in enumerate(job.places):
        yield from _corners(document, ("places", at), place)
        yield from _too_high(document, ("places", at), place)
    devices = {device.id for device in job.devices}
    for path, wall in walls:
        yield from _beyond(document, path, wall)
        yield from _boards(document, path, wall)
        yield from _named_like_a_device(document, path, wall, devices)
        if wall.services == "clear" and wall.keep_clear:
            yield document.problem(
                (*path, "services"), "'clear' and something to keep clear", "marked, where services run"
            )


def _corners(document: Document[Job], path: Path, place: Place) -> Iterator[Problem]:
    """A corner joins the ends of two walls of one place, and both say the same of it if both say anything."""
    walls = {wall.id: wall for wall in place.walls}
    for at, wall in enumerate(place.walls):
        for end, opposite in (("left_end", "right_end"), ("right_end", "left_end")):
            corner, there = getattr(wall, end), (*path, "walls", at, end)
            if not isinstance(corner, Corner):
                continue
            others = [other for other in walls if other != wall.id]
            if corner.wall not in others:
                yield document.mistyped((*there, "wall"), corner.wall, "another wall of this place", others)
                continue
            back = getattr(walls[corner.wall], opposite)
            if isinstance(back, Unknown):
                continue
            if not isinstance(back, Corner) or back.wall != wall.id:
                yield document.problem(
                    there, f"'{corner.wall}', whose {opposite} is not joined by '{wall.id}'",
                    "a corner of which both walls say the same",
                )  # fmt: skip
            elif back.angle_deg != corner.angle_deg and wall.id < corner.wall:
                yield document.problem(
                    there, "another angle than the other wall says", "one angle for one corner"
                )


def _too_high(document: Document[Job], path: Path, place: Place) -> Iterator[Problem]:
    if isinstance(place.headroom_mm, float) and place.use != "outdoors":
        for at, wall in enumerate(place.walls):
            if isinstance(wall.height_mm, float) and wall.height_mm > place.headroom_mm:
                yield document.problem(
                    (*path, "walls", at, "height"), f"{wall.height_mm:g} mm high",
                    f"not above the headroom of its place, which is {place.headroom_mm:g} mm",
                )  # fmt: skip


def _named_like_a_device(
    document: Document[Job], path: Path, wall: Wall, devices: set[str]
) -> Iterator[Problem]:
    """On paper the two could not be told apart."""
    for at, thing in enumerate(() if isinstance(wall.things, Unknown) else wall.things):
        if thing.name in devices:
            yield document.problem(
                (*path, "things", at, "name"), f"'{thing.name}', which is the id of a device", "another name"
            )


def _beyond(document: Document[Job], path: Path, wall: Wall) -> Iterator[Problem]:
    """An opening wider than its wall is a slip of the tape or of the pen."""
    for name in ("openings", "things", "keep_clear"):
        spots = getattr(wall, name)
        for at, spot in enumerate(() if isinstance(spots, Unknown) else spots):
            across_mm, up_mm = spot.left_mm + spot.width_mm, spot.bottom_mm + spot.height_mm
            yield from outside(document, (*path, name, at), across_mm, up_mm, wall, ON_WALL)


def _boards(document: Document[Job], path: Path, wall: Wall) -> Iterator[Problem]:
    """Two boards cannot hang at one spot: of one of them something was measured wrongly."""
    boards = [
        (at, each)
        for at, each in enumerate(() if isinstance(wall.things, Unknown) else wall.things)
        if each.kind == "board"
    ]
    for (_, one), (at, other) in combinations(boards, 2):
        across = one.left_mm < other.left_mm + other.width_mm and other.left_mm < one.left_mm + one.width_mm
        up = (
            one.bottom_mm < other.bottom_mm + other.height_mm
            and other.bottom_mm < one.bottom_mm + one.height_mm
        )
        if across and up:
            yield document.problem(
                (*path, "things", at),
                f"'{other.name}' where '{one.name}' hangs",
                "each board at a spot of its own",
            )


def outside(
    document: Document[Job],
    path: Path,
    across_mm: float | None,
    up_mm: float | None,
    plane: Wall | Roof,
    said: Ends,
) -> Iterator[Problem]:
    """A rectangle whose right or upper edge lies beyond its wall or roof, for all that is known."""
    if across_mm is not None and not isinstance(plane.width_mm, Unknown) and across_mm > plane.width_mm:
        yield document.problem(
            path, f"{across_mm:g} mm from the {said.left} to its right edge",
            f"not beyond the {said.plane}, which is {plane.width_mm:g} mm wide",
        )  # fmt: skip
    if up_mm is not None and not isinstance(plane.height_mm, Unknown) and up_mm > plane.height_mm:
        yield document.problem(
            path, f"{up_mm:g} mm from the {said.bottom} to its upper edge",
            f"not beyond the {said.plane}, which is {plane.height_mm:g} mm high",
        )  # fmt: skip
