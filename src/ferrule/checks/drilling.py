"""Whether anybody looked for hidden cables and pipes before the drill."""

from collections.abc import Iterator

from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import drilled_walls
from ferrule.clauses import Code
from ferrule.constraint import Constraint, is_so
from ferrule.design import Design
from ferrule.fact import Missing, Unknown, known
from ferrule.layout import fixing as layout


def searched(design: Design, code: Code, subject: Subject) -> Constraint:
    """Drilling waits until somebody has searched the wall: for the fixings of a device, and for the screws of
    the plate behind it or of what ties it.
    """
    face = design.house.walls[subject.id]
    if known(face.wall.services) == "clear":
        return is_so("searched", "The wall was searched: no hidden cables or pipes", code.trace(), True)
    if not face.wall.keep_clear:
        raise Missing("where in the wall hidden cables and pipes run, each with its margin, as keep_clear")
    met = [
        name
        for hung in face.hung
        for name, points in _drilled(design, hung.id)
        if layout.crossed(face.wall, points)
    ]
    return is_so(
        "searched",
        "Hidden services run behind the fixings of {met}" if met else "No fixing meets a hidden service",
        code.trace(),
        not met,
        mend="do not drill; move {met} away from what runs there",
        met=" and ".join(met),
    )


def _drilled(design: Design, device: str) -> Iterator[tuple[str, tuple[layout.Point, ...]]]:
    """Every pattern of holes that a device brings: fixings, screws of its plate, or of its tie. Raises
    `Missing`.
    """
    _, hung = design.house.hung(device)
    fixing = design.house.devices[device].fixing
    if known(hung.body.mount) == "floor":
        if fixing.tied:
            if isinstance(fixing.ties, Unknown):
                raise Missing(f"{hung.id}: {fixing.ties.ask}")
            yield f"the tie of {hung.id}", layout.ties(fixing)
        return
    yield hung.id, layout.holes(hung)
    if (backing := fixing.backing) is not None:
        yield f"the plate of {hung.id}", layout.screws(backing)


QUESTIONS = (
    Question(
        "wall.hidden_services",
        "May the wall be drilled where its devices hang?",
        drilled_walls,
        each(searched),
    ),
)
