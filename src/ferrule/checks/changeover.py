"""Whether a changeover unit bears what flows through it."""

from collections.abc import Iterator

from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import changeovers
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, at_least, at_most, is_so
from ferrule.design import Design
from ferrule.fact import all_known, known
from ferrule.job.boards import Circuit


def rated_current(design: Design, code: Code, subject: Subject) -> Constraint:
    """The house's current passes through it: it is rated for the nearest device before it."""
    circuit, rating = _feeder(design, subject.id), known(design.changeover(subject.id).current_max_a)
    limit_a = design.rating_a(circuit.id) if circuit else known(design.house.job.supply.main_fuse).rating_a
    return at_least(
        "rated_current",
        "It is rated {value}; {device} ahead of it lets {limit} pass",
        code.trace(),
        value=rating,
        limit=limit_a,
        unit="A",
        mend="take a unit rated {least_a} or more, or fit a smaller device ahead of it",
        device=circuit.id if circuit else "the main fuse",
        least_a=limit_a,
    )


def withstand(design: Design, code: Code, subject: Subject) -> Constraint:
    """At the origin's fault current, which is no less than what reaches the unit."""
    part, supply = design.changeover(subject.id), design.house.job.supply
    all_known(part.withstand_a, supply.fault_current_max_a)
    return at_most(
        "withstand",
        "A fault may drive {value} through it; it withstands {limit}",
        code.trace(),
        value=known(supply.fault_current_max_a),
        limit=known(part.withstand_a),
        unit="A",
        mend="fit a device ahead of it with which its maker declares more",
    )


def poles(design: Design, code: Code, subject: Subject) -> Constraint:
    """All lines move together in one device, never in several beside each other."""
    circuit = _feeder(design, subject.id)
    lines = len(circuit.phases) if circuit else len(design.house.job.supply.live)
    phases = int(design.changeover(subject.id).phases)
    return is_so(
        "poles",
        "It switches {phases} line(s) together; {lines} lead to it",
        code.trace(),
        lines <= phases or (lines == 2 and phases == 1),
        mend="take one unit for {lines} lines",
        phases=phases,
        lines=lines,
    )


def isolating_contacts(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    yield from covered(code.procedures.backup).isolating_contacts(
        code.rulebook, declared=known(design.changeover(subject.id).isolating)
    )


def _feeder(design: Design, changeover: str) -> Circuit | None:
    """The circuit nearest to the unit on the network's side; None where it hangs on the main fuse alone."""
    runs = design.house.upstream(f"{changeover}.grid") or ()
    circuits = [design.house.circuit_of_run[run] for run in runs if run in design.house.circuit_of_run]
    return circuits[-1] if circuits else None


QUESTIONS = (
    Question(
        "changeover.rating",
        "Does the changeover unit bear what flows through it?",
        changeovers,
        each(rated_current, withstand, poles, isolating_contacts),
    ),
)
