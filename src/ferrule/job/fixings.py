"""Whether devices can be held as a job has it, so that nothing that is written there is passed over."""

from collections.abc import Iterator

from ferrule.document import Document, Path, Problem
from ferrule.fact import Fact, Open, Unknown
from ferrule.job.fixing import Backing
from ferrule.job.job import Job
from ferrule.job.places import Siting, Wall
from ferrule.job.walls import ON_WALL, outside

_FRAMED = frozenset({"timber-frame", "metal-frame"})


def problems(document: Document[Job], job: Job) -> Iterator[Problem]:
    """What holds a device that hangs holds none that stands, and the other way round."""
    walls = {wall.id: wall for place in job.places for wall in place.walls}
    for p, place in enumerate(job.places):
        for w, wall in enumerate(place.walls):
            yield from _studs(document, ("places", p, "walls", w, "studs", "first"), wall)
    bodies = {part.id: getattr(part, "body", None) for part in job.parts}
    for at, device in enumerate(job.devices):
        fixing, body = getattr(device, "fixing", None), bodies.get(device.part)
        if fixing is None:
            continue
        mount = body.mount if body else None
        here: Path = ("devices", at, "fixing")
        given = {"plinth": fixing.plinth_mm, "tied": fixing.tied or None}
        if mount == "floor":
            # A tie to the wall has an anchor too.
            anchor = None if isinstance(fixing.anchor, Open) or fixing.tied else fixing.anchor
            given = {"anchor": anchor, "backing": fixing.backing}
        for key, value in given.items() if mount in {"floor", "wall"} else ():
            if value is not None:
                does = "stands on the floor" if mount == "floor" else "hangs on a wall"
                yield document.problem((*here, key), f"{key} of a device that {does}", f"no {key}")
        ties = [] if isinstance(fixing.ties, Unknown) else fixing.ties
        if ties and not fixing.tied:
            yield document.problem(
                (*here, "ties"), "ties of a device that is not tied", "tied: yes, or no ties"
            )
        siting = getattr(device, "at", None)
        behind = walls.get(siting.wall) if isinstance(siting, Siting) else None
        if behind is None:
            continue
        for n, tie in enumerate(ties):
            yield from outside(document, (*here, "ties", n), tie.left_mm, tie.bottom_mm, behind, ON_WALL)
        if fixing.backing is not None and mount != "floor":
            yield from _plate(document, (*here, "backing"), fixing.backing, behind)


def _plate(document: Document[Job], path: Path, plate: Backing, wall: Wall) -> Iterator[Problem]:
    """A plate is screwed to studs, within its wall."""
    material = wall.material
    if not isinstance(material, Unknown) and material not in _FRAMED:
        yield document.problem(
            path, f"a plate on a wall of {material.replace('-', ' ')}",
            "a plate on the studs of a framed wall only; into this one anchors go",
        )  # fmt: skip
    across_mm, up_mm = _sum(plate.left_mm, plate.width_mm), _sum(plate.bottom_mm, plate.height_mm)
    yield from outside(document, path, across_mm, up_mm, wall, ON_WALL)


def _sum(one: Fact[float], other: Fact[float]) -> float | None:
    return None if isinstance(one, Unknown) or isinstance(other, Unknown) else one + other


def _studs(document: Document[Job], path: Path, wall: Wall) -> Iterator[Problem]:
    first_mm, width_mm = wall.studs.first_mm, wall.width_mm
    if not isinstance(first_mm, Unknown) and not isinstance(width_mm, Unknown) and first_mm > width_mm:
        yield document.problem(
            path, f"{first_mm:g} mm from the left end", f"not beyond the wall, which is {width_mm:g} mm wide"
        )
