"""What a drawing is before it is a file: a page in mm and the strokes, surfaces and words on it.

Origin at the top left, x to the right, y down, everything at the size it has on paper. Players turn a scene
into SVG (`svg`) or DXF (`dxf`); `legible` finds what a reader would stumble over.
"""

import math
from typing import Literal, NamedTuple, TypeAlias, get_args

from ferrule.sheets.words import plain, width_mm

Layer = Literal["frame", "building", "device", "conductor", "protective", "signal", "dimension", "text"]
LAYERS: tuple[Layer, ...] = get_args(Layer)
Anchor = Literal["start", "middle", "end"]
Level = Literal["baseline", "middle"]
Facing = Literal["up", "right", "down", "left"]
FACINGS: tuple[Facing, ...] = get_args(Facing)

GRID_MM = 2.5
"""Ports lie on multiples of it, so that conductors meet them."""
SMALL_MM, TEXT_MM, NAME_MM = 1.8, 2.5, 3.5
"""Heights of capitals after ISO 3098-1: the least, the usual, and that of names."""


class Pen(NamedTuple):
    """How a stroke looks. The accent only adds to what shape and words already say."""

    width_mm: float
    dashed: bool = False
    accent: bool = False

    def dash(self) -> "Pen":
        return self._replace(dashed=True)


HEAVY = Pen(0.5)
"""Conductors."""
MEDIUM = Pen(0.35)
"""Devices."""
FINE = Pen(0.18)
"""Dimensions, leaders, frames within a frame."""


class Point(NamedTuple):
    x_mm: float
    y_mm: float


class Box(NamedTuple):
    """An upright rectangle on the page."""

    left_mm: float
    top_mm: float
    right_mm: float
    bottom_mm: float

    @property
    def width_mm(self) -> float:
        return self.right_mm - self.left_mm

    @property
    def height_mm(self) -> float:
        return self.bottom_mm - self.top_mm

    @property
    def middle(self) -> Point:
        return Point((self.left_mm + self.right_mm) / 2, (self.top_mm + self.bottom_mm) / 2)

    def grown(self, by_mm: float) -> "Box":
        return Box(self.left_mm - by_mm, self.top_mm - by_mm, self.right_mm + by_mm, self.bottom_mm + by_mm)

    def holds(self, other: "Box", slack_mm: float = 1e-6) -> bool:
        return (
            self.left_mm <= other.left_mm + slack_mm
            and self.top_mm <= other.top_mm + slack_mm
            and self.right_mm >= other.right_mm - slack_mm
            and self.bottom_mm >= other.bottom_mm - slack_mm
        )

    def meets(self, other: "Box") -> bool:
        """They have more than an edge in common."""
        return (
            self.left_mm < other.right_mm
            and other.left_mm < self.right_mm
            and self.top_mm < other.bottom_mm
            and other.top_mm < self.bottom_mm
        )


class Placing(NamedTuple):
    """Where something drawn around (0, 0) comes to lie: turned clockwise by quarters, then moved."""

    x_mm: float
    y_mm: float
    quarters: int = 0

    def point(self, at: Point) -> Point:
        x, y = at
        match self.quarters % 4:
            case 1:
                x, y = -y, x
            case 2:
                x, y = -x, -y
            case 3:
                x, y = y, -x
        return Point(x + self.x_mm, y + self.y_mm)

    def facing(self, facing: Facing) -> Facing:
        return FACINGS[(FACINGS.index(facing) + self.quarters) % 4]


class Line(NamedTuple):
    """A stroke through two or more points."""

    points: tuple[Point, ...]
    pen: Pen = HEAVY
    layer: Layer = "conductor"

    def placed(self, placing: Placing) -> "Line":
        return self._replace(points=tuple(map(placing.point, self.points)))

    @property
    def box(self) -> Box:
        return _around(self.points)


class Rectangle(NamedTuple):
    box: Box
    pen: Pen = MEDIUM
    layer: Layer = "device"

    def placed(self, placing: Placing) -> "Rectangle":
        left, top, right, bottom = self.box
        return self._replace(
            box=_around((placing.point(Point(left, top)), placing.point(Point(right, bottom))))
        )


class Circle(NamedTuple):
    middle: Point
    radius_mm: float
    pen: Pen = MEDIUM
    layer: Layer = "device"
    filled: bool = False

    def placed(self, placing: Placing) -> "Circle":
        return self._replace(middle=placing.point(self.middle))

    @property
    def box(self) -> Box:
        return Box(*self.middle, *self.middle).grown(self.radius_mm)


class Arc(NamedTuple):
    """Part of a circle, clockwise as the page is read; 0° points right, 90° down."""

    middle: Point
    radius_mm: float
    start_deg: float
    end_deg: float
    pen: Pen = MEDIUM
    layer: Layer = "device"

    def placed(self, placing: Placing) -> "Arc":
        turned_deg = 90.0 * (placing.quarters % 4)
        return self._replace(
            middle=placing.point(self.middle),
            start_deg=self.start_deg + turned_deg,
            end_deg=self.end_deg + turned_deg,
        )

    @property
    def span_deg(self) -> float:
        """How far it goes round, above 0 and at most 360."""
        return (self.end_deg - self.start_deg) % 360 or 360.0

    def at(self, angle_deg: float) -> Point:
        angle = math.radians(angle_deg)
        return Point(
            self.middle.x_mm + self.radius_mm * math.cos(angle),
            self.middle.y_mm + self.radius_mm * math.sin(angle),
        )

    @property
    def chords(self) -> tuple[Point, ...]:
        """Points along it, no more than 15° apart."""
        steps = math.ceil(self.span_deg / 15)
        return tuple(self.at(self.start_deg + self.span_deg * step / steps) for step in range(steps + 1))

    @property
    def box(self) -> Box:
        return _around(self.chords)


class Polygon(NamedTuple):
    """A surface filled with ink, or with the accent."""

    points: tuple[Point, ...]
    layer: Layer = "device"
    accent: bool = False

    def placed(self, placing: Placing) -> "Polygon":
        return self._replace(points=tuple(map(placing.point, self.points)))

    @property
    def box(self) -> Box:
        return _around(self.points)


class Text(NamedTuple):
    """Words on one line. `height_mm` is that of a capital; upright ones are read from the bottom up. Turning
    a symbol moves its words but leaves them as they read.
    """

    at: Point
    words: str
    height_mm: float = TEXT_MM
    anchor: Anchor = "start"
    level: Level = "baseline"
    upright: bool = False
    bold: bool = False
    layer: Layer = "text"

    def placed(self, placing: Placing) -> "Text":
        return self._replace(at=placing.point(self.at))

    @property
    def shown(self) -> str:
        """The words as they are drawn."""
        return plain(self.words)

    @property
    def base(self) -> Point:
        """The anchor brought down to the baseline."""
        if self.level == "baseline":
            return self.at
        x, y = self.at
        half_mm = self.height_mm / 2
        return Point(x + half_mm, y) if self.upright else Point(x, y + half_mm)

    @property
    def box(self) -> Box:
        """From a little above the capitals to the ends of the descenders."""
        width = width_mm(self.shown, self.height_mm, bold=self.bold)
        before = {"start": 0.0, "middle": width / 2, "end": width}[self.anchor]
        above, below = 1.05 * self.height_mm, 0.3 * self.height_mm
        x, y = self.base
        if self.upright:
            return Box(x - above, y + before - width, x + below, y + before)
        return Box(x - before, y - above, x - before + width, y + below)


Item: TypeAlias = Line | Rectangle | Circle | Arc | Polygon | Text


class Scene(NamedTuple):
    """One page. Title and description are for those who cannot see it, and for whoever searches."""

    width_mm: float
    height_mm: float
    items: tuple[Item, ...]
    title: str
    description: str = ""
    language: str = "en"

    @property
    def page(self) -> Box:
        return Box(0.0, 0.0, self.width_mm, self.height_mm)


def line(*points: tuple[float, float], pen: Pen = HEAVY, layer: Layer = "conductor") -> Line:
    """A stroke through plain pairs of mm."""
    return Line(tuple(Point(*each) for each in points), pen, layer)


def _around(points: tuple[Point, ...]) -> Box:
    across, along = [each[0] for each in points], [each[1] for each in points]
    return Box(min(across), min(along), max(across), max(along))
