"""The measures of a wall as plain data, in mm from its left end and from the floor."""

import math
from collections.abc import Sequence
from typing import Any, get_args

from ferrule.fact import Missing
from ferrule.layout.fixing import holes
from ferrule.layout.wall import Hung, Item, Rectangle, Side, WallFace, collisions, spot


def measures(face: WallFace) -> dict[str, Any]:
    """One wall as plain data: its size, every rectangle on it, what is free around each device and where its
    fixing holes come, and where two overlap or one reaches beyond the wall (`overlaps`); or what has to be
    measured first (`find_out`).
    """
    head = {"wall": face.wall.id, "place": face.place.id}
    try:
        items, outline = face.items(), face.outline
        gaps = {hung.id: _free(face, hung.id) for hung in face.hung}
    except Missing as missing:
        return {**head, "find_out": list(missing.asks)}
    drilled = {hung.id: _holes(hung) for hung in face.hung}
    marked = [("keep clear", "services", spot(each)) for each in face.wall.keep_clear]
    shown = [*((item.name, item.kind, item.rectangle) for item in items), *marked]
    return {
        **head,
        "width_mm": outline.width_mm,
        "height_mm": outline.height_mm,
        "items": [
            _item(name, kind, rectangle, *((gaps[name], drilled[name]) if kind == "device" else (None, None)))
            for name, kind, rectangle in sorted(shown, key=_at)
        ],
        "overlaps": _overlaps(items, outline),
    }


def _overlaps(items: Sequence[Item], outline: Rectangle) -> list[dict[str, Any]]:
    """Every two of which one is a device that cannot both be there, and each device that leaves the wall."""
    found = [
        {"name": one.name, "with": other.name, "mm": one.rectangle.overlap_mm(other.rectangle)}
        for one, other in collisions(items)
    ]
    return found + [
        {"name": item.name, "with": "the end of the wall", "mm": item.rectangle.beyond_mm(outline)}
        for item in items
        if item.kind == "device" and not item.rectangle.within(outline)
    ]


def _free(face: WallFace, device: str) -> dict[str, dict[str, Any]]:
    """What is free on each side of a device, and up to what; a side that nothing bounds is left out."""
    found = {side: face.free_mm(device, side) for side in get_args(Side)}
    return {side: {"mm": max(mm, 0.0), "to": to} for side, (mm, to) in found.items() if math.isfinite(mm)}


def _at(shown: tuple[str, str, Rectangle]) -> tuple[float, float]:
    return shown[2].left_mm, shown[2].bottom_mm


def _holes(hung: Hung) -> list[tuple[float, float]] | None:
    """Each from the left end and from the floor; None where nobody knows them yet."""
    try:
        return [(point.x_mm, point.y_mm) for point in holes(hung)]
    except Missing:
        return None


def _item(
    name: str,
    kind: str,
    rectangle: Rectangle,
    free: dict[str, Any] | None,
    drilled: list[tuple[float, float]] | None,
) -> dict[str, Any]:
    item: dict[str, Any] = {"name": name, "kind": kind, "rectangle_mm": rectangle._asdict()}
    if free is not None:
        item["free"] = free
    if drilled:
        item["holes_mm"] = drilled
    return item
