"""`ferrule wall JOB`: what hangs where on each wall, measured from its left end and from the floor."""

import argparse
import json
import math
from collections.abc import Iterator
from typing import Any, get_args

from ferrule.cli.paint import Paint
from ferrule.fact import Missing
from ferrule.job.load import load
from ferrule.layout.wall import Rectangle, Side, WallFace, spot, wall_faces


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("job", help="the job file")
    parser.add_argument("--json", action="store_true", help="for another program instead of a person")


def run(given: argparse.Namespace) -> int:
    walls = [_wall(face) for face in wall_faces(load(given.job).job).values()]
    if given.json:
        print(json.dumps(walls, ensure_ascii=False, indent=1))
    else:
        print("\n".join(line for wall in walls for line in _told(wall, Paint.for_terminal())))
    return 3 if any("find_out" in wall for wall in walls) else 0


def _wall(face: WallFace) -> dict[str, Any]:
    """One wall as plain data: its size and every rectangle on it, or what has to be measured first."""
    head = {"wall": face.wall.id, "place": face.place.id}
    try:
        items, outline = face.items(), face.outline
        gaps = {hung.id: _free(face, hung.id) for hung in face.hung}
    except Missing as missing:
        return {**head, "find_out": list(missing.asks)}
    marked = [("keep clear", "services", spot(each)) for each in face.wall.keep_clear]
    shown = [*((item.name, item.kind, item.rectangle) for item in items), *marked]
    return {
        **head,
        "width_mm": outline.width_mm,
        "height_mm": outline.height_mm,
        "items": [
            _item(name, kind, rectangle, gaps.get(name)) for name, kind, rectangle in sorted(shown, key=_at)
        ],
    }


def _free(face: WallFace, device: str) -> dict[str, dict[str, Any]]:
    """What is free on each side of a device, and up to what; a side that nothing bounds is left out."""
    found = {side: face.free_mm(device, side) for side in get_args(Side)}
    return {side: {"mm": mm, "to": to} for side, (mm, to) in found.items() if math.isfinite(mm)}


def _at(shown: tuple[str, str, Rectangle]) -> tuple[float, float]:
    return shown[2].left_mm, shown[2].bottom_mm


def _item(name: str, kind: str, rectangle: Rectangle, free: dict[str, Any] | None) -> dict[str, Any]:
    item = {"name": name, "kind": kind, "rectangle_mm": rectangle._asdict()}
    return {**item, "free": free} if free is not None else item


def _told(wall: dict[str, Any], paint: Paint) -> Iterator[str]:
    if "find_out" in wall:
        yield paint.strong(f"{wall['wall']}, in {wall['place']}")
        yield from (line for ask in wall["find_out"] for line in paint.wrapped(f"find out: {ask}", 2, 6))
    else:
        size = f"{wall['width_mm']:.0f} mm wide, {wall['height_mm']:.0f} mm high"
        yield paint.strong(f"{wall['wall']}, in {wall['place']}: {size}")
        yield "    left   right  bottom     top   in mm, from the left end and the floor"
        for item in wall["items"]:
            place = item["rectangle_mm"]
            figures = "".join(f"{place[f'{edge}_mm']:8.0f}" for edge in ("left", "right", "bottom", "top"))
            yield f"{figures}   {item['name']}"
            free = item.get("free", {})
            if free:
                sides = ", ".join(f"{side} {each['mm']:.0f} to {each['to']}" for side, each in free.items())
                yield from paint.wrapped(f"free: {sides}", 12, 18)
    yield ""
