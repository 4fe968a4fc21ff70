"""Who lifts a device into its place: one, two or three people, or an aid."""

from collections.abc import Iterable, Iterator

from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import hung_devices
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.clauses.values import Hands, Lift, LiftingAid
from ferrule.constraint import Constraint, at_most
from ferrule.design import Decided, Design
from ferrule.fact import Missing, Unknown, all_known, known, unknown_of
from ferrule.parts.pieces import Piece
from ferrule.working import Trace

_PEOPLE = {"one": 1, "two": 2, "three": 3}


def crew(design: Design, code: Code, subject: Subject) -> Constraint | None:
    people = _PEOPLE.get(design.lifters(subject.id))
    if people is None or not _heavy(design, code, subject.id):
        return None
    there = len(known(design.house.job.crew))
    return at_most(
        "crew",
        "People it takes to lift it: {value}; people there: {there}",
        code.trace(),
        value=people,
        limit=there,
        unit="count",
        mend="bring more people, or an aid",
        there=there,
    )


def lifted(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """Of all pieces and both ends of a stack, what is worst for each limit."""
    worst: dict[str, Constraint] = {}
    for piece in _heavy(design, code, subject.id):
        for seat_mm in _seats_mm(piece):
            for found in _lift(design, code, subject.id, piece, seat_mm):
                worst[found.name] = max(found, worst.get(found.name, found), key=_badness)
    yield from worst.values()


def _badness(constraint: Constraint) -> tuple[int, float]:
    return constraint.verdict, -(constraint.margin or 0.0)


def _heavy(design: Design, code: Code, device: str) -> list[Piece]:
    """The pieces whose lifting is a question; none of a device that is lighter itself. Raises `Missing`."""
    body = design.house.parts[design.house.devices[device].part].body
    least_kg = covered(code.procedures.lifting).least_kg(code.trace())
    if known(body.mass_kg) < least_kg:
        return []
    pieces = known(body.pieces)
    return [piece for piece in pieces if _mass_kg(piece, pieces, known(body.mass_kg)) >= least_kg]


def _mass_kg(piece: Piece, pieces: list[Piece], whole_kg: float) -> float:
    """The mass of a piece; that of the device, where it comes whole."""
    if piece.mass_kg is not None:
        return piece.mass_kg
    if len(pieces) > 1 or piece.count > 1:
        raise Missing(f"mass of the {piece.name}, from its sheet")
    return whole_kg


def _seats_mm(piece: Piece) -> tuple[float, ...]:
    """Where the lowest and the highest of a piece come to sit above the device's lower edge."""
    if piece.count == 1:
        return (piece.seat_mm or 0.0,)
    if piece.seat_mm is None:
        raise Missing(f"seat of the highest {piece.name} in its place, from the manual")
    return 0.0, piece.seat_mm


def _lift(design: Design, code: Code, device: str, piece: Piece, seat_mm: float) -> Iterable[Constraint]:
    """Judge one piece on its way to one seat."""
    clause, by = covered(code.procedures.lifting), design.lifters(device)
    _, hung = design.house.hung(device)
    lifting = design.house.devices[device].lift
    body, t = hung.body, code.trace()
    mass_kg = t.given("mass_kg", _mass_kg(piece, known(body.pieces), known(body.mass_kg)), piece.name)
    load = f"The {piece.name}" if piece.count == 1 else f"Each {piece.name}"
    if by == "aid":
        all_known(design.house.job.aids, lifting.from_mm, lifting.stands, hung.siting.bottom_mm)
        # An aid that does not reach up to where a piece waits cannot take it down either.
        seat_above_mm = t.given(
            "seat_mm",
            max(known(hung.siting.bottom_mm) + seat_mm, known(lifting.from_mm)),
            "its lower edge in its place, or where it is lifted from",
        )
        aided = clause.with_aid(
            code.rulebook,
            load=load,
            mass_kg=mass_kg,
            seat_mm=seat_above_mm,
            aids=_aids(design, mass_kg, seat_above_mm),
            footing=known(lifting.stands),
        )
        return _noted(t, aided)
    all_known(
        lifting.from_mm, lifting.stands, lifting.cramped, hung.siting.bottom_mm, piece.grip, piece.hold_mm,
        design.house.job.crew,
    )  # fmt: skip
    footing, floor_mm = known(lifting.stands), 0.0
    if footing == "platform":
        if lifting.platform_mm is None:
            raise Missing("height of the platform that they stand on")
        floor_mm = lifting.platform_mm
    depth_mm = piece.depth_mm if piece.depth_mm is not None else known(body.depth_mm)
    edges_mm = {"where the lift begins": known(lifting.from_mm)}
    edges_mm["where it ends"] = known(hung.siting.bottom_mm) + seat_mm
    ends = []
    for where, edge_mm in edges_mm.items():
        height_mm = t.given("hands_mm", edge_mm + known(piece.hold_mm) - floor_mm, where)
        ends.append(Hands(height_mm, clause.reach_mm(t, depth_mm=depth_mm, height_mm=height_mm)))
    # The weakest of the crew are reckoned with, so that it does not matter who takes hold.
    people = sorted(known(design.house.job.crew), key=("woman", "man").index)[: _PEOPLE[by]]
    if len(people) < _PEOPLE[by]:
        return ()
    found = clause.by_hand(
        code.rulebook,
        load=load,
        mass_kg=mass_kg,
        lift=Lift(ends[0], ends[1], known(piece.grip)),
        people=people,
        footing=footing,
        cramped=known(lifting.cramped),
    )
    return _noted(t, found)


def _aids(design: Design, mass_kg: float, seat_mm: float) -> list[LiftingAid]:
    """What is there to lift with. Raises `Missing` where one of which not all is known could do what none of
    the others does.
    """
    there = known(design.house.job.aids)
    unknown = unknown_of(((aid.name, aid) for aid in there), "load_kg", "reach_mm")
    aids = [
        LiftingAid(aid.name, aid.load_kg, aid.reach_mm)
        for aid in there
        if not isinstance(aid.load_kg, Unknown) and not isinstance(aid.reach_mm, Unknown)
    ]
    if not any(aid.load_kg >= mass_kg and aid.reach_mm >= seat_mm for aid in aids):
        all_known(*unknown)
    return aids


def _noted(t: Trace, found: Iterable[Constraint]) -> list[Constraint]:
    """The same with what was noted before in front of their workings."""
    return [constraint._replace(steps=(*t.steps, *constraint.steps)) for constraint in found]


QUESTIONS = (
    Question(
        "device.lift",
        "Who can lift it into its place?",
        hung_devices,
        each(crew, lifted),
        decides=lambda _design, subject: (Decided("lifting", subject.id),),
    ),
)
