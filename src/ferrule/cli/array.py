"""`ferrule array JOB`: how the modules lie on each face, where rails and hooks go, and the parts it takes."""

import argparse
from collections.abc import Iterator
from typing import Any

from ferrule.answering import answer
from ferrule.checks.subjects import faces
from ferrule.clauses.procedures import Unasked
from ferrule.cli import plain
from ferrule.cli.paint import Paint
from ferrule.constraint import Verdict
from ferrule.design import Design
from ferrule.fact import Missing
from ferrule.job.load import load
from ferrule.layout.roof import Laid

arguments = plain.arguments


def run(given: argparse.Namespace) -> int:
    result = answer(load(given.job))
    stops: dict[str, list[str]] = {}
    for finding in result.findings:
        if finding.subject.kind == "face" and finding.verdict is Verdict.FAIL:
            stops.setdefault(finding.subject.id, []).append(finding.id)
    design = result.design
    found = [{**_face(design, s.id), "stops": stops.get(s.id, [])} for s in faces(design)]
    plain.show(given, found, _told)
    return plain.code(found, stopped=bool(stops))


def _face(design: Design, face: str) -> dict[str, Any]:
    """One face as plain data: its blocks, or what has to be found out first."""
    try:
        blocks, mount = design.laid(face), design.house.mount(face).id
    except Missing as missing:
        return {"face": face, "find_out": list(missing.asks)}
    except Unasked as why:
        return {"face": face, "mount": None, "blocks": [], "note": str(why)}
    return {"face": face, "mount": mount, "blocks": [_block(each) for each in blocks]}


def _block(each: Laid) -> dict[str, Any]:
    return {
        "block": each.block,
        "outline_mm": each.outline._asdict(),
        "rails": [{**rail._asdict(), "length_mm": rail.length_mm} for rail in each.rails],
        "parts": each.parts._asdict(),
    }


def _told(face: dict[str, Any], paint: Paint) -> Iterator[str]:
    yield paint.strong(face["face"] + (f", {face['mount']}" if face.get("mount") else ""))
    if face["stops"]:
        yield from paint.wrapped(f"stop: {', '.join(face['stops'])}; buy and build nothing for it yet", 2)
    if "find_out" in face:
        yield from (f"  find out: {ask}" for ask in face["find_out"])
    if "note" in face:
        yield f"  {face['note']}: no roof to look at"
    for block in face.get("blocks", ()):
        outline = block["outline_mm"]
        yield (
            f"  block {block['block']}: {outline['left_mm']:.0f} to {outline['right_mm']:.0f} mm from the "
            f"left edge, {outline['bottom_mm']:.0f} to {outline['top_mm']:.0f} mm up from the eaves"
        )
        for rail in block["rails"]:
            yield f"    rail at {rail['height_mm']:.0f} mm, {rail['length_mm']:.0f} mm long"
        yield from paint.wrapped(f"hooks at {_list(block['rails'][0]['hooks_mm'])} mm", 4)
        for name, count in block["parts"].items():
            yield f"    {count:>4}  {name.replace('_', ' ')}"
    yield ""


def _list(places_mm: list[float]) -> str:
    return ", ".join(f"{place:.0f}" for place in places_mm)
