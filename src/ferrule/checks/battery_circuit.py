"""The circuit between battery and inverter: its protective device, its cable, its switch."""

from collections.abc import Iterator

from ferrule.checks.battery import design_a, fault_a, feeds
from ferrule.checks.current import cable_kind, laid
from ferrule.checks.paths import length_m
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import batteries
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, at_least, at_most
from ferrule.design import Decided, Design
from ferrule.fact import Missing, Unknown, all_known, known
from ferrule.job.devices import BatteryProtection


def rating(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    current_a = design_a(design, subject.id, code.trace())
    yield from covered(code.procedures.battery_circuit).rating(
        code.rulebook, rating_a=design.battery_protection(subject.id).rating_a, design_a=current_a
    )


def _fitted(design: Design, battery: str) -> BatteryProtection | None:
    """The protective device; None while it is open, for then `rating` tells what it waits for."""
    try:
        return design.battery_protection(battery)
    except Missing:
        return None


def device(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    fitted = _fitted(design, subject.id)
    if fitted is None:
        return
    polarised = fitted.polarised if fitted.kind.startswith("breaker") else False  # no fuse is
    all_known(polarised, fitted.poles)
    yield from covered(code.procedures.battery_circuit).device(
        code.rulebook,
        kind=fitted.kind,
        polarised=known(polarised),
        poles=known(fitted.poles),
        earthed_pole=design.battery_device(subject.id).earthed_pole,
    )


def device_voltage(design: Design, code: Code, subject: Subject) -> Constraint | None:
    fitted = _fitted(design, subject.id)
    if fitted is None:
        return None
    return at_most(
        "device_voltage",
        "At the end of charging the battery has {value}; the device is rated {limit} of direct voltage",
        code.trace(),
        value=known(design.battery(subject.id).voltage_high_v),
        limit=known(fitted.voltage_max_v),
        unit="V",
    )


def device_breaking(design: Design, code: Code, subject: Subject) -> Constraint | None:
    fitted = _fitted(design, subject.id)
    if fitted is None:
        return None
    t = code.trace()
    return at_least(
        "device_breaking",
        "The device breaks {value}; the battery drives up to {limit} into a short circuit",
        t,
        value=known(fitted.breaking_capacity_a),
        limit=fault_a(design, subject.id, t),
        unit="A",
    )


def device_distance(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    yield from covered(code.procedures.battery_circuit).distance(
        code.rulebook, distance_m=known(design.battery_device(subject.id).protection_distance_m)
    )


def earthed_pole(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    if design.battery_device(subject.id).earthed_pole == "none":
        return
    yield from covered(code.procedures.battery_circuit).earthed_pole(
        code.rulebook, separated=_separated(design, subject.id)
    )


def _separated(design: Design, battery: str) -> bool:
    """Whether every inverter on the battery parts it from the network."""
    parts = [design.inverter(feed.inverter) for feed in feeds(design, battery)]
    all_known(*(part.separation for part in parts))
    return all(known(part.separation) != "none" for part in parts)


def insulation(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    if _separated(design, subject.id):
        return
    for feed in feeds(design, subject.id):
        yield from covered(code.procedures.battery_circuit).insulation(
            code.rulebook,
            doubled=design.cable(feed.run.id).double_insulated,
            voltage_v=known(design.battery(subject.id).voltage_high_v),
        )


def cable_voltage(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    for feed in feeds(design, subject.id):
        cable, part = design.cable(feed.run.id), design.battery(subject.id)
        all_known(cable.voltage_max_v, part.voltage_high_v)
        yield at_most(
            "cable_voltage",
            "At the end of charging the battery has {value}; the cable is rated {limit}",
            code.trace(),
            value=known(part.voltage_high_v),
            limit=known(cable.voltage_max_v),
            unit="V",
        )


def carries(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    for feed in feeds(design, subject.id):
        stretches = laid(design, feed.run.id)
        yield from covered(code.procedures.battery_circuit).carries(
            code.rulebook,
            rating_a=design.battery_protection(subject.id).rating_a,
            size=design.size(feed.run.id),
            cable=cable_kind(design, feed.run.id),
            stretches=stretches,
        )


def withstands(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    fitted = _fitted(design, subject.id)
    if fitted is None:
        return
    for feed in feeds(design, subject.id):
        yield from covered(code.procedures.battery_circuit).withstands(
            code.rulebook,
            kind=fitted.kind,
            rating_a=fitted.rating_a,
            let_through_a2s=fitted.let_through_a2s,
            size=design.size(feed.run.id),
            cable=cable_kind(design, feed.run.id),
            stretches=laid(design, feed.run.id),
            fault_a=fault_a(design, subject.id, code.trace()),
        )


def drops(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    for feed in feeds(design, subject.id):
        yield from covered(code.procedures.battery_circuit).drops(
            code.rulebook,
            length_m=length_m(design.house, feed.run.id),
            current_a=design_a(design, subject.id, code.trace()),
            voltage_v=known(design.battery(subject.id).voltage_nominal_v),
            size=design.size(feed.run.id),
            cable=cable_kind(design, feed.run.id),
        )


def isolates(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """The battery's own switch or one beside it, whichever opens more."""
    switches = (design.battery(subject.id).isolates, design.battery_device(subject.id).isolator)
    opens = [each for each in switches if not isinstance(each, Unknown)]
    if "all-poles" not in opens:
        all_known(*switches)
    clause = covered(code.procedures.battery_circuit)
    best = next(poles for poles in ("all-poles", "one-pole", "none") if poles in opens)
    yield from clause.isolates(code.rulebook, poles=best)


def locks(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    yield from covered(code.procedures.battery_circuit).locks(
        code.rulebook, lockable=known(design.battery_device(subject.id).isolator_lockable)
    )


def protective_device(_design: Design, subject: Subject) -> Iterator[Decided]:
    yield Decided("battery_protection", subject.id)


def conductors(design: Design, subject: Subject) -> Iterator[Decided]:
    for run, battery in design.house.battery_runs.items():
        if battery == subject.id:
            yield Decided("conductor", run)


def device_and_conductors(design: Design, subject: Subject) -> Iterator[Decided]:
    yield from protective_device(design, subject)
    yield from conductors(design, subject)


QUESTIONS = (
    Question(
        "battery.protection",
        "Does the protective device carry the battery's current and break its short circuit?",
        batteries,
        each(rating, device, device_voltage, device_breaking),
        protective_device,
    ),
    Question(
        "battery.cable",
        "Does the battery's cable bear what its device lets through?",
        batteries,
        each(carries, withstands),
        device_and_conductors,
    ),
    Question(
        "battery.drop",
        "Does the battery's cable lose little enough?",
        batteries,
        each(drops),
        conductors,
    ),
    Question(
        "battery.connection",
        "Are the battery's poles, its cable and the place of its protective device as they should be?",
        batteries,
        each(device_distance, insulation, cable_voltage, earthed_pole),
    ),
    Question(
        "battery.isolation",
        "Can the battery be switched off in all poles and locked off?",
        batteries,
        each(isolates, locks),
    ),
)
