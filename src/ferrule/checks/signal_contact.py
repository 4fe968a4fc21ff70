"""Whether a dry contact and the input that watches it mean the same."""

from collections.abc import Iterator

from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import signal_contacts
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, at_most, is_so
from ferrule.design import Design
from ferrule.fact import Fact, all_known, known
from ferrule.parts.port import ActsOn


def sense(design: Design, code: Code, subject: Subject) -> Constraint:
    """One maker stops when the contact closes, another when it opens."""
    wired = design.house.signal_contacts[subject.id]
    sends, watches = _acts_on(design, subject.id), design.house.contacts[wired.end].acts_on
    all_known(sends, watches)
    same = known(sends) == known(watches)
    return is_so(
        "sense",
        "{start} acts by {sends} and {end} by {watches}" if not same else "Both ends act by {sends}",
        code.trace(),
        same,
        mend="use the other contact of {start}, or set {end} to act by {sends}",
        start=wired.start,
        end=wired.end,
        sends=known(sends),
        watches=known(watches),
    )


def _acts_on(design: Design, contact: str) -> Fact[ActsOn]:
    wired = design.house.signal_contacts[contact]
    output = design.house.contacts.get(wired.start)
    return wired.acts_on if output is None else output.acts_on


def broken_wire(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """An emergency stop that acts by opening also stops when its wire breaks."""
    watches = design.house.contacts[design.house.signal_contacts[subject.id].end]
    if watches.use != "stop":
        return None
    t = code.trace()
    wanted = covered(code.procedures.signal_bus).stop_sense(t)
    return is_so(
        "broken_wire",
        "It stops by {acts}; by {wanted} it would stop for a broken wire as well"
        if known(watches.acts_on) != wanted
        else "It stops for a broken wire as well",
        t,
        known(watches.acts_on) == wanted,
        binding=False,
        mend="set the input to act by {wanted}, if it can be",
        acts=known(watches.acts_on),
        wanted=wanted,
    )


def dry(design: Design, code: Code, subject: Subject) -> Constraint:
    """Such an input bears nothing but its own signal."""
    free = known(design.house.signal_contacts[subject.id].dry)
    return is_so(
        "dry",
        "The contact is free of voltage" if free else "The contact brings a voltage of its own to the input",
        code.trace(),
        free,
        mend="put a coupling relay between them",
    )


def length(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    wired = design.house.signal_contacts[subject.id]
    limit_m = design.house.contacts[wired.end].length_max_m
    if limit_m is not None:
        yield at_most(
            "length",
            "The cable to {end} is {value} long; its maker allows {limit}",
            code.trace(),
            value=known(wired.length_m),
            limit=limit_m,
            unit="m",
            mend="put a coupling relay near {end}",
            end=wired.end,
        )


QUESTIONS = (
    Question(
        "contact.sense",
        "Do a contact and the input that watches it mean the same?",
        signal_contacts,
        each(sense, broken_wire, dry, length),
    ),
)
