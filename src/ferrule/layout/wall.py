"""What hangs where on a wall: rectangles in mm, as a person sees them who faces it."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Literal, NamedTuple

from ferrule.fact import Fact, Missing, Unknown, all_known, known
from ferrule.job.job import Job
from ferrule.job.places import Corner, Place, Siting, Spot, Wall
from ferrule.parts.body import Body

End = Literal["left", "right"]
Side = Literal[End, "above", "below"]
Joined = Corner | Literal["bare", "free"]

#: beyond this angle a wall that joins another bounds nothing before it
_STRAIGHT_DEG = 180.0


class Rectangle(NamedTuple):
    """A rectangle on a wall, from its left end and from the floor."""

    left_mm: float
    bottom_mm: float
    right_mm: float
    top_mm: float

    @property
    def width_mm(self) -> float:
        return self.right_mm - self.left_mm

    @property
    def height_mm(self) -> float:
        return self.top_mm - self.bottom_mm

    def overlaps(self, other: "Rectangle") -> bool:
        """Whether the two cover a common area; a common edge is none."""
        return _meet(self.left_mm, self.right_mm, other.left_mm, other.right_mm) and _meet(
            self.bottom_mm, self.top_mm, other.bottom_mm, other.top_mm
        )

    def overlap_mm(self, other: "Rectangle") -> float:
        """How far one of the two would have to move, straight across or up, to be clear of the other, in mm;
        0 where they do not overlap.
        """
        shared = (
            min(self.right_mm, other.right_mm) - max(self.left_mm, other.left_mm),
            min(self.top_mm, other.top_mm) - max(self.bottom_mm, other.bottom_mm),
        )
        if min(shared) <= 0:
            return 0.0
        return min(
            self.right_mm - other.left_mm,
            other.right_mm - self.left_mm,
            self.top_mm - other.bottom_mm,
            other.top_mm - self.bottom_mm,
        )

    def beyond_mm(self, other: "Rectangle") -> float:
        """How far it reaches beyond another rectangle where it does most, in mm; 0 where it lies on it."""
        return max(
            other.left_mm - self.left_mm,
            self.right_mm - other.right_mm,
            other.bottom_mm - self.bottom_mm,
            self.top_mm - other.top_mm,
            0.0,
        )

    def within(self, other: "Rectangle") -> bool:
        """Whether all of it lies on the other."""
        return (
            other.left_mm <= self.left_mm
            and self.right_mm <= other.right_mm
            and other.bottom_mm <= self.bottom_mm
            and self.top_mm <= other.top_mm
        )

    def gap_mm(self, other: "Rectangle", side: Side) -> float | None:
        """Free space on one side up to another rectangle, in mm; None where that is not opposite it."""
        if side in {"left", "right"}:
            if not _meet(self.bottom_mm, self.top_mm, other.bottom_mm, other.top_mm):
                return None
            gap_mm = self.left_mm - other.right_mm if side == "left" else other.left_mm - self.right_mm
        else:
            if not _meet(self.left_mm, self.right_mm, other.left_mm, other.right_mm):
                return None
            gap_mm = self.bottom_mm - other.top_mm if side == "below" else other.bottom_mm - self.top_mm
        return gap_mm if gap_mm >= 0 else None

    def distance_mm(self, other: "Rectangle") -> float:
        """Shortest distance between the two, in mm; 0 where they touch or overlap."""
        across_mm = max(other.left_mm - self.right_mm, self.left_mm - other.right_mm, 0.0)
        upwards_mm = max(other.bottom_mm - self.top_mm, self.bottom_mm - other.top_mm, 0.0)
        return float((across_mm**2 + upwards_mm**2) ** 0.5)


class Item(NamedTuple):
    """Something that takes up room on a wall."""

    name: str
    kind: Literal["device", "opening", "thing"]
    rectangle: Rectangle


class Hung(NamedTuple):
    """A device with its body, and where it hangs or stands."""

    id: str
    siting: Siting
    body: Body
    packs: int = 1

    @property
    def rectangle(self) -> Rectangle:
        """Its outline on the wall, packs side by side in one. Raises `Missing` where a size or position is
        not known.
        """
        body, at = self.body, self.siting
        all_known(at.left_mm, at.bottom_mm, body.width_mm, body.height_mm)
        if self.packs > 1 and at.pack_gap_mm is None:
            raise Missing("free space between the packs side by side")
        left_mm, bottom_mm = known(at.left_mm), known(at.bottom_mm)
        width_mm = self.packs * known(body.width_mm) + (self.packs - 1) * (at.pack_gap_mm or 0.0)
        return Rectangle(left_mm, bottom_mm, left_mm + width_mm, bottom_mm + known(body.height_mm))


class WallFace(NamedTuple):
    """A wall in its place, with the devices that hang on it or stand before it."""

    place: Place
    wall: Wall
    hung: tuple[Hung, ...]
    left_end: Fact[Joined]
    right_end: Fact[Joined]

    def end(self, end: End) -> Fact[Joined]:
        """What joins the wall at one end, whichever of the two walls says so."""
        return self.left_end if end == "left" else self.right_end

    def ends(self, end: End) -> bool:
        """Whether what joins the wall there ends the room before it: a corner does that indoors unless
        something else was said, and outdoors only where it was. Raises `Missing` for an angle not known.
        """
        joined = self.end(end)
        if isinstance(joined, Unknown):
            return self.place.use != "outdoors"
        if isinstance(joined, Corner):
            return known(joined.angle_deg) < _STRAIGHT_DEG
        return joined == "bare"

    def to_end_mm(self, own: Rectangle, end: End) -> float:
        """From a rectangle to where the wall ends; negative beyond it. Raises `Missing`."""
        return own.left_mm if end == "left" else self.outline.right_mm - own.right_mm

    @property
    def outline(self) -> Rectangle:
        """The wall itself. Raises `Missing` where its size is not known."""
        all_known(self.wall.width_mm, self.wall.height_mm)
        return Rectangle(0.0, 0.0, known(self.wall.width_mm), known(self.wall.height_mm))

    def items(self) -> tuple[Item, ...]:
        """Everything on the wall. Raises one `Missing` that names all that has to be measured."""
        all_known(self.wall.openings, self.wall.things)
        placed, asks = [], dict[str, None]()
        for each in self.hung:
            try:
                placed.append(Item(each.id, "device", each.rectangle))
            except Missing as missing:
                asks |= dict.fromkeys(f"{each.id}: {ask}" for ask in missing.asks)
        if asks:
            raise Missing(*asks)
        placed += [
            Item(f"the {opening.kind}", "opening", spot(opening)) for opening in known(self.wall.openings)
        ]
        placed += [Item(thing.name, "thing", spot(thing)) for thing in known(self.wall.things)]
        return tuple(placed)

    def free_mm(self, device: str, side: Side) -> tuple[float, str]:
        """Free space beside a device up to the nearest thing on its wall, and what that is.

        Openings leave the air free; beside what it overlaps nothing is free. The ground bounds it, indoors
        the ceiling, and a corner where the wall ends in one. Raises `Missing`.
        """
        items = self.items()
        own = next(each.rectangle for each in items if (each.kind, each.name) == ("device", device))
        others = [each for each in items if each.kind != "opening" and each.rectangle is not own]
        gaps = [
            (0.0 if own.overlaps(other.rectangle) else own.gap_mm(other.rectangle, side), other.name)
            for other in others
        ]
        return min([*((mm, name) for mm, name in gaps if mm is not None), *self._bounds(own, side)])

    def _bounds(self, own: Rectangle, side: Side) -> Iterator[tuple[float, str]]:
        """Where the wall itself ends on a side of a device."""
        yield float("inf"), "nothing"
        if side == "below":
            yield own.bottom_mm, "the floor"
        elif side == "above":
            if self.place.use != "outdoors":
                yield self.outline.top_mm - own.top_mm, "the ceiling"
        elif self.ends(side):
            yield self.to_end_mm(own, side), "the corner"


def spot(given: Spot) -> Rectangle:
    """A rectangle as the job writes it."""
    return Rectangle(
        given.left_mm, given.bottom_mm, given.left_mm + given.width_mm, given.bottom_mm + given.height_mm
    )


def wall_faces(job: Job) -> Mapping[str, WallFace]:
    """Every wall of the house with what hangs on it, by the wall's id."""
    bodies = {part.id: getattr(part, "body", None) for part in job.parts}
    sited = [(device, getattr(device, "at", None)) for device in job.devices]
    on: dict[str, list[Hung]] = {}
    for device, at in sited:
        if isinstance(at, Siting):
            body = bodies.get(device.part) or Body()
            on.setdefault(at.wall, []).append(Hung(device.id, at, body, getattr(device, "packs", 1)))
    return {
        wall.id: WallFace(
            place,
            wall,
            tuple(on.get(wall.id, ())),
            _joined(place, wall, "left"),
            _joined(place, wall, "right"),
        )
        for place in job.places
        for wall in place.walls
    }


def _joined(place: Place, wall: Wall, end: End) -> Fact[Joined]:
    """What joins an end of a wall: a corner may be told at either of its two walls."""
    own: Fact[Joined] = getattr(wall, f"{end}_end")
    if not isinstance(own, Unknown):
        return own
    for other in place.walls:
        said = other.right_end if end == "left" else other.left_end
        if isinstance(said, Corner) and said.wall == wall.id:
            return said.model_copy(update={"wall": other.id})
    return own


def collisions(items: Iterable[Item]) -> Iterator[tuple[Item, Item]]:
    """Every two that take up the same room, one of them a device."""
    placed = list(items)
    for at, one in enumerate(placed):
        for other in placed[at + 1 :]:
            if "device" in {one.kind, other.kind} and one.rectangle.overlaps(other.rectangle):
                yield one, other


def _meet(low: float, high: float, other_low: float, other_high: float) -> bool:
    return low < other_high and other_low < high
