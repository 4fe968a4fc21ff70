"""What holds it all: anchors, plates and screws of the devices; hooks, rails and clamps of the array."""

from collections.abc import Iterator
from functools import partial

from ferrule.answering import Answer
from ferrule.checks.fastening import Fastening, of_device, of_plate
from ferrule.checks.subjects import faces, hung_devices, place_of_device
from ferrule.clauses.procedures import Unasked
from ferrule.design import Design
from ferrule.display import number
from ferrule.fact import Missing, known
from ferrule.job.fixing import Fixing
from ferrule.layout import fixing as layout
from ferrule.sheets.goods import Good, asked, good


def goods(answer: Answer) -> Iterator[Good]:
    design = answer.design
    for subject in hung_devices(design):
        place = place_of_device(design.house, subject.id)
        yield from asked("anchor", subject.id, place, partial(_device, design, subject.id, place))
    for subject in faces(design):
        yield from asked("rail", subject.id, "roof", partial(_face, design, subject.id))


def _device(design: Design, device: str, place: str) -> Iterator[Good]:
    held, plate = of_device(design, device), of_plate(design, device)
    if held is None:
        yield from _ties(design.house.devices[device].fixing, device, place)
        return
    yield from _anchors(held, device, place)
    if plate is not None and plate.plate is not None:
        outline = layout.plate(plate.plate)
        yield good(
            "plate", 1, device, place, width=number(outline.right_mm - outline.left_mm, 5),
            height=number(outline.top_mm - outline.bottom_mm, 5), thickness=number(plate.plate.thickness_mm),
        )  # fmt: skip
        yield good("plate_screw", len(plate.points), device, place, name=plate.sheet.name)
    securing = known(design.house.parts[design.house.devices[device].part].body.mounting.securing)
    if securing != "none":
        yield good("securing", 1, device, place, screws=securing)


def _ties(fixing: Fixing, device: str, place: str) -> Iterator[Good]:
    """What holds a standing device. Raises `Missing` for the bolts to the floor, which nobody has counted."""
    if not fixing.tied:
        return
    ties = len(known(fixing.ties))
    if not ties:
        raise Missing(f"how many bolts of which size hold {device} to the floor, from its maker's sheet")
    yield good("tie", ties, device, place)


def _anchors(held: Fastening, device: str, place: str) -> Iterator[Good]:
    """Of resin, the cartridge is bought by the holes it has to fill."""
    yield good("anchor", len(held.points), device, place, name=held.sheet.name)
    if held.sheet.holds_by == "resin":
        if held.in_base is None:
            raise Missing(f"hole of {held.sheet.id} in {held.base}, from its sheet")
        hole, deep = number(held.in_base.hole_mm), number(held.in_base.depth_mm)
        yield good("resin", len(held.points), device, place, hole=hole, depth=deep)


def _face(design: Design, face: str) -> Iterator[Good]:
    try:
        blocks, name = design.laid(face), design.house.mount(face).name
    except Unasked:
        return
    for block in blocks:
        parts = block.parts
        yield good("hook", parts.hooks, face, "roof", name=name)
        yield good("hook_screw", parts.screws, face, "roof", name=name)
        yield good("rail", parts.rails, face, "roof", name=name)
        yield good("splice", parts.splices, face, "roof", name=name)
        yield good("mid_clamp", parts.mid_clamps, face, "roof", name=name)
        yield good("end_clamp", parts.end_clamps, face, "roof", name=name)
