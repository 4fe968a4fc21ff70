"""`ferrule wall JOB`: what hangs where on each wall, measured from its left end and from the floor."""

import argparse
from collections.abc import Iterator
from typing import Any

from ferrule.cli import plain
from ferrule.cli.paint import Paint
from ferrule.job.load import load
from ferrule.layout.measures import measures
from ferrule.layout.wall import wall_faces

arguments = plain.arguments


def run(given: argparse.Namespace) -> int:
    walls = [measures(face) for face in wall_faces(load(given.job).job).values()]
    plain.show(given, walls, _told)
    return plain.code(walls, stopped=any(wall.get("overlaps") for wall in walls))


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
            if holes := item.get("holes_mm"):
                points = ", ".join(f"{x_mm:.0f} | {y_mm:.0f}" for x_mm, y_mm in holes)
                yield from paint.wrapped(f"holes: {points}", 12, 18)
        for each in wall["overlaps"]:
            text = f"{each['name']}: overlap of {each['mm']:.0f} mm with {each['with']}"
            yield from paint.wrapped(text, 4, 8)
    yield ""
