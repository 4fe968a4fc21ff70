"""Symbols after IEC 60617 and IEC 60417, drawn in straight strokes on a grid of 2.5 mm.

Each stands upright, energy from top to bottom, a port or the middle at (0, 0); `Symbol.placed` turns it.
"""

import math
from typing import Literal

from ferrule.sheets.scene import (
    FINE,
    HEAVY,
    MEDIUM,
    SMALL_MM,
    TEXT_MM,
    Arc,
    Box,
    Circle,
    Item,
    Layer,
    Line,
    Pen,
    Point,
    Polygon,
    Rectangle,
    Text,
    line,
)
from ferrule.sheets.symbol import Symbol, symbol

G = 2.5
"""One step of the grid, mm."""


def _stroke(*points: tuple[float, float], pen: Pen = MEDIUM) -> Line:
    return line(*points, pen=pen, layer="device")


def _word(x: float, y: float, words: str, height_mm: float = TEXT_MM) -> Text:
    return Text(Point(x, y), words, height_mm, "middle", "middle", layer="device")


def _arrow(tip: tuple[float, float], angle_deg: float, length_mm: float = 1.6) -> Polygon:
    """A filled head, its tip pointing to an angle as `Arc` counts them."""
    x, y = tip

    def corner(turn_deg: float) -> Point:
        angle = math.radians(angle_deg + 180 + turn_deg)
        return Point(x + length_mm * math.cos(angle), y + length_mm * math.sin(angle))

    return Polygon((Point(x, y), corner(20), corner(-20)))


def _wave(x: float, y: float, half_mm: float = 1.0) -> tuple[Arc, Arc]:
    """One period of alternating current around a point."""
    return (
        Arc(Point(x - half_mm, y), half_mm, 180, 360),
        Arc(Point(x + half_mm, y), half_mm, 0, 180),
    )


def _direct(x: float, y: float, half_mm: float = 2.0) -> tuple[Line, ...]:
    """Direct current: a stroke over a broken one, around a point."""
    third = 2 * half_mm / 3
    pieces = (x - half_mm, x - third / 4, x + half_mm - third / 2)
    return (
        _stroke((x - half_mm, y - 0.6), (x + half_mm, y - 0.6)),
        *(_stroke((at, y + 0.6), (at + third / 2, y + 0.6)) for at in pieces),
    )


# Earth


def _bars(y: float, halves: tuple[float, float, float]) -> tuple[Line, ...]:
    return tuple(_stroke((-half, y + 1.25 * at), (half, y + 1.25 * at)) for at, half in enumerate(halves))


def earth() -> Symbol:
    return symbol(_stroke((0, 0), (0, 5)), *_bars(5, (3.5, 2.25, 1.0)), top=(0, 0, "up"))


def protective_earth() -> Symbol:
    return symbol(
        _stroke((0, 0), (0, 6.25)),
        Circle(Point(0, 6.25), 3.75),
        *_bars(6.25, (2.6, 1.75, 0.9)),
        top=(0, 0, "up"),
    )


def frame_bond() -> Symbol:
    """The frame or case of a device, on the protective conductor."""
    slants = (_stroke((x, 5), (x - 1.5, 7.5)) for x in (-2.5, 0.0, 2.5))
    return symbol(_stroke((0, 0), (0, 5)), _stroke((-2.5, 5), (2.5, 5)), *slants, top=(0, 0, "up"))


# Switching and protection: a contact that is open when drawn, hinged at the lower end


def _contact(*marks: Item, blade: tuple[float, float] = (-2.5, 4.5)) -> tuple[Item, ...]:
    return (_stroke((0, 0), (0, 5)), _stroke(blade, (0, 10), (0, 15)), *marks)


def _switching(*marks: Item) -> Symbol:
    return symbol(*_contact(*marks), top=(0, 0, "up"), bottom=(0, 15, "down"))


def switch() -> Symbol:
    return _switching()


def break_contact() -> Symbol:
    """It is closed at rest, and acts by opening."""
    return symbol(
        _stroke((0, 0), (0, 5), (2.5, 5)),
        _stroke((2.3, 4.0), (0, 10), (0, 15)),
        top=(0, 0, "up"),
        bottom=(0, 15, "down"),
    )


def circuit_breaker() -> Symbol:
    return _switching(_stroke((-1.1, 3.9), (1.1, 6.1)), _stroke((-1.1, 6.1), (1.1, 3.9)))


def isolator() -> Symbol:
    """It isolates, and is not to be opened under load."""
    return _switching(_stroke((-1.5, 5), (1.5, 5)))


def switch_disconnector() -> Symbol:
    return _switching(_stroke((-1.5, 5), (1.5, 5)), Circle(Point(0, 5.7), 0.7))


def contactor() -> Symbol:
    return _switching(Arc(Point(0, 4), 1.0, 270, 90))


def fuse() -> Symbol:
    return symbol(
        Rectangle(Box(-1.25, 3.75, 1.25, 11.25)),
        _stroke((0, 0), (0, 15)),
        top=(0, 0, "up"),
        bottom=(0, 15, "down"),
    )


def fuse_switch_disconnector() -> Symbol:
    """The fuse travels with the blade."""
    # The blade runs from (0, 10) to (-2.5, 4.5); the fuse lies along it, a quarter from either end.
    dx, dy = -2.5 / 6.0415, -5.5 / 6.0415
    low, high = (0 + dx * 1.2, 10 + dy * 1.2), (0 + dx * 5.0, 10 + dy * 5.0)
    across = (-dy * 0.8, dx * 0.8)
    corners = [
        (low[0] + across[0], low[1] + across[1]),
        (high[0] + across[0], high[1] + across[1]),
        (high[0] - across[0], high[1] - across[1]),
        (low[0] - across[0], low[1] - across[1]),
    ]
    return _switching(_stroke((-1.5, 5), (1.5, 5)), Circle(Point(0, 5.7), 0.7), _stroke(*corners, corners[0]))


def _residual(*marks: Item) -> Symbol:
    """A contact, the ring around all conductors below it, and the link from ring to blade."""
    ring = (Arc(Point(-0.5, 13.75), 1.25, 90, 270), Arc(Point(0.5, 13.75), 1.25, 270, 90))
    return symbol(
        _stroke((0, 0), (0, 5)),
        _stroke((-2.5, 4.5), (0, 10), (0, 17.5)),
        *ring,
        _stroke((-0.5, 12.5), (0.5, 12.5)),
        _stroke((-0.5, 15), (0.5, 15)),
        _stroke((-1.75, 13.75), (-5, 13.75), (-5, 7.25), (-1.25, 7.25), pen=FINE.dash()),
        _word(-3.4, 10.7, "IΔ", SMALL_MM),
        *marks,
        top=(0, 0, "up"),
        bottom=(0, 17.5, "down"),
    )


def residual_current_device() -> Symbol:
    """It opens on residual current alone."""
    return _residual(_stroke((-1.5, 5), (1.5, 5)), Circle(Point(0, 5.7), 0.7))


def residual_current_breaker() -> Symbol:
    """It opens on residual current and on overcurrent."""
    return _residual(_stroke((-1.1, 3.9), (1.1, 6.1)), _stroke((-1.1, 6.1), (1.1, 3.9)))


def surge_protective_device() -> Symbol:
    """From a live conductor above to earth below."""
    return symbol(
        Rectangle(Box(-2.5, 2.5, 2.5, 12.5)),
        _stroke((0, 0), (0, 5.2)),
        _arrow((0, 6.8), 90),
        _stroke((0, 9.8), (0, 15)),
        _arrow((0, 8.2), 270),
        top=(0, 0, "up"),
        bottom=(0, 15, "down"),
    )


def changeover(to: Literal["a", "b"] = "a", *, powered: bool = False) -> Symbol:
    """One conductor below to one of two above, open on the way; `powered` when a coil moves it."""
    blade = (-2.5, 4.3) if to == "a" else (2.5, 4.3)
    marks = (Arc(Point(-2.5, 3.3), 1.0, 270, 90), Arc(Point(2.5, 3.3), 1.0, 90, 270)) if powered else ()
    return symbol(
        _stroke((-2.5, 0), (-2.5, 4.3)),
        _stroke((2.5, 0), (2.5, 4.3)),
        _stroke(blade, (0, 10), (0, 15)),
        *marks,
        a=(-2.5, 0, "up"),
        b=(2.5, 0, "up"),
        common=(0, 15, "down"),
    )


# Sources and converters


def module() -> Symbol:
    """One photovoltaic module, its poles at the top."""
    return symbol(
        Rectangle(Box(-5, 2.5, 5, 17.5)),
        _stroke((-5, 2.5), (0, 7.5), (5, 2.5)),
        _stroke((-2.5, 0), (-2.5, 2.5)),
        _stroke((2.5, 0), (2.5, 2.5)),
        _word(-5, 1, "+", SMALL_MM),
        _word(5, 1, "−", SMALL_MM),
        plus=(-2.5, 0, "up"),
        minus=(2.5, 0, "up"),
    )


def generator(kind: Literal["photovoltaic", "rotating"] = "photovoltaic") -> Symbol:
    """A string or an array of modules as one, or a generator set."""
    if kind == "rotating":
        return symbol(
            Circle(Point(0, -5), 5),
            _word(0, -6, "G"),
            *_wave(0, -2.75, 1.0),
            bottom=(0, 0, "down"),
        )
    return symbol(
        Rectangle(Box(-5, -10, 5, 0)),
        _word(-2.5, -7.5, "G"),
        *_sun(1.0, -9.0),
        _stroke((-2, -3.9), (2, -3.9)),
        _stroke((-1, -2.6), (1, -2.6), pen=HEAVY),
        bottom=(0, 0, "down"),
    )


def _sun(x: float, y: float) -> tuple[Item, ...]:
    """Two arrows of light that fall on a cell below and to the left."""
    shafts = ((x, y), (x + 2.0, y))
    return tuple(
        item
        for sx, sy in shafts
        for item in (
            _stroke((sx + 1.5, sy), (sx, sy + 2.6), pen=FINE),
            _arrow((sx - 0.3, sy + 3.1), 120, 1.2),
        )
    )


def battery() -> Symbol:
    return symbol(
        _stroke((0, 0), (0, 5)),
        _stroke((-3.75, 5), (3.75, 5)),
        _stroke((-1.75, 6.25), (1.75, 6.25), pen=Pen(0.7)),
        _stroke((0, 6.25), (0, 8.75), pen=MEDIUM.dash()),
        _stroke((-3.75, 8.75), (3.75, 8.75)),
        _stroke((-1.75, 10), (1.75, 10), pen=Pen(0.7)),
        _stroke((0, 10), (0, 15)),
        _word(-3.0, 3.0, "+", SMALL_MM),
        _word(-3.0, 12.0, "−", SMALL_MM),
        plus=(0, 0, "up"),
        minus=(0, 15, "down"),
    )


def inverter() -> Symbol:
    """Direct current above, alternating below."""
    return symbol(
        Rectangle(Box(-5, 0, 5, 10)),
        _stroke((-5, 10), (5, 0)),
        *_direct(-2.3, 2.6, 1.6),
        *_wave(2.0, 7.4, 1.0),
        dc=(0, 0, "up"),
        ac=(0, 10, "down"),
        left=(-5, 5, "left"),
        right=(5, 5, "right"),
    )


def transformer() -> Symbol:
    return symbol(
        _stroke((0, 0), (0, 2.5)),
        Circle(Point(0, 5.625), 3.125),
        Circle(Point(0, 9.375), 3.125),
        _stroke((0, 12.5), (0, 15)),
        top=(0, 0, "up"),
        bottom=(0, 15, "down"),
    )


def current_transformer() -> Symbol:
    """The conductor passes; the secondary leaves to the right."""
    return symbol(
        _stroke((0, 0), (0, 10), pen=HEAVY),
        Circle(Point(0, 5), 2.5),
        _stroke((2.5, 5), (7.5, 5)),
        _stroke((4.4, 6), (5.4, 4)),
        _stroke((5.4, 6), (6.4, 4)),
        top=(0, 0, "up"),
        bottom=(0, 10, "down"),
        secondary=(7.5, 5, "right"),
    )


def energy_meter() -> Symbol:
    """It counts both ways: the arrows say so."""
    return symbol(
        Rectangle(Box(-5, 2.5, 5, 12.5)),
        _stroke((-5, 5), (5, 5)),
        _word(0, 7.9, "kWh", SMALL_MM),
        _stroke((-2.5, 11.2), (2.5, 11.2), pen=FINE),
        _arrow((3.2, 11.2), 0, 1.4),
        _arrow((-3.2, 11.2), 180, 1.4),
        _stroke((0, 0), (0, 2.5)),
        _stroke((0, 12.5), (0, 15)),
        top=(0, 0, "up"),
        bottom=(0, 15, "down"),
        signal=(5, 7.5, "right"),
    )


# Loads and points of connection


def load() -> Symbol:
    """Whatever a circuit feeds."""
    return symbol(_stroke((0, 0), (0, 6)), _arrow((0, 7.5), 90, 2.5), top=(0, 0, "up"))


def socket() -> Symbol:
    """A socket outlet with protective contact."""
    return symbol(
        _stroke((0, 0), (0, 5)),
        _stroke((-3, 5), (3, 5)),
        Arc(Point(0, 8), 3.0, 180, 360),
        top=(0, 0, "up"),
    )


def lamp() -> Symbol:
    half = 2.5 * math.sqrt(0.5)
    return symbol(
        _stroke((0, 0), (0, 2.5)),
        Circle(Point(0, 5), 2.5),
        _stroke((-half, 5 - half), (half, 5 + half)),
        _stroke((-half, 5 + half), (half, 5 - half)),
        _stroke((0, 7.5), (0, 10)),
        top=(0, 0, "up"),
        bottom=(0, 10, "down"),
    )


def aerial() -> Symbol:
    return symbol(
        _stroke((0, 0), (0, -10)),
        _stroke((-3, -10), (0, -5), (3, -10), (-3, -10)),
        bottom=(0, 0, "down"),
    )


def plug_connector() -> Symbol:
    """A pair that is pulled apart by hand: socket above, pin below."""
    return symbol(
        _stroke((0, 0), (0, 5)),
        Arc(Point(0, 6.5), 1.5, 180, 360),
        Polygon((Point(-0.6, 5.9), Point(0.6, 5.9), Point(0.6, 9), Point(-0.6, 9))),
        _stroke((0, 9), (0, 15)),
        top=(0, 0, "up"),
        bottom=(0, 15, "down"),
    )


def terminal() -> Symbol:
    """One that is opened with a tool."""
    return symbol(
        Circle(Point(0, 0), 0.8),
        up=(0, 0, "up"),
        down=(0, 0, "down"),
        left=(0, 0, "left"),
        right=(0, 0, "right"),
    )


def joint(x_mm: float, y_mm: float, layer: Layer = "conductor") -> Circle:
    """The dot where conductors are joined; where they cross there is none."""
    return Circle(Point(x_mm, y_mm), 0.7, MEDIUM, layer, filled=True)


def busbar(ways: int, *, pitch_mm: float = 4 * G) -> Symbol:
    """A bar across with so many ways below (`1`, `2`, … from the left), fed from above at its left end."""
    length = pitch_mm * (ways - 1) + 2 * G
    ports = {str(way + 1): (G + way * pitch_mm, 0.0, "down") for way in range(ways)}
    return symbol(
        _stroke((0, 0), (length, 0), pen=Pen(1.0)),
        feed=(G, 0, "up"),
        **ports,  # type: ignore[arg-type]
    )


# Marks on a conductor that runs down through (0, 0); turn them for one that runs across


def conductors(count: int) -> tuple[Item, ...]:
    """How many conductors one stroke stands for: a slant for each up to three, else one with the number."""
    slants = count if count <= 3 else 1
    first = -0.5 * (slants - 1)
    strokes = tuple(
        _stroke((-1.25, first + at + 0.75), (1.25, first + at - 0.75), pen=FINE) for at in range(slants)
    )
    if slants == count:
        return strokes
    return (*strokes, _word(2.75, 0.0, str(count), SMALL_MM))


def screen(across_mm: float = 0.0) -> tuple[Item, ...]:
    """The screen of a cable: a dashed ring around conductors that lie so far apart, the first at (0, 0)."""
    pen, radius = FINE.dash(), 1.6
    ring = (Arc(Point(0, 0), radius, 90, 270, pen), Arc(Point(across_mm, 0), radius, 270, 90, pen))
    if across_mm == 0:
        return (Circle(Point(0, 0), radius, pen),)
    return (
        *ring,
        _stroke((0, -radius), (across_mm, -radius), pen=pen),
        _stroke((0, radius), (across_mm, radius), pen=pen),
    )


def twisted(across_mm: float = G) -> tuple[Item, ...]:
    """Conductors that lie so far apart, the first at (0, 0), are twisted with each other."""
    left, right = -0.8, across_mm + 0.8
    return (_stroke((left, 1.8), (left, 0.6), (right, -0.6), (right, -1.8), pen=FINE),)
