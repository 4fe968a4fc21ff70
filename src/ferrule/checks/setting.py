"""How the anchors of a device are set on the day, and whether resin sets at all then."""

from collections.abc import Iterator
from typing import NamedTuple

from ferrule.checks.fastening import of_device
from ferrule.checks.question import Subject
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, at_least, at_most, is_so
from ferrule.design import Design
from ferrule.fact import known
from ferrule.parts.anchor import Anchor
from ferrule.working import Trace


class _Day(NamedTuple):
    """The temperatures that the wall may have on the day."""

    coldest_c: float
    hottest_c: float
    where: tuple[str, str]


def _day(design: Design, device: str) -> _Day:
    """What was said of the day; where nobody says, all that the place has."""
    day_c = design.house.job.site.work_day_c
    if day_c is not None:
        return _Day(day_c, day_c, ("on the day", "on the day"))
    coldest_c, hottest_c = design.house.air_c(device)
    return _Day(known(coldest_c), known(hottest_c), ("the coldest of the place", "the hottest of the place"))


def cures(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """Resin sets neither below the coldest temperature of its cartridge nor above the hottest."""
    held = of_device(design, subject.id)
    if held is None or held.sheet.holds_by != "resin":
        return
    day, t = _day(design, subject.id), code.trace()
    yield at_least(
        "cures",
        "The wall has {value}; the resin sets from {limit} on",
        t,
        value=t.given("wall_c", day.coldest_c, day.where[0]),
        limit=min(each.from_c for each in known(held.sheet.curing)),
        unit="°C",
        mend="wait for a warmer day, or take a cartridge made for the cold",
    )


def workable(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """In too hot a wall resin sets before the rod is in."""
    held = of_device(design, subject.id)
    if held is None or held.sheet.holds_by != "resin":
        return
    day, t = _day(design, subject.id), code.trace()
    yield at_most(
        "workable",
        "The wall has {value}; the resin may be set up to {limit}",
        t,
        value=t.given("wall_c", day.hottest_c, day.where[1]),
        limit=known(held.sheet.sets_upto_c),
        unit="°C",
        mend="set it in the cool of the day and state its temperature, or take another cartridge",
    )


def set_so(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """How the anchor is set: nothing to judge, everything to know at the wall."""
    held = of_device(design, subject.id)
    if held is None or held.in_base is None:
        return None
    t, in_base, sheet = code.trace(), held.in_base, held.sheet
    in_concrete = sheet.in_base("concrete")
    cure_s = _cure_s(design, subject.id, sheet, t) if sheet.holds_by == "resin" else None
    setting = covered(code.procedures.fixing).setting(
        t,
        base=held.base,
        torque_n_m=in_base.torque_n_m,
        torque_in_concrete_n_m=in_concrete.torque_n_m if in_concrete else None,
        cure_s=cure_s,
    )
    steps = ["Drill {hole_mm}, {depth_mm} deep"]
    if held.base not in {"timber", "plywood"}:
        steps.append("clean: {cleaning}")
    if cure_s is not None:
        steps.append("let the resin cure for {cure_s}, in a wet hole {wet_cure_s}")
    if setting.torque_n_m is not None:
        steps.append("tighten to {torque_n_m}")
    return is_so(
        "set_so",
        "; ".join(steps),
        t,
        True,
        anchor=sheet.id,
        hole_mm=in_base.hole_mm,
        depth_mm=in_base.depth_mm,
        cleaning=sheet.cleaning or setting.cleaning,
        torque_n_m=setting.torque_n_m,
        cure_s=cure_s,
        wet_cure_s=setting.wet_cure_s,
    )


def _cure_s(design: Design, device: str, sheet: Anchor, t: Trace) -> float | None:
    """How long its resin cures in the coldest that the wall may have; None where it does not cure at all."""
    day = _day(design, device)
    rows = [row for row in known(sheet.curing) if row.from_c <= day.coldest_c]
    if not rows:
        return None
    t.given("wall_c", day.coldest_c, day.where[0])
    return t.given("cure_s", max(rows, key=lambda row: row.from_c).time_s, f"sheet of {sheet.id}")


JUDGES = (cures, workable, set_so)
