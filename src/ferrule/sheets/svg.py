"""A scene as SVG: words stay words, one group a layer, page-true size, the same bytes every time."""

from collections.abc import Callable
from typing import Any

from ferrule.sheets import font
from ferrule.sheets.scene import (
    LAYERS,
    Arc,
    Circle,
    Line,
    Pen,
    Polygon,
    Rectangle,
    Scene,
    Text,
)
from ferrule.sheets.words import plain

#: ink is not seen on the dark ground that many a phone shows pictures on
PAPER = "#ffffff"
INK, ACCENT = "#16191c", "#9a4a16"


def svg(scene: Scene) -> str:
    """The whole document, ready to be written as UTF-8."""
    groups: dict[str, dict[str, list[str]]] = {layer: {} for layer in LAYERS}
    for item in scene.items:
        style, element = _ELEMENTS[type(item)](item)
        groups[item.layer].setdefault(style, []).append(element)
    width, height = _mm(scene.width_mm), _mm(scene.height_mm)
    description = f"<desc>{_escaped(scene.description)}</desc>\n" if scene.description else ""
    drawn = "".join(
        f'<g id="{layer}">\n' + "".join(_group(*each) for each in styles.items()) + "</g>\n"
        for layer, styles in groups.items()
        if styles
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}" role="img" xml:lang="{_attribute(scene.language)}" '
        f'font-family="\'{font.FAMILY}\', sans-serif" direction="ltr" fill="none" '
        f'stroke-linecap="round" stroke-linejoin="round" style="background:{PAPER}">\n'
        f"<title>{_escaped(scene.title)}</title>\n{description}{drawn}</svg>\n"
    )


def _group(style: str, elements: list[str]) -> str:
    return f"<g {style}>\n" + "\n".join(elements) + "\n</g>\n"


def _line(item: Line) -> tuple[str, str]:
    (x, y), *others = item.points
    path = "L".join(f"{_mm(each[0])} {_mm(each[1])}" for each in others)
    return _stroke(item.pen), f'<path d="M{_mm(x)} {_mm(y)}L{path}"/>'


def _rectangle(item: Rectangle) -> tuple[str, str]:
    left, top, right, bottom = item.box
    size = f'width="{_mm(right - left)}" height="{_mm(bottom - top)}"'
    return _stroke(item.pen), f'<rect x="{_mm(left)}" y="{_mm(top)}" {size}/>'


def _circle(item: Circle) -> tuple[str, str]:
    (x, y), style = item.middle, _stroke(item.pen)
    if item.filled:
        style += f' fill="{_colour(item.pen.accent)}"'
    return style, f'<circle cx="{_mm(x)}" cy="{_mm(y)}" r="{_mm(item.radius_mm)}"/>'


def _arc(item: Arc) -> tuple[str, str]:
    span, radius = item.span_deg, _mm(item.radius_mm)
    # A full circle has no two ends between which an arc could run, so it is drawn in two halves.
    stops = [span] if span < 360 else [180.0, 360.0]
    large = int(180 < span < 360)
    x, y = item.at(item.start_deg)
    path = f"M{_mm(x)} {_mm(y)}"
    for stop in stops:
        x, y = item.at(item.start_deg + stop)
        path += f"A{radius} {radius} 0 {large} 1 {_mm(x)} {_mm(y)}"
    return _stroke(item.pen), f'<path d="{path}"/>'


def _polygon(item: Polygon) -> tuple[str, str]:
    corners = " ".join(f"{_mm(x)},{_mm(y)}" for x, y in item.points)
    return f'fill="{_colour(item.accent)}"', f'<polygon points="{corners}"/>'


def _text(item: Text) -> tuple[str, str]:
    x, y = item.base
    style = (
        f'fill="{INK}" font-size="{_mm(item.height_mm / font.CAPITAL_HEIGHT)}" text-anchor="{item.anchor}"'
    )
    if item.bold:
        style += ' font-weight="700"'
    turned = f' transform="rotate(-90 {_mm(x)} {_mm(y)})"' if item.upright else ""
    return style, f'<text x="{_mm(x)}" y="{_mm(y)}"{turned}>{_escaped(item.words)}</text>'


_ELEMENTS: dict[type, Callable[[Any], tuple[str, str]]] = {
    Line: _line,
    Rectangle: _rectangle,
    Circle: _circle,
    Arc: _arc,
    Polygon: _polygon,
    Text: _text,
}


def _stroke(pen: Pen) -> str:
    style = f'stroke="{_colour(pen.accent)}" stroke-width="{_mm(pen.width_mm)}"'
    # Round ends lengthen each dash by the width of the stroke.
    return style + ' stroke-dasharray="1.6 1.2"' if pen.dashed else style


def _colour(accent: bool) -> str:
    return ACCENT if accent else INK


def _mm(value_mm: float) -> str:
    return f"{round(value_mm, 3) + 0.0:g}"  # + 0.0 turns −0 into 0


def _escaped(words: str) -> str:
    return plain(words).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def _attribute(words: str) -> str:
    return _escaped(words).replace('"', "&quot;")
