"""Bonding: of what enters the house, of metal within reach, of the array's frame."""

from collections.abc import Iterator

from ferrule.checks.question import Question, Subject, each
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, is_so
from ferrule.design import Decided, Design
from ferrule.fact import Missing, known
from ferrule.job.earth import Bonding
from ferrule.quantity import Size


def extraneous_parts(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """IEC 60364-4-41:2005 clause 411.3.1.2, as read of what the survey found."""
    if subject.kind != "installation":
        return
    earth = design.house.job.earth
    bonded = {bond.to for bond in earth.bonding if bond.role == "main"}
    for part in known(earth.extraneous):
        yield is_so(
            "extraneous_parts",
            "Metal from outside is bonded: {part}"
            if part in bonded
            else "Metal from outside is not bonded: {part}",
            code.trace(),
            part in bonded,
            mend="run a main bonding conductor to: {part}",
            part=part,
        )  # fmt: skip


def main_bonding(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    if subject.kind == "bonding":
        yield from covered(code.procedures.bonding).main(
            code.rulebook, size=design.bonding_size(subject.id), largest_protective=_largest(design)
        )


def _largest(design: Design) -> Size:
    """The largest protective conductor that goes with lines. Raises `Undecided` while one is open."""
    if not design.house.ac_runs:
        raise Missing("the cables of the house: no run carries alternating current")
    return max((design.protective(run) for run in design.house.ac_runs), key=lambda size: size.area_mm2)


def supplementary_bonding(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    bond = design.house.bonding[subject.id]
    circuit = design.house.circuits[known(bond.circuit)]
    yield from covered(code.procedures.bonding).supplementary(
        code.rulebook,
        size=design.bonding_size(bond.id),
        protective=design.protective(circuit.run),
        protected=bond.protected,
    )


def frame(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """IEC 60364-7-712:2017 clause 712.542: the frame of an array belongs to the bonding."""
    if subject.kind != "array":
        return None
    known(design.house.job.site.lightning_protection)  # it decides how the frame is to be bonded
    bonded = bool(_of(design, "array"))
    return is_so(
        "frame",
        "The array's frame is bonded" if bonded else "The array's frame is not bonded",
        code.trace(),
        bonded,
        mend="run a bonding conductor from the frame to the main earthing terminal, beside the cables",
    )


def array_bonding(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    if subject.kind == "bonding":
        yield from covered(code.procedures.bonding).array(
            code.rulebook,
            size=design.bonding_size(subject.id),
            lightning=known(design.house.job.site.lightning_protection),
        )


def _of(design: Design, role: str) -> list[Bonding]:
    return [bond for bond in design.house.job.earth.bonding if bond.role == role]


def main(design: Design) -> Iterator[Subject]:
    """What enters the house, and each main bonding conductor."""
    yield Subject("installation", "house")
    yield from (Subject("bonding", bond.id) for bond in _of(design, "main"))


def supplementary(design: Design) -> Iterator[Subject]:
    return (Subject("bonding", bond.id) for bond in _of(design, "supplementary"))


def array(design: Design) -> Iterator[Subject]:
    """The frame, if there is an array, and each conductor that bonds it."""
    if design.house.strings:
        yield Subject("array", "frame")
    yield from (Subject("bonding", bond.id) for bond in _of(design, "array"))


def bonding(_design: Design, subject: Subject) -> Iterator[Decided]:
    if subject.kind == "bonding":
        yield Decided("bonding", subject.id)


QUESTIONS = (
    Question(
        "bonding.main",
        "Is all metal that enters the house bonded, and strongly enough?",
        main,
        each(extraneous_parts, main_bonding),
        bonding,
    ),
    Question(
        "bonding.supplementary",
        "Is the supplementary bonding strong enough?",
        supplementary,
        each(supplementary_bonding),
        bonding,
    ),
    Question(
        "bonding.array",
        "Is the array's frame bonded, and strongly enough?",
        array,
        each(frame, array_bonding),
        bonding,
    ),
)
