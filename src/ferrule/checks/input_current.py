"""The currents and the strings of an inverter input."""

from collections.abc import Iterator

from ferrule.checks.array import operating_a, short_circuit_a
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import inputs
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, at_most, is_so
from ferrule.design import Decided, Design
from ferrule.fact import all_known, known
from ferrule.job.array import Face
from ferrule.physics import strings as physics


def operating_current(design: Design, code: Code, subject: Subject) -> Constraint:
    """An input takes no more than it is made for; what is beyond is lost and harms nothing."""
    t = code.trace()
    limit_a = known(design.tracker(subject.id).current_max_a)
    return at_most(
        "operating_current",
        "The strings give {value} in full sun; the input takes up to {limit}, the rest is lost",
        t,
        value=t.calculate(
            physics.parallel_current,
            string_a=operating_a(design, subject.id, t),
            strings=len(design.house.inputs[subject.id]),
        ),
        limit=limit_a,
        unit="A",
        binding=False,
    )


def short_circuit_current(design: Design, code: Code, subject: Subject) -> Constraint:
    """Beyond its short-circuit limit an input that shorts the strings, or has them reversed, is destroyed."""
    t = code.trace()
    limit_a = known(design.tracker(subject.id).short_circuit_max_a)
    return at_most(
        "short_circuit_current",
        "The strings can drive {value} into a short circuit; the input withstands {limit}",
        t,
        value=covered(code.procedures.string_current).highest_a(
            t,
            short_circuit_a=short_circuit_a(design, subject.id, t),
            count=len(design.house.inputs[subject.id]),
        ),
        limit=limit_a,
        unit="A",
        mend="land fewer strings on {input}, or take an inverter whose inputs withstand more",
        input=subject.id,
    )


def same_count(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """The longer string drives current back into the shorter, and both work beside their best."""
    strings = design.house.inputs[subject.id]
    if len(strings) == 1:
        return None
    counts = [design.modules(string.id) for string in strings]
    return is_so(
        "same_count",
        "Modules of the strings tied together: {counts}",
        code.trace(),
        len(set(counts)) == 1,
        counts=", ".join(map(str, counts)),
    )


def same_module(design: Design, code: Code, subject: Subject) -> Constraint | None:
    strings = design.house.inputs[subject.id]
    if len(strings) == 1:
        return None
    kinds = list(dict.fromkeys(design.module(string).name for string in strings))
    return is_so(
        "same_module",
        "Kinds of module in the strings tied together: {kinds}",
        code.trace(),
        len({string.module for string in strings}) == 1,
        mend="land strings of different modules on inputs of their own",
        kinds=", ".join(kinds),
    )


def same_face(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """Voltage hardly changes with the light, so two directions on one input cost little and harm nothing."""
    strings = design.house.inputs[subject.id]
    if len(strings) == 1:
        return None
    faces = {string.face: design.house.faces[string.face] for string in strings}
    alike = len(faces) == 1 or len({_direction(face) for face in faces.values()}) == 1
    return is_so(
        "same_face",
        "Faces of the strings tied together: {faces}",
        code.trace(),
        alike,
        binding=False,
        mend="land strings of different faces on inputs of their own",
        faces=", ".join(faces),
    )


def _direction(face: Face) -> tuple[float, float]:
    all_known(face.tilt_deg, face.azimuth_deg)
    return known(face.tilt_deg), known(face.azimuth_deg)


def module_counts(design: Design, subject: Subject) -> Iterator[Decided]:
    return (Decided("modules", string.id) for string in design.house.inputs[subject.id])


QUESTIONS = (
    Question(
        "input.operating_current",
        "Does the input take all the current that its strings give?",
        inputs,
        each(operating_current),
    ),
    Question(
        "input.short_circuit_current",
        "Does the input survive what its strings can drive into a short circuit?",
        inputs,
        each(short_circuit_current),
    ),
    Question(
        "input.parallel_strings",
        "Are the strings that share an input alike?",
        inputs,
        each(same_count, same_module, same_face),
        module_counts,
    ),
)
