"""Whether wall and anchors hold what hangs there, whether what stands on the floor stays upright, and whether
anybody looked for hidden cables before the drill.
"""

from collections.abc import Iterator
from typing import NamedTuple

from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import drilled_walls, hung_devices
from ferrule.clauses import Code
from ferrule.clauses.anchors import (
    Acting,
    Anchor,
    Characteristic,
    DesignResistance,
    Hole,
    MeanFailure,
    Permissible,
    Resistance,
)
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, at_least, is_so
from ferrule.design import Decided, Design
from ferrule.fact import Missing, all_known, known
from ferrule.job.fixing import Fixing
from ferrule.layout import fixing as layout
from ferrule.layout.wall import Hung, WallFace
from ferrule.parts.anchor import Anchor as Sheet
from ferrule.parts.anchor import InBase, Style
from ferrule.working import Trace

_FRAMED = {"timber-frame": "timber", "metal-frame": "metal-frame"}
_STYLES: dict[Style, type[Resistance]] = {
    "characteristic": Characteristic,
    "design": DesignResistance,
    "permissible": Permissible,
    "mean_failure": MeanFailure,
}


class _Hanging(NamedTuple):
    """A device on a wall, with the anchor chosen for it and what that holds there."""

    face: WallFace
    hung: Hung
    fixing: Fixing
    base: str
    sheet: Sheet
    in_base: InBase | None


def _on_wall(design: Design, device: str) -> tuple[WallFace, Hung] | None:
    """A device that hangs; None for one that stands."""
    face, hung = design.house.hung(device)
    return (face, hung) if known(hung.body.mount) == "wall" else None


def _hanging(design: Design, device: str) -> _Hanging | None:
    found = _on_wall(design, device)
    if found is None:
        return None
    face, hung = found
    fixing, sheet = design.house.devices[device].fixing, design.anchor(device)
    base = base_of(face, fixing)
    return _Hanging(face, hung, fixing, base, sheet, sheet.in_base(base))


def base_of(face: WallFace, fixing: Fixing) -> str:
    """What the anchors sit in. Raises `Missing` where nobody knows what the wall is built of."""
    material = known(face.wall.material)
    if material in _FRAMED:
        return "plywood" if fixing.backing else _FRAMED[material]
    return material


def _word(base: str) -> str:
    """A base as people say it: perforated brick."""
    return base.replace("-", " ")


def _anchor(sheet: Sheet, in_base: InBase) -> Anchor:
    held = in_base.held
    return Anchor(
        name=sheet.id,
        family=sheet.family,
        holds_by=sheet.holds_by,
        base=in_base.base,
        resistance=_STYLES[in_base.styles[0]](held.tension_n, held.shear_n),
        partial_factor=in_base.partial_factor,
        interaction=sheet.interaction,
        diameter_mm=sheet.diameter_mm,
        depth_mm=in_base.depth_mm,
        edge_full_mm=in_base.edge_mm,
        spacing_full_mm=in_base.spacing_mm,
        edge_least_mm=in_base.edge_least_mm,
        spacing_least_mm=in_base.spacing_least_mm,
    )


def made_for(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """A sheet that does not know a base says nothing of it; what it says of another does not count."""
    hanging = _hanging(design, subject.id)
    if hanging is None:
        return
    yield is_so(
        "made_for",
        "The sheet of {anchor} has figures for {base}"
        if hanging.in_base
        else "The sheet of {anchor} has no figures for {base}",
        code.trace(),
        hanging.in_base is not None,
        mend="take an anchor made for {base}",
        anchor=hanging.sheet.id,
        base=_word(hanging.base),
    )
    if hanging.in_base is not None:
        anchor = _anchor(hanging.sheet, hanging.in_base)
        yield from covered(code.procedures.fixing).base(code.rulebook, anchor=anchor)


def _acting(code: Code, t: Trace, hung: Hung) -> Acting:
    """What the fixings of one pack bear as it hangs."""
    body, mounting = hung.body, hung.body.mounting
    all_known(
        body.mass_kg, mounting.gravity_out_mm, mounting.gravity_across_mm, mounting.presses_mm, mounting.holes
    )  # fmt: skip
    presses_mm = known(mounting.presses_mm)
    holes = [Hole(hole.x_mm, hole.y_mm - presses_mm) for hole in known(mounting.holes)]
    if any(hole.y_mm < 0 for hole in holes):
        raise Missing("fixing holes once more: one lies below the edge that presses on the wall")
    return covered(code.procedures.fixing).acting(
        t,
        mass_kg=t.given("mass_kg", known(body.mass_kg), "as it hangs"),
        out_mm=t.given("out_mm", known(mounting.gravity_out_mm), "its centre of gravity off the wall"),
        across_mm=known(mounting.gravity_across_mm),
        holes=holes,
    )


class _Near(NamedTuple):
    """How near its fixings come to an edge and to each other."""

    edge_mm: float
    spacing_mm: float


def _near(hanging: _Hanging) -> _Near:
    """Of a stud the wood beside the fixing counts, of a plate the device's own outline."""
    points = layout.holes(hanging.hung)
    spacing_mm = layout.spacing_mm(points)
    if hanging.base in _FRAMED.values() and hanging.face.wall.material in _FRAMED:
        return _Near(min(each.beside_mm for each in layout.on_studs(hanging.face.wall, points)), spacing_mm)
    if hanging.base == "plywood":
        own = hanging.hung.rectangle
        sides = [
            min(p.x_mm - own.left_mm, own.right_mm - p.x_mm, p.y_mm - own.bottom_mm, own.top_mm - p.y_mm)
            for p in points
        ]
        return _Near(min(sides), spacing_mm)
    return _Near(layout.edge_mm(hanging.face, points), spacing_mm)


def holds(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """Pull, shear, both together, and both while it is hung."""
    hanging = _hanging(design, subject.id)
    if hanging is None or hanging.in_base is None:
        return
    clause, t = covered(code.procedures.fixing), code.trace()
    acting = _acting(code, t, hanging.hung)
    anchor, near = _anchor(hanging.sheet, hanging.in_base), _near(hanging)
    share = clause.share(t, anchor=anchor, edge_mm=near.edge_mm, spacing_mm=near.spacing_mm)
    if share > 0:  # beyond the edge itself, `distances` says all there is to say
        yield from clause.holds(code.rulebook, acting=acting, anchor=anchor, share=share, steps=t)


def distances(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    hanging = _hanging(design, subject.id)
    if hanging is None or hanging.in_base is None:
        return
    near = _near(hanging)
    yield from covered(code.procedures.fixing).distances(
        code.rulebook,
        anchor=_anchor(hanging.sheet, hanging.in_base),
        edge_mm=near.edge_mm,
        spacing_mm=near.spacing_mm,
    )


def thick_enough(design: Design, code: Code, subject: Subject) -> Constraint | None:
    hanging = _hanging(design, subject.id)
    if hanging is None or hanging.in_base is None:
        return None
    backing = hanging.fixing.backing if hanging.base == "plywood" else None
    all_known(hanging.face.wall.thickness_mm, hanging.in_base.thickness_least_mm)
    return at_least(
        "thick_enough",
        "The {base} is {value} thick; {anchor} needs {limit}",
        code.trace(),
        value=known(hanging.face.wall.thickness_mm) if backing is None else backing.thickness_mm,
        limit=known(hanging.in_base.thickness_least_mm),
        unit="mm",
        mend="take a shorter anchor",
        base=_word(hanging.base),
        anchor=hanging.sheet.id,
    )


def reaches(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """An anchor in render or in the air behind plasterboard holds nothing."""
    hanging = _hanging(design, subject.id)
    if hanging is None or hanging.in_base is None:
        return None
    wall, t = hanging.face.wall, code.trace()
    all_known(wall.lining, hanging.hung.body.mounting.bracket_mm)
    between_mm = t.given("bracket_mm", known(hanging.hung.body.mounting.bracket_mm), "bracket and washer")
    if known(wall.lining) != "none" and hanging.base != "plywood":
        if wall.lining_depth_mm is None:
            raise Missing("thickness of what covers the wall, down to the wall itself")
        between_mm += t.given("lining_mm", wall.lining_depth_mm, "down to the wall itself")
    return is_so(
        "reaches",
        "{between_mm} lie between the anchor's head and the {base}; {anchor} clamps {clamps_mm}",
        t,
        between_mm <= hanging.sheet.clamps_mm,
        mend="take a longer anchor",
        base=_word(hanging.base),
        anchor=hanging.sheet.id,
        between_mm=between_mm,
        clamps_mm=hanging.sheet.clamps_mm,
    )


def fits_the_hole(design: Design, code: Code, subject: Subject) -> Constraint | None:
    hanging = _hanging(design, subject.id)
    if hanging is None:
        return None
    hole_mm = known(hanging.hung.body.mounting.hole_mm)
    return is_so(
        "fits_the_hole",
        "The bolt or screw of {anchor} is {diameter_mm} thick; the fixing holes are {hole_mm} wide",
        code.trace(),
        hanging.sheet.diameter_mm <= hole_mm,
        mend="take a thinner anchor",
        anchor=hanging.sheet.id,
        diameter_mm=hanging.sheet.diameter_mm,
        hole_mm=hole_mm,
    )


def in_studs(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """On a framed wall: what misses a stud holds in plasterboard alone, which is nothing for a device."""
    found = _on_wall(design, subject.id)
    if found is None or known(found[0].wall.material) not in _FRAMED:
        return
    clause, fixing = covered(code.procedures.fixing), design.house.devices[subject.id].fixing
    if fixing.backing:
        yield from clause.backing(
            code.rulebook, thickness_mm=fixing.backing.thickness_mm, studs=fixing.backing.studs
        )
        return
    points = layout.on_studs(found[0].wall, layout.holes(found[1]))
    missed = sum(point.beside_mm <= 0 for point in points)
    yield is_so(
        "in_studs",
        "Fixings that miss the studs: {missed} of {count}" if missed else "Every fixing sits in a stud",
        code.trace(),
        not missed,
        mend="move the device, or screw a plate of plywood to the studs and the device to that",
        missed=missed,
        count=len(points),
    )
    if known(found[0].wall.material) == "timber-frame":
        in_base = design.anchor(subject.id).in_base("timber")
        if in_base is not None:
            studs = len({point.stud for point in points})
            yield from clause.studs(code.rulebook, count=studs, thread_mm=in_base.depth_mm)


def cures(design: Design, code: Code, subject: Subject) -> Constraint | None:
    hanging = _hanging(design, subject.id)
    if hanging is None or hanging.sheet.holds_by != "resin":
        return None
    t = code.trace()
    return at_least(
        "cures",
        "The wall has {value}; the resin sets from {limit} on",
        t,
        value=_wall_c(design, subject.id, t),
        limit=min(each.from_c for each in known(hanging.sheet.curing)),
        unit="°C",
        mend="wait for a warmer day, or take a cartridge made for the cold",
    )


def _wall_c(design: Design, device: str, t: Trace) -> float:
    """The temperature of the wall on the day; where nobody says, the coldest the place has."""
    day_c = design.house.job.site.work_day_c
    if day_c is not None:
        return t.given("wall_c", day_c, "on the day")
    return t.given("wall_c", known(design.house.air_c(device)[0]), "the coldest of the place")


def set_so(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """How the anchor is set: nothing to judge, everything to know at the wall."""
    hanging = _hanging(design, subject.id)
    if hanging is None or hanging.in_base is None:
        return None
    t, in_base, sheet = code.trace(), hanging.in_base, hanging.sheet
    in_concrete = sheet.in_base("concrete")
    cure_s = _cure_s(design, subject.id, sheet, t) if sheet.holds_by == "resin" else None
    setting = covered(code.procedures.fixing).setting(
        t,
        base=hanging.base,
        torque_n_m=in_base.torque_n_m,
        torque_in_concrete_n_m=in_concrete.torque_n_m if in_concrete else None,
        cure_s=cure_s,
    )
    steps = ["Drill {hole_mm}, {depth_mm} deep"]
    if hanging.base not in {"timber", "plywood"}:
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


def _cure_s(design: Design, device: str, sheet: Sheet, t: Trace) -> float | None:
    """How long its resin cures at the temperature of the day; None where it does not cure at all."""
    wall_c = _wall_c(design, device, t)
    rows = [row for row in known(sheet.curing) if row.from_c <= wall_c]
    if not rows:
        return None
    return t.given("cure_s", max(rows, key=lambda row: row.from_c).time_s, f"sheet of {sheet.id}")


def secured(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """What the device's own sheet has against its being lifted off again."""
    found = _on_wall(design, subject.id)
    if found is None:
        return None
    mounting = found[1].body.mounting
    all_known(mounting.securing, mounting.theft_lock)
    return is_so(
        "secured",
        "Secured on its bracket by: {securing}; a lock against theft: {lock}",
        code.trace(),
        True,
        securing=known(mounting.securing),
        lock=known(mounting.theft_lock),
    )


def stands(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """Forwards it tips over its front, sideways over the nearer side; the wall is behind it."""
    _, hung = design.house.hung(subject.id)
    if known(hung.body.mount) != "floor":
        return
    body, mounting = hung.body, hung.body.mounting
    all_known(
        body.width_mm, body.depth_mm,
        mounting.gravity_out_mm, mounting.gravity_across_mm, mounting.gravity_up_mm,
    )  # fmt: skip
    across_mm = known(mounting.gravity_across_mm)
    inward_mm = min(
        known(body.depth_mm) - known(mounting.gravity_out_mm), across_mm, known(body.width_mm) - across_mm
    )
    if inward_mm < 0:
        raise Missing("its centre of gravity once more: it does not lie within the device")
    yield from covered(code.procedures.fixing).stands(
        code.rulebook,
        height_mm=known(mounting.gravity_up_mm),
        inward_mm=inward_mm,
        tied=design.house.devices[subject.id].fixing.tied,
    )


def searched(design: Design, code: Code, subject: Subject) -> Constraint:
    """Drilling waits until somebody has searched the wall."""
    face = design.house.walls[subject.id]
    if known(face.wall.services) == "clear":
        return is_so("searched", "The wall was searched: no hidden cables or pipes", code.trace(), True)
    if not face.wall.keep_clear:
        raise Missing("where in the wall hidden cables and pipes run, each with its margin, as keep_clear")
    hanging = [hung for hung in face.hung if known(hung.body.mount) == "wall"]
    met = [hung.id for hung in hanging if layout.crossed(face.wall, layout.holes(hung))]
    return is_so(
        "searched",
        "Hidden services run behind the fixings of {met}" if met else "No fixing meets a hidden service",
        code.trace(),
        not met,
        mend="do not drill; move {met} away from what runs there",
        met=" and ".join(met),
    )


def anchor(_design: Design, subject: Subject) -> Iterator[Decided]:
    yield Decided("anchor", subject.id)


QUESTIONS = (
    Question(
        "device.fixing",
        "Do wall and anchors hold it?",
        hung_devices,
        each(
            made_for, holds, distances, thick_enough, reaches, fits_the_hole, in_studs, cures, set_so, secured
        ),
        anchor,
    ),
    Question("device.stands", "Does it stand without going over?", hung_devices, each(stands)),
    Question(
        "wall.hidden_services",
        "May the wall be drilled where its devices hang?",
        drilled_walls,
        each(searched),
    ),
)
