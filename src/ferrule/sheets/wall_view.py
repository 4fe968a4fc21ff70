"""The wall view: each wall with what hangs on it, stands at it and keeps clear, in small, with its measures.

Seen by a person who faces the wall; measured from its left end and up from the finished floor. Everything
on it has a number, which the list beside the block explains.
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple, TypeAlias

from ferrule.answering import Answer
from ferrule.clauses.procedures import covered
from ferrule.clauses.procedures.base import Uncovered
from ferrule.clauses.procedures.place import Gap
from ferrule.fact import Missing, Unknown
from ferrule.job.places import Corner
from ferrule.layout import fixing
from ferrule.layout.corner import standing
from ferrule.layout.measures import measures
from ferrule.layout.wall import End, Hung, Rectangle, WallFace, spot
from ferrule.sheets.frame import Frame
from ferrule.sheets.leaf import ACROSS, Leaf, room, scenes, spread
from ferrule.sheets.legible import free
from ferrule.sheets.scene import (
    FINE,
    HEAVY,
    MEDIUM,
    SMALL_MM,
    TEXT_MM,
    Box,
    Item,
    Layer,
    Line,
    Pen,
    Point,
    Polygon,
    Scene,
    Text,
    line,
)
from ferrule.sheets.scene import Rectangle as Outline
from ferrule.sheets.texts import say
from ferrule.sheets.words import shortened

_SCALES = (5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 150, 200, 500, 1000)
_LEFT_MM, _BELOW_MM, _ABOVE_MM = 32.0, 22.0, 7.0
"""Room for the measures on the left and below, and for what joins the ends above."""
_PITCH_MM, _HATCH_MM = 3.2, 3.0
_GAPS: tuple[Gap, ...] = ("above", "below", "side", "front")

Marks: TypeAlias = dict[float, list[str]]
"""What has an edge at a distance from the end of the wall, or from the floor."""


class Shown(NamedTuple):
    """One thing on the wall: its number, its name, where it is, and what the list says of it."""

    number: int
    name: str
    rectangle: Rectangle
    kind: str
    told: str


class View(NamedTuple):
    """Where the wall lies on the page, and at what scale."""

    left_mm: float
    floor_mm: float
    scale: float
    wall: Rectangle

    def box(self, each: Rectangle) -> Box | None:
        """A rectangle on the page, as far as it lies on the wall."""
        wall = self.wall
        left, right = max(each.left_mm, wall.left_mm), min(each.right_mm, wall.right_mm)
        bottom, top = max(each.bottom_mm, wall.bottom_mm), min(each.top_mm, wall.top_mm)
        if left >= right or bottom >= top:
            return None
        return Box(self.x(left), self.y(top), self.x(right), self.y(bottom))

    def x(self, mm: float) -> float:
        return self.left_mm + mm / self.scale

    def y(self, mm: float) -> float:
        return self.floor_mm - mm / self.scale


def wall_view(result: Answer) -> tuple[Scene, ...]:
    """One sheet for each wall on which a device hangs or before which one stands."""
    frame = room(result, ACROSS)
    leaves = [_wall(result, frame, face) for face in result.design.house.walls.values() if face.hung]
    return scenes(result, say("wall_view.title"), ACROSS, leaves)


def _wall(result: Answer, frame: Frame, face: WallFace) -> Leaf:
    place = say("wall_view.place", wall=face.wall.id, place=face.place.id)
    shown, asks = _shown(result, face)
    described = say("wall_view.description", wall=face.wall.id, things=", ".join(each.name for each in shown))
    notes = (
        *_gates(face), *(each.told for each in shown), *_overlaps(face), *_round_the_corner(result, face),
        *(say("wall_view.find_out", ask=ask) for ask in asks),
    )  # fmt: skip
    try:
        view = _view(frame, face)
    except Missing as missing:
        wanted = (say("wall_view.find_out", ask=ask) for ask in missing.asks if ask not in asks)
        return Leaf(place, (), (*wanted, *notes), described)
    return Leaf(place, tuple(_items(result, frame, face, view, shown)), notes, described)


# What is on the wall


def _shown(result: Answer, face: WallFace) -> tuple[list[Shown], list[str]]:
    """Everything that has a place, devices first, and what has to be measured before the rest has one."""
    found: list[Shown] = []
    asks: list[str] = []

    def add(name: str, rectangle: Rectangle, kind: str, more: Sequence[str] = ()) -> None:
        number = len(found) + 1
        words = say(
            "wall_view.item", number=number, name=name,
            left=f"{rectangle.left_mm:.0f}", right=f"{rectangle.right_mm:.0f}",
            bottom=f"{rectangle.bottom_mm:.0f}", top=f"{rectangle.top_mm:.0f}",
        )  # fmt: skip
        found.append(Shown(number, name, rectangle, kind, "; ".join((words, *more))))

    for hung in face.hung:
        try:
            add(hung.id, hung.rectangle, "device", list(_of_device(result, hung)))
        except Missing as missing:
            asks += [f"{hung.id}: {ask}" for ask in missing.asks]
    if isinstance(face.wall.openings, Unknown):
        asks.append(face.wall.openings.ask)
    else:
        for opening in face.wall.openings:
            add(opening.kind, spot(opening), "opening")
    if isinstance(face.wall.things, Unknown):
        asks.append(face.wall.things.ask)
    else:
        for thing in face.wall.things:
            add(thing.name, spot(thing), "thing")
    for each in face.wall.keep_clear:
        add(say("wall_view.services"), spot(each), "services")
    return found, asks


def _of_device(result: Answer, hung: Hung) -> Iterator[str]:
    gaps = {gap: _gap_mm(result, hung, gap) for gap in _GAPS}
    if any(gaps.values()):
        told = ", ".join(f"{mm:.0f} {say(f'wall_side.{gap}')}" for gap, mm in gaps.items() if mm)
        yield say("wall_view.keeps_free", gaps=told)
    if (controls_mm := _controls_mm(hung)) is not None:
        yield say("wall_view.controls_at", mm=f"{controls_mm:.0f}")


def _controls_mm(hung: Hung) -> float | None:
    """Height of its display and switches above the floor."""
    return None if hung.body.controls_mm is None else hung.rectangle.bottom_mm + hung.body.controls_mm


def _gap_mm(result: Answer, hung: Hung, gap: Gap) -> float:
    """What its maker asks for, or what is usual where his manual names none; 0 where nobody knows."""
    fact = getattr(hung.body.clear, f"{gap}_mm")
    if isinstance(fact, Unknown) or (gap == "below" and hung.body.mount == "floor"):
        return 0.0
    if fact != "unstated":
        return float(fact)
    try:
        return covered(result.code.procedures.free_space).gap_mm(result.code.trace(), gap=gap)
    except Uncovered:
        return 0.0


def _gates(face: WallFace) -> Iterator[str]:
    yield say("wall_view.measured")
    services = face.wall.services
    if isinstance(services, Unknown):
        yield say("drilling.not_searched")
    else:
        yield say("drilling.searched") if services == "clear" else say("drilling.marked")
    if not isinstance(face.wall.material, Unknown):
        yield say("wall_view.material", material=face.wall.material.replace("-", " "))


def _overlaps(face: WallFace) -> Iterator[str]:
    for each in measures(face).get("overlaps", ()):
        yield say("wall_view.overlap", name=each["name"], other=each["with"], mm=f"{each['mm']:.0f}")


def _round_the_corner(result: Answer, face: WallFace) -> Iterator[str]:
    """What stands at the walls that join this one."""
    try:
        around = standing(result.design.house.walls, face)
    except Missing:
        return
    if names := [each.box.name for each in around if not each.asks]:
        yield say("wall_view.corner", names=", ".join(names))


# What is drawn


def _view(frame: Frame, face: WallFace) -> View:
    """The wall as large as a usual scale allows. Raises `Missing` where its size is not known."""
    wall, area = face.outline, frame.area.grown(-3.0)
    wide_mm = area.width_mm - _LEFT_MM - 4.0
    high_mm = area.height_mm - _BELOW_MM - _ABOVE_MM
    scale = next(
        each for each in _SCALES if wall.width_mm <= each * wide_mm and wall.height_mm <= each * high_mm
    )
    left = area.left_mm + _LEFT_MM + (wide_mm - wall.width_mm / scale) / 2
    return View(left, area.bottom_mm - _BELOW_MM, scale, wall)


def _items(
    result: Answer, frame: Frame, face: WallFace, view: View, shown: Sequence[Shown]
) -> Iterator[Item]:
    drawn: list[Item] = list(_strokes(result, face, view, shown))
    for each in shown:
        if (box := view.box(each.rectangle)) and (name := _named(each, box, drawn)):
            drawn.append(name)
    texts = [item for item in drawn if isinstance(item, Text)]
    for each in shown:
        if each.kind == "services" and (box := view.box(each.rectangle)):
            drawn += [stroke for stroke in _hatched(box) if all(free(text.box, (stroke,)) for text in texts)]
    yield from drawn
    yield from _across(frame, view, shown)
    yield from _up(frame, face, view, shown)
    yield from _ends(frame, face, view)


def _strokes(result: Answer, face: WallFace, view: View, shown: Sequence[Shown]) -> Iterator[Item]:
    pens: dict[str, tuple[Pen, Layer]] = {
        "device": (HEAVY, "device"), "opening": (MEDIUM, "building"), "thing": (FINE, "building"),
        "services": (FINE.dash(), "building"),
    }  # fmt: skip
    whole = view.box(view.wall)
    assert whole is not None
    yield Outline(whole, MEDIUM, "building")
    yield line((whole.left_mm - 4, whole.bottom_mm), (whole.right_mm + 4, whole.bottom_mm), layer="building")
    for each in shown:
        if box := view.box(each.rectangle):
            yield Outline(box, *pens[each.kind])
            if each.kind == "opening" and min(box.width_mm, box.height_mm) > 3.0:
                yield Outline(box.grown(-0.8), FINE, "building")
    for hung in face.hung:
        yield from _around(result, hung, view)
    yield from _studs(face, view, whole)


def _around(result: Answer, hung: Hung, view: View) -> Iterator[Item]:
    """The room a device wants, the plate behind it, and a mark at the height of its controls."""
    try:
        own = hung.rectangle
    except Missing:
        return
    side, above, below = (_gap_mm(result, hung, gap) for gap in ("side", "above", "below"))
    wanted = Rectangle(own.left_mm - side, own.bottom_mm - below, own.right_mm + side, own.top_mm + above)
    if wanted != own and (box := view.box(wanted)):
        yield Outline(box, FINE.dash(), "device")
    backing = result.design.house.devices[hung.id].fixing.backing
    if backing is not None:
        try:
            plate = view.box(fixing.plate(backing))
        except Missing:
            plate = None
        if plate:
            yield Outline(plate, FINE, "device")
    controls_mm = _controls_mm(hung)
    if controls_mm is not None and view.box(own._replace(bottom_mm=controls_mm, top_mm=controls_mm + 1)):
        x, y = view.x(max(own.left_mm, 0.0)), view.y(controls_mm)
        yield Polygon((Point(x, y), Point(x - 1.6, y - 0.8), Point(x - 1.6, y + 0.8)), "device")


def _studs(face: WallFace, view: View, whole: Box) -> Iterator[Line]:
    """Where the studs of a framed wall are, along its upper edge."""
    first, step = face.wall.studs.first_mm, face.wall.studs.spacing_mm
    if isinstance(first, Unknown) or isinstance(step, Unknown):
        return
    at = first
    while at <= view.wall.right_mm:
        yield line((view.x(at), whole.top_mm), (view.x(at), whole.top_mm + 1.5), pen=FINE, layer="building")
        at += step


def _named(each: Shown, box: Box, drawn: Sequence[Item]) -> Text | None:
    """Number and name in the first place that is free: whole, else shortened, else the number alone."""
    bold = each.kind == "device"
    name = f"{each.number} {each.name}"
    short = shortened(name, SMALL_MM, max(box.width_mm, box.height_mm) - 2.0, bold=bold)
    for words, height_mm in (
        (name, TEXT_MM),
        (name, SMALL_MM),
        (short, SMALL_MM),
        (str(each.number), SMALL_MM),
    ):
        for turned in (False, True):
            found = _placed(words, height_mm, box, drawn, turned=turned, bold=bold)
            if (found and len(words) > 2) or words == str(each.number):
                return found
    return None


def _placed(
    words: str, height_mm: float, box: Box, drawn: Sequence[Item], *, turned: bool, bold: bool
) -> Text | None:
    """In the middle of a box, else higher, lower or aside."""
    middle = box.middle
    for down in (0.0, -0.25, 0.25, -0.4, 0.4):
        for aside in (0.0, -0.3, 0.3):
            at = Point(middle.x_mm + aside * box.width_mm, middle.y_mm + down * box.height_mm)
            text = Text(at, words, height_mm, "middle", "middle", upright=turned, bold=bold)
            if box.holds(text.box) and free(text.box, drawn):
                return text
    return None


def _hatched(box: Box) -> Iterator[Line]:
    """Strokes that rise to the right."""
    start = box.left_mm - box.height_mm
    at = start + _HATCH_MM
    while at < box.right_mm:
        low, high = max(at, box.left_mm), min(at + box.height_mm, box.right_mm)
        if low < high:
            yield line(
                (low, box.bottom_mm - (low - at)),
                (high, box.bottom_mm - (high - at)),
                pen=FINE,
                layer="building",
            )
        at += _HATCH_MM


# Measures


def _across(frame: Frame, view: View, shown: Sequence[Shown]) -> Iterator[Item]:
    """From the left end, under the floor: both edges of each device, and the wall's right end."""
    marks: Marks = {0.0: [], view.wall.right_mm: []}
    for each in shown:
        if each.kind == "device":
            for mm in (each.rectangle.left_mm, each.rectangle.right_mm):
                marks.setdefault(mm, []).append(each.name)
    ordered = sorted(mm for mm in marks if 0.0 <= mm <= view.wall.right_mm)
    area = frame.area.grown(-3.0)
    places = spread([view.x(mm) for mm in ordered], _PITCH_MM, view.left_mm - 2.0, area.right_mm - 2.0)
    for mm, x in zip(ordered, places, strict=True):
        if x > area.right_mm - 1.0:
            return
        floor, knee = view.floor_mm, view.floor_mm + 4.0
        yield line(
            (view.x(mm), floor),
            (view.x(mm), floor + 1.0),
            (x, knee),
            (x, knee + 0.8),
            pen=FINE,
            layer="dimension",
        )
        words = _measure(marks[mm], mm, _BELOW_MM - 6.5)
        yield Text(Point(x, knee + 1.3), words, SMALL_MM, "end", "middle", upright=True, layer="dimension")


def _up(frame: Frame, face: WallFace, view: View, shown: Sequence[Shown]) -> Iterator[Item]:
    """Above the finished floor, on the left: lower and upper edge of each device, and its controls."""
    marks: Marks = {0.0: [], view.wall.top_mm: []}
    for each in shown:
        if each.kind == "device":
            for mm in (each.rectangle.bottom_mm, each.rectangle.top_mm):
                marks.setdefault(mm, []).append(each.name)
    for hung in face.hung:
        if hung.id in {each.name for each in shown} and (height := _controls_mm(hung)) is not None:
            marks.setdefault(height, []).append(say("wall_view.controls", name=hung.id))
    ordered = sorted((mm for mm in marks if 0.0 <= mm <= view.wall.top_mm), reverse=True)
    area = frame.area.grown(-3.0)
    places = spread([view.y(mm) for mm in ordered], _PITCH_MM, area.top_mm + _ABOVE_MM, view.floor_mm + 1.0)
    for mm, y in zip(ordered, places, strict=True):
        if y < area.top_mm:
            continue
        left = view.left_mm
        yield line(
            (left, view.y(mm)),
            (left - 1.0, view.y(mm)),
            (left - 5.0, y),
            (left - 5.8, y),
            pen=FINE,
            layer="dimension",
        )
        words = _measure(marks[mm], mm, left - 6.5 - area.left_mm)
        yield Text(Point(left - 6.4, y), words, SMALL_MM, "end", "middle", layer="dimension")


def _measure(names: Sequence[str], mm: float, room_mm: float) -> str:
    """The names of what is there, as far as there is room for them; the figure always."""
    figure = f"{mm:.0f}"
    if not names:
        return figure
    return f"{shortened(', '.join(names), SMALL_MM, room_mm - 9.0)} {figure}"


def _ends(frame: Frame, face: WallFace, view: View) -> Iterator[Text]:
    """What joins the wall at each end, and the scale between them."""
    area = frame.area.grown(-3.0)
    y, third = area.top_mm + SMALL_MM + 0.3, area.width_mm / 3 - 3.0
    left, right = (shortened(_end(face, end), SMALL_MM, third) for end in ("left", "right"))
    yield Text(Point(area.left_mm, y), left, SMALL_MM)
    yield Text(Point(area.middle.x_mm, y), say("wall_view.scale", scale=view.scale), SMALL_MM, "middle")
    yield Text(Point(area.right_mm, y), right, SMALL_MM, "end")


def _end(face: WallFace, end: End) -> str:
    joined = face.end(end)
    side = say(f"wall_side.{end}")
    if isinstance(joined, Unknown):
        return say("wall_view.end_unknown", side=side)
    if isinstance(joined, Corner):
        angle = "?" if isinstance(joined.angle_deg, Unknown) else f"{joined.angle_deg:g}"
        return say("wall_view.end_corner", side=side, wall=joined.wall, angle=angle)
    return say("wall_view.end_bare", side=side) if joined == "bare" else say("wall_view.end_free", side=side)
