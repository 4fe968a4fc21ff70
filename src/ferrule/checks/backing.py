"""Whether the plate behind a device lies where the device hangs, and whether its own screws hold it."""

from collections.abc import Callable, Iterable, Iterator

from ferrule.checks import holding
from ferrule.checks.fastening import Fastening, of_plate, on_wall
from ferrule.checks.question import Subject
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, is_so
from ferrule.design import Design
from ferrule.layout import fixing as layout


def plate_lies(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """Every fixing of the device on the plate, and the plate on nothing but wall."""
    found, fixing = on_wall(design, subject.id), design.house.devices[subject.id].fixing
    if found is None or fixing.backing is None:
        return
    face, hung = found
    plate = layout.plate(fixing.backing)
    beside = sum(not point.rectangle.within(plate) for point in layout.holes(hung))
    yield is_so(
        "plate_lies",
        "Fixings that lie beside the plate: {beside}" if beside else "Every fixing lies on the plate",
        code.trace(),
        not beside,
        mend="take a larger plate, or move it behind the device",
        beside=beside,
    )
    over = [item.name for item in face.items() if item.name != hung.id and plate.overlaps(item.rectangle)]
    over += [
        f"the plate of {other.id}"
        for other in face.hung
        if other.id != hung.id
        and (its := design.house.devices[other.id].fixing.backing) is not None
        and plate.overlaps(layout.plate(its))
    ]
    yield is_so(
        "plate_free",
        "The plate lies over {over}" if over else "The plate lies on free wall",
        code.trace(),
        not over,
        mend="give each device a plate of its own that lies on the wall alone",
        over=" and ".join(over),
    )


def plate_made_for(design: Design, code: Code, subject: Subject) -> Iterable[Constraint]:
    return _of_plate(design, subject, lambda held: holding.made_for(code, held), unfit=True)


def plate_holds(design: Design, code: Code, subject: Subject) -> Iterable[Constraint]:
    return _of_plate(design, subject, lambda held: holding.holds(code, held))


def plate_distances(design: Design, code: Code, subject: Subject) -> Iterable[Constraint]:
    return _of_plate(design, subject, lambda held: holding.distances(code, held))


def plate_thick_enough(design: Design, code: Code, subject: Subject) -> Iterable[Constraint]:
    return _of_plate(design, subject, lambda held: holding.thick_enough(code, held))


def plate_reaches(design: Design, code: Code, subject: Subject) -> Iterable[Constraint]:
    return _of_plate(design, subject, lambda held: [holding.reaches(code, held)])


def plate_in_studs(design: Design, code: Code, subject: Subject) -> Iterable[Constraint]:
    return _of_plate(design, subject, lambda held: holding.in_studs(code, held), unfit=True)


def plate_made(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """How thick it is, and over how many studs it is screwed."""
    held = of_plate(design, subject.id)
    if held is not None and held.plate is not None:
        studs = len({point.stud for point in layout.on_studs(held.face.wall, held.points)})
        yield from covered(code.procedures.fixing).backing(
            code.rulebook, thickness_mm=held.plate.thickness_mm, studs=studs
        )


def _of_plate(
    design: Design,
    subject: Subject,
    judge: Callable[[Fastening], Iterable[Constraint]],
    *,
    unfit: bool = False,
) -> Iterator[Constraint]:
    """What is said of the screws of a plate, told from what is said of the device; of screws that are not
    made for the studs only where `unfit`.
    """
    held = of_plate(design, subject.id)
    if held is not None and (unfit or held.in_base is not None):
        for found in judge(held):
            yield found._replace(name=f"plate_{found.name}", text=f"Plate: {found.text}")


JUDGES = (
    plate_lies,
    plate_made_for,
    plate_holds,
    plate_distances,
    plate_thick_enough,
    plate_reaches,
    plate_in_studs,
    plate_made,
)
