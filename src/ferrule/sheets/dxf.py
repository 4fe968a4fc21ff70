"""A scene as DXF: one layer a layer, text as TEXT, mm, y turned up, the same bytes every time."""

import io
import math
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from ferrule.sheets import font
from ferrule.sheets.scene import LAYERS, Arc, Circle, Line, Pen, Point, Polygon, Rectangle, Scene, Text
from ferrule.sheets.words import plain

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts import Modelspace

_REGULAR, _BOLD = "REGULAR", "BOLD"
_ACCENT_COLOUR = 30  # of the colour index; 7 is black on white and white on black


def dxf(scene: Scene) -> bytes:
    """The whole file, of the edition that most programs read (2010). Importing the writer takes a while."""
    document = _document(scene)
    modelspace = document.modelspace()
    for item in scene.items:
        _ENTITIES[type(item)](modelspace, item, scene.height_mm)
    written = io.StringIO()
    document.write(written)
    # UTF-8 is what this edition is read as; line ends as every reader takes them.
    return written.getvalue().encode("utf-8")


def _document(scene: Scene) -> "Drawing":
    import ezdxf
    from ezdxf import units

    # Else the file carries the time of writing and numbers drawn anew each time.
    ezdxf.options.write_fixed_meta_data_for_testing = True
    document = ezdxf.new("R2010", units=units.MM)
    corner = (scene.width_mm, scene.height_mm)
    # Programs read the header, which is written over unless the model space starts at its origin as well.
    document.modelspace().reset_extents((0.0, 0.0, 0.0), (*corner, 0.0))
    document.header["$EXTMIN"], document.header["$EXTMAX"] = (0.0, 0.0, 0.0), (*corner, 0.0)
    document.modelspace().reset_limits((0.0, 0.0), corner)
    document.header["$LWDISPLAY"] = 1
    document.linetypes.add("DASHED", pattern=[2.8, 1.6, -1.2], description="Dashed __ __ __")
    document.styles.add(_REGULAR, font=font.file().name)
    document.styles.add(_BOLD, font=font.file(bold=True).name)
    for layer in LAYERS:
        document.layers.add(layer.upper())
    document.classes.add_required_classes(document.dxfversion)
    document.classes.classes = dict(sorted(document.classes.classes.items()))
    return document


def _line(modelspace: "Modelspace", item: Line, page_mm: float) -> None:
    points = [_turned(each, page_mm) for each in item.points]
    if len(points) == 2:
        modelspace.add_line(points[0], points[1], dxfattribs=_stroke(item.layer, item.pen))
    else:
        modelspace.add_lwpolyline(points, dxfattribs=_stroke(item.layer, item.pen))


def _rectangle(modelspace: "Modelspace", item: Rectangle, page_mm: float) -> None:
    left, top, right, bottom = item.box
    corners = [Point(left, top), Point(right, top), Point(right, bottom), Point(left, bottom)]
    outline = [_turned(each, page_mm) for each in corners]
    modelspace.add_lwpolyline(outline, close=True, dxfattribs=_stroke(item.layer, item.pen))


def _circle(modelspace: "Modelspace", item: Circle, page_mm: float) -> None:
    middle = _turned(item.middle, page_mm)
    modelspace.add_circle(middle, item.radius_mm, dxfattribs=_stroke(item.layer, item.pen))
    if item.filled:
        x, y = middle
        half_turn = 1.0
        ring = [(x - item.radius_mm, y, half_turn), (x + item.radius_mm, y, half_turn)]
        _fill(modelspace, ring, item.layer, item.pen.accent)


def _arc(modelspace: "Modelspace", item: Arc, page_mm: float) -> None:
    # Clockwise down the page is anticlockwise up it, so the ends change places.
    modelspace.add_arc(
        _turned(item.middle, page_mm),
        item.radius_mm,
        -item.end_deg % 360,
        -item.start_deg % 360,
        dxfattribs=_stroke(item.layer, item.pen),
    )


def _polygon(modelspace: "Modelspace", item: Polygon, page_mm: float) -> None:
    _fill(modelspace, [_turned(each, page_mm) for each in item.points], item.layer, item.accent)


def _fill(modelspace: "Modelspace", ring: list[Any], layer: str, accent: bool) -> None:
    attributes = {"layer": layer.upper()}
    hatch = modelspace.add_hatch(color=_ACCENT_COLOUR if accent else 256, dxfattribs=attributes)
    hatch.paths.add_polyline_path(ring, is_closed=True)


def _text(modelspace: "Modelspace", item: Text, page_mm: float) -> None:
    from ezdxf.enums import TextEntityAlignment

    sides = {
        "start": TextEntityAlignment.LEFT,
        "middle": TextEntityAlignment.CENTER,
        "end": TextEntityAlignment.RIGHT,
    }
    text = modelspace.add_text(
        _literal(item.words),
        height=item.height_mm,
        rotation=90.0 if item.upright else 0.0,
        dxfattribs={"layer": item.layer.upper(), "style": _BOLD if item.bold else _REGULAR},
    )
    text.set_placement(_turned(item.base, page_mm), align=sides[item.anchor])


_ENTITIES: dict[type, Callable[[Any, Any, float], None]] = {
    Line: _line,
    Rectangle: _rectangle,
    Circle: _circle,
    Arc: _arc,
    Polygon: _polygon,
    Text: _text,
}


def _turned(at: Point, page_mm: float) -> tuple[float, float]:
    return round(at.x_mm, 6), round(page_mm - at.y_mm, 6)


def _stroke(layer: str, pen: Pen) -> dict[str, Any]:
    return {
        "layer": layer.upper(),
        "lineweight": math.floor(pen.width_mm * 100 + 0.5),
        **({"linetype": "DASHED"} if pen.dashed else {}),
        **({"color": _ACCENT_COLOUR} if pen.accent else {}),
    }


def _literal(words: str) -> str:
    r"""The words so that no reader takes a part of them for a code of its own: `%%` starts one, `^` another,
    and `\U+` a third. A space parts what would be one; after `^` it is the code for the sign itself, which
    some readers see only where something follows.
    """
    shown = plain(words).replace("%%", "% %").replace("%%", "% %").replace("^", "^ ")
    shown = f"{shown} " if shown.endswith("^ ") else shown
    return shown.replace("\\U+", "\\ U+").replace("\\M+", "\\ M+")
