"""Whether wall and anchors hold what hangs there."""

from collections.abc import Iterator

from ferrule.checks import backing, holding, setting
from ferrule.checks.fastening import of_device, on_wall
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import hung_devices
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, is_so
from ferrule.design import Decided, Design
from ferrule.fact import all_known, known
from ferrule.layout import fixing as layout


def made_for(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    if held := of_device(design, subject.id):
        yield from holding.made_for(code, held)


def holds(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    held = of_device(design, subject.id)
    if held and held.in_base:
        yield from holding.holds(code, held)


def distances(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    held = of_device(design, subject.id)
    if held and held.in_base:
        yield from holding.distances(code, held)


def thick_enough(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    held = of_device(design, subject.id)
    if held and held.in_base:
        yield from holding.thick_enough(code, held)


def reaches(design: Design, code: Code, subject: Subject) -> Constraint | None:
    held = of_device(design, subject.id)
    return holding.reaches(code, held) if held and held.in_base else None


def fits_the_hole(design: Design, code: Code, subject: Subject) -> Constraint | None:
    held = of_device(design, subject.id)
    if held is None:
        return None
    hole_mm = known(held.hung.body.mounting.hole_mm)
    return is_so(
        "fits_the_hole",
        "The bolt or screw of {anchor} is {diameter_mm} thick; the fixing holes are {hole_mm} wide",
        code.trace(),
        held.sheet.diameter_mm <= hole_mm,
        mend="take a thinner anchor",
        anchor=held.sheet.id,
        diameter_mm=held.sheet.diameter_mm,
        hole_mm=hole_mm,
    )


def in_studs(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    held = of_device(design, subject.id)
    if held is None or not held.framed:
        return
    yield from holding.in_studs(code, held)
    if held.base == "timber" and held.in_base is not None:
        studs = len({point.stud for point in layout.on_studs(held.face.wall, held.points)})
        yield from covered(code.procedures.fixing).studs(
            code.rulebook, count=studs, thread_mm=held.in_base.depth_mm
        )


def secured(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """What the device's own sheet has against its being lifted off again."""
    found = on_wall(design, subject.id)
    if found is None:
        return None
    mounting = found[1].body.mounting
    all_known(mounting.securing, mounting.theft_lock)
    return is_so(
        "secured",
        "Secured on its bracket by: {securing}; a lock against theft: {lock}",
        code.trace(),
        True,
        securing=known(mounting.securing),
        lock=known(mounting.theft_lock),
    )


def anchor(_design: Design, subject: Subject) -> Iterator[Decided]:
    yield Decided("anchor", subject.id)


QUESTIONS = (
    Question(
        "device.fixing",
        "Do wall and anchors hold it?",
        hung_devices,
        each(
            made_for,
            holds,
            distances,
            thick_enough,
            reaches,
            fits_the_hole,
            in_studs,
            *backing.JUDGES,
            *setting.JUDGES,
            secured,
        ),
        anchor,
    ),
)
