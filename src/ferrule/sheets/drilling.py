"""The drilling sheet: every fixing hole at true size, over as many sheets as it takes.

First a small view with the list of the holes, then the tiles (`drilling_tiles`), row by row from above.
"""

import math
from collections.abc import Iterator, Sequence

from ferrule.answering import Answer
from ferrule.checks.fastening import Fastening, of_device, of_plate, word
from ferrule.design import Design
from ferrule.fact import Missing, Unknown
from ferrule.layout import fixing as layout
from ferrule.layout.fixing import Point as Hole
from ferrule.layout.wall import Hung, Rectangle, WallFace
from ferrule.sheets.drilling_tiles import CONTROL_MM, Pattern, tile_items, tiles_of, view_items
from ferrule.sheets.frame import Frame
from ferrule.sheets.leaf import UPRIGHT, Leaf, listing_mm, noted, room, scenes
from ferrule.sheets.scene import Scene
from ferrule.sheets.texts import say


def drilling(result: Answer) -> tuple[Scene, ...]:
    """For each device that hangs, and each plate: a small view, then its tiles at true size."""
    frame = room(result, UPRIGHT)
    leaves = [leaf for found in _patterns(result.design) for leaf in _leaves(frame, *found)]
    return scenes(result, say("drilling.title"), UPRIGHT, leaves)


def _leaves(frame: Frame, pattern: Pattern, notes: tuple[str, ...]) -> Iterator[Leaf]:
    place = say("drilling.place", name=pattern.name, wall=pattern.face.wall.id)
    tiles = tiles_of(pattern.holes, frame.area.grown(-1.0)) if pattern.holes else []
    listed = tuple(_listed(pattern.holes))
    area = frame.area.grown(-4.0)
    below = area._replace(top_mm=area.bottom_mm - min(listing_mm(len(listed)), area.height_mm / 3))
    written, rest = noted(below, listed)
    view = view_items(area._replace(bottom_mm=below.top_mm), pattern, tiles)
    described = say("drilling.overview", name=pattern.name, count=len(pattern.holes), tiles=len(tiles))
    yield Leaf(place, (*view, *written), (*notes, *rest), described)
    for tile in tiles:
        described = say("drilling.tile", name=pattern.name, row=tile.row, column=tile.column)
        yield Leaf(place, tuple(tile_items(frame, pattern, tile, tiles)), (), described)


# What is drilled


def _patterns(design: Design) -> Iterator[tuple[Pattern, tuple[str, ...]]]:
    for face in design.house.walls.values():
        for hung in face.hung:
            if hung.body.mount != "floor":
                yield from _of(design, face, hung)


def _of(design: Design, face: WallFace, hung: Hung) -> Iterator[tuple[Pattern, tuple[str, ...]]]:
    backing = design.house.devices[hung.id].fixing.backing
    try:
        held = of_device(design, hung.id)
    except Missing as missing:
        held, asks = None, missing.asks
    else:
        asks = ()
    try:
        holes, outline = layout.holes(hung), hung.rectangle
    except Missing as missing:
        holes, outline, asks = (), Rectangle(0.0, 0.0, 0.0, 0.0), (*asks, *missing.asks)
    yield _pattern(hung.id, face, outline, _cleared(hung), holes, held, asks)
    if backing is not None:
        name = say("drilling.plate", device=hung.id)
        try:
            yield _pattern(
                name, face, layout.plate(backing), None, layout.screws(backing), of_plate(design, hung.id), ()
            )
        except Missing as missing:
            yield _pattern(name, face, Rectangle(0.0, 0.0, 0.0, 0.0), None, (), None, missing.asks)


def _cleared(hung: Hung) -> Rectangle | None:
    """What a device keeps free around it on its wall, as far as its maker says so."""
    clear = hung.body.clear
    try:
        own = hung.rectangle
    except Missing:
        return None
    above, below, side = (
        fact if isinstance(fact, float) else 0.0 for fact in (clear.above_mm, clear.below_mm, clear.side_mm)
    )
    return Rectangle(own.left_mm - side, own.bottom_mm - below, own.right_mm + side, own.top_mm + above)


def _pattern(
    name: str,
    face: WallFace,
    outline: Rectangle,
    clear: Rectangle | None,
    holes: tuple[Hole, ...],
    held: Fastening | None,
    asks: Sequence[str],
) -> tuple[Pattern, tuple[str, ...]]:
    """The pattern, and what has to be known before it is drilled."""
    in_base = held.in_base if held else None
    hole_mm, depth_mm = (in_base.hole_mm, in_base.depth_mm) if in_base else (None, None)
    notes = (
        *_searched(face, holes), say("drilling.template"), *_drill(face, held),
        *(say("drilling.find_out", ask=ask) for ask in dict.fromkeys(asks)),
        say("drilling.print", control=f"{CONTROL_MM:.0f}"), say("drilling.join"), say("drilling.origin"),
    )  # fmt: skip
    return Pattern(name, face, outline, clear, holes, hole_mm, depth_mm), notes


def _searched(face: WallFace, holes: Sequence[Hole]) -> Iterator[str]:
    """The gate before the drill."""
    services = face.wall.services
    if isinstance(services, Unknown):
        yield say("drilling.not_searched")
    else:
        yield say("drilling.searched") if services == "clear" else say("drilling.marked")
    crossed = layout.crossed(face.wall, holes)
    if crossed:
        numbers = ", ".join(str(at) for at, hole in enumerate(holes, start=1) if hole in crossed)
        yield say("drilling.meets", holes=numbers)


def _drill(face: WallFace, held: Fastening | None) -> Iterator[str]:
    if held is None:
        return
    if held.in_base is None:
        yield say("drilling.find_out", ask=f"{held.sheet.id}: {word(held.base)}")
        return
    yield say(
        "drilling.drill", hole=f"{held.in_base.hole_mm:g}", depth=f"{held.in_base.depth_mm:g}",
        base=word(held.base), anchor=held.sheet.name,
    )  # fmt: skip
    lining_mm = face.wall.lining_depth_mm
    if lining_mm and held.plate is None:
        yield say("drilling.lining", lining=str(face.wall.lining), depth=f"{lining_mm:g}")


def _listed(holes: Sequence[Hole]) -> Iterator[str]:
    for at, hole in enumerate(holes, start=1):
        yield say("drilling.hole", number=at, x=f"{hole.x_mm:.0f}", y=f"{hole.y_mm:.0f}")
    for at in range(1, len(holes)):
        apart = math.dist(holes[at - 1], holes[at])
        yield say("drilling.apart", one=at, other=at + 1, mm=f"{apart:.1f}")
