"""Whether a battery may stand where it stands: the kind of place, its distances, the energy it holds."""

import math
from collections.abc import Iterable, Iterator
from typing import Literal

from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import batteries
from ferrule.clauses import Code
from ferrule.clauses.procedures import BatteryPlace, Unasked, covered
from ferrule.clauses.procedures.battery_place import Neighbour, Rule
from ferrule.constraint import Constraint, Verdict
from ferrule.design import Design
from ferrule.fact import Fact, Missing, all_known, known
from ferrule.job.devices import BatteryDevice
from ferrule.layout.corner import Neighbour as Round
from ferrule.layout.corner import body, standing
from ferrule.layout.wall import Hung, WallFace, spot


def place(design: Design, code: Code, subject: Subject) -> Iterable[Constraint]:
    face, _ = design.house.hung(subject.id)
    return covered(code.procedures.battery_place).use(code.rulebook, use=face.place.use)


def opens_to(design: Design, code: Code, subject: Subject) -> Iterable[Constraint]:
    rules, face = _asked(design, code, subject, "opens_to")
    return rules.opens_to(code.rulebook, use=face.place.use, uses=known(face.place.opens_to))


def separation(design: Design, code: Code, subject: Subject) -> Iterable[Constraint]:
    rules, face = _asked(design, code, subject, "separation")
    return rules.separation(code.rulebook, use=face.place.use, separated=known(face.place.fire_separated))


def alarm(design: Design, code: Code, subject: Subject) -> Iterable[Constraint]:
    rules, face = _asked(design, code, subject, "alarm")
    return rules.alarm(code.rulebook, use=face.place.use, alarm=known(face.place.alarm))


def cars(design: Design, code: Code, subject: Subject) -> Iterable[Constraint]:
    rules, face = _asked(design, code, subject, "cars")
    return rules.cars(code.rulebook, use=face.place.use, cars=known(face.place.cars))


def wall(design: Design, code: Code, subject: Subject) -> Iterable[Constraint]:
    rules, face = _asked(design, code, subject, "wall")
    all_known(face.wall.behind, face.wall.combustible)
    return rules.wall(
        code.rulebook,
        use=face.place.use,
        behind=known(face.wall.behind),
        combustible=known(face.wall.combustible),
    )


def finish(design: Design, code: Code, subject: Subject) -> Iterable[Constraint]:
    rules, face = _asked(design, code, subject, "finish")
    return rules.finish(code.rulebook, use=face.place.use, finished=known(face.place.finished))


def _asked(design: Design, code: Code, subject: Subject, rule: Rule) -> tuple[BatteryPlace, WallFace]:
    """The rules on a battery's place and its wall. Raises `Unasked` where they leave this open."""
    face, _ = design.house.hung(subject.id)
    rules = covered(code.procedures.battery_place)
    if not rules.asks(code.rulebook, rule, use=face.place.use):
        raise Unasked(rule)
    return rules, face


def opening(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """The nearest opening of its own wall or around the corner; one right above it counts by itself where the
    rules say so.
    """
    face, hung = design.house.hung(subject.id)
    rules, use = covered(code.procedures.battery_place), face.place.use
    beside, above = (
        rules.keeps_from(code.rulebook, which, use=use) for which in ("opening", "opening_above")
    )
    if not (beside or above):
        return
    all_known(face.wall.openings, *([hung.siting.opening_mm] if beside else []))
    own, nearest_mm = hung.rectangle, [_distance_mm(hung.siting.opening_mm)] if beside else []
    for each_opening in known(face.wall.openings):
        other = spot(each_opening)
        above_mm = own.gap_mm(other, "above")
        if above and above_mm is not None:
            yield from rules.distance(code.rulebook, "opening_above", use=use, distance_mm=above_mm)
        else:
            nearest_mm.append(own.distance_mm(other))
    if beside and math.isfinite(min(nearest_mm)):
        yield from rules.distance(code.rulebook, "opening", use=use, distance_mm=min(nearest_mm))


def escape(design: Design, code: Code, subject: Subject) -> Iterable[Constraint] | None:
    _, hung = design.house.hung(subject.id)
    return _away(design, code, subject, "escape", hung.siting.escape_mm)


def flammables(design: Design, code: Code, subject: Subject) -> Iterable[Constraint] | None:
    """What was measured, and what is stored at its own wall."""
    rules, use = covered(code.procedures.battery_place), design.house.hung(subject.id)[0].place.use
    if not rules.keeps_from(code.rulebook, "flammables", use=use):
        return None
    face, hung = design.house.hung(subject.id)
    nearest_mm = min(_distance_mm(hung.siting.flammables_mm), _to_things_mm(face, hung, {"store"}))
    if math.isinf(nearest_mm):
        return None
    return rules.distance(code.rulebook, "flammables", use=use, distance_mm=nearest_mm)


def appliances(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    face, hung = design.house.hung(subject.id)
    rules, kinds = covered(code.procedures.battery_place), {"heater", "appliance"}
    if rules.keeps_from(code.rulebook, "appliance", use=face.place.use):
        around = [each for each in standing(design.house.walls, face) if each.box.kind in kinds]
        yield from _apart(code, "appliance", face, hung, [_to_things_mm(face, hung, kinds)], around)


def _apart(
    code: Code, what: Neighbour, face: WallFace, hung: Hung, on_wall_mm: list[float], around: list[Round]
) -> list[Constraint]:
    """The nearest of what stands at its own wall and round the corners. Raises `Missing` where one of those
    that might stand there would be too near.
    """
    rules, use = covered(code.procedures.battery_place), face.place.use

    def judged(distances_mm: list[float]) -> list[Constraint]:
        nearest_mm = min(distances_mm, default=math.inf)
        if math.isinf(nearest_mm):
            return []
        return list(rules.distance(code.rulebook, what, use=use, distance_mm=nearest_mm))

    there = [(near, body(hung).distance_mm(near.box)) for near in around]
    found = judged([*on_wall_mm, *(mm for near, mm in there if not near.asks)])
    worst = judged([*on_wall_mm, *(mm for _, mm in there)])
    if any(c.verdict > Verdict.PASS for c in worst) and all(c.verdict is Verdict.PASS for c in found):
        raise Missing(*dict.fromkeys(ask for near, _ in there for ask in near.asks))
    return found


def _to_things_mm(face: WallFace, hung: Hung, kinds: set[str]) -> float:
    """Distance to the nearest thing of some kinds at the same wall; endless where there is none."""
    near = [hung.rectangle.distance_mm(spot(t)) for t in known(face.wall.things) if t.kind in kinds]
    return min(near, default=math.inf)


def _away(
    design: Design,
    code: Code,
    subject: Subject,
    neighbour: Neighbour,
    measured: Fact[float | Literal["none"]],
) -> Iterable[Constraint] | None:
    use, rules = design.house.hung(subject.id)[0].place.use, covered(code.procedures.battery_place)
    if not rules.keeps_from(code.rulebook, neighbour, use=use):
        return None
    distance_mm = _distance_mm(measured)
    if math.isinf(distance_mm):
        return None
    return rules.distance(code.rulebook, neighbour, use=use, distance_mm=distance_mm)


def _distance_mm(measured: Fact[float | Literal["none"]]) -> float:
    """A distance as measured; 'none' means that there is nothing to keep away from. Raises `Missing`."""
    found: float | Literal["none"] = known(measured)
    return math.inf if found == "none" else found


def above(design: Design, code: Code, subject: Subject) -> Iterable[Constraint] | None:
    face, _ = design.house.hung(subject.id)
    rules, use = covered(code.procedures.battery_place), face.place.use
    if not rules.keeps_from(code.rulebook, "above", use=use):
        return None
    free_mm, _ = face.free_mm(subject.id, "above")
    if math.isinf(free_mm):
        return None
    return rules.distance(code.rulebook, "above", use=use, distance_mm=free_mm)


def next_battery(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """Packs of one battery, and other batteries on the same wall."""
    face, hung = design.house.hung(subject.id)
    rules, use = covered(code.procedures.battery_place), face.place.use
    if not rules.keeps_from(code.rulebook, "battery", use=use):
        return
    gaps_mm = []
    if hung.packs > 1:
        if hung.siting.pack_gap_mm is None:
            raise Missing("free space between the packs of the battery")
        gaps_mm.append(hung.siting.pack_gap_mm)
    devices = design.house.devices
    gaps_mm += [
        hung.rectangle.distance_mm(other.rectangle)
        for other in face.hung
        if other.id != subject.id and isinstance(devices[other.id], BatteryDevice)
    ]
    around = [
        each
        for each in standing(design.house.walls, face)
        if each.box.kind == "device" and isinstance(devices[each.box.name], BatteryDevice)
    ]
    yield from _apart(code, "battery", face, hung, gaps_mm, around)


def energy(design: Design, code: Code, subject: Subject) -> Iterable[Constraint]:
    rules = covered(code.procedures.battery_energy)
    use = design.house.hung(subject.id)[0].place.use
    stored = [
        (device, design.battery(device.id).energy_wh)
        for device in design.house.job.devices
        if isinstance(device, BatteryDevice) and design.house.hung(device.id)[0].place.use == use
    ]
    all_known(*(energy_wh for _, energy_wh in stored))
    return rules.stored(
        code.rulebook,
        use=use,
        unit_wh=known(design.battery(subject.id).energy_wh),
        place_wh=math.fsum(device.packs * known(energy_wh) for device, energy_wh in stored),
    )


QUESTIONS = (
    Question(
        "battery.place",
        "May a battery stand there?",
        batteries,
        each(
            place,
            opens_to,
            separation,
            alarm,
            cars,
            wall,
            finish,
            opening,
            escape,
            flammables,
            appliances,
            above,
            next_battery,
        ),
    ),
    Question(
        "battery.energy",
        "May so much energy be stored there?",
        batteries,
        each(energy),
    ),
)
