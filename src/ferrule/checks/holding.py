"""Whether the anchors of one pattern hold, be it those of a device or those of the plate behind it."""

from collections.abc import Iterator

from ferrule.checks.fastening import Fastening, acting, word
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, at_least, is_so
from ferrule.fact import Missing, all_known, known
from ferrule.layout import fixing as layout


def made_for(code: Code, held: Fastening) -> Iterator[Constraint]:
    """A sheet that does not know a base says nothing of it; what it says of another does not count."""
    yield is_so(
        "made_for",
        "The sheet of {anchor} has figures for {base}"
        if held.in_base
        else "The sheet of {anchor} has no figures for {base}",
        code.trace(),
        held.in_base is not None,
        mend="take an anchor made for {base}",
        anchor=held.sheet.id,
        base=word(held.base),
    )
    if held.in_base is not None:
        yield from covered(code.procedures.fixing).base(code.rulebook, anchor=held.anchor())


def holds(code: Code, held: Fastening) -> Iterator[Constraint]:
    """Pull, shear, both together, and both while it is hung."""
    clause, t = covered(code.procedures.fixing), code.trace()
    bears = acting(code, t, held)
    share = clause.share(t, anchor=held.anchor(), fixings=layout.sides(held.points, held.edges))
    if share > 0:  # beyond the edge itself, `distances` says all there is to say
        yield from clause.holds(code.rulebook, acting=bears, anchor=held.anchor(), share=share, steps=t)


def distances(code: Code, held: Fastening) -> Iterator[Constraint]:
    points = held.points
    yield from covered(code.procedures.fixing).distances(
        code.rulebook,
        anchor=held.anchor(),
        edge_mm=layout.edge_mm(points, held.edges),
        spacing_mm=layout.spacing_mm(points),
    )


def thick_enough(code: Code, held: Fastening) -> Iterator[Constraint]:
    """By the anchor's sheet; and no hole goes through a wall, though a screw may through a plate."""
    in_plate = held.plate if held.plate and not held.of_plate else None
    assert held.in_base is not None
    all_known(held.face.wall.thickness_mm, held.in_base.thickness_least_mm)
    wall_mm = known(held.face.wall.thickness_mm)
    yield at_least(
        "thick_enough",
        "The {base} is {value} thick; {anchor} needs {limit}",
        code.trace(),
        value=wall_mm if in_plate is None else in_plate.thickness_mm,
        limit=known(held.in_base.thickness_least_mm),
        unit="mm",
        mend="take a shorter anchor",
        base=word(held.base),
        anchor=held.sheet.id,
    )
    if in_plate is None and held.base != "metal-frame":
        yield from covered(code.procedures.fixing).hole(
            code.rulebook, anchor=held.anchor(), thickness_mm=wall_mm
        )


def reaches(code: Code, held: Fastening) -> Constraint:
    """An anchor in render or in the air behind plasterboard holds nothing."""
    wall, t, mounting = held.face.wall, code.trace(), held.hung.body.mounting
    if held.plate and held.of_plate:
        all_known(wall.lining)
        between_mm = t.given("plate_mm", held.plate.thickness_mm, "thickness of the plate")
    else:
        all_known(wall.lining, mounting.bracket_mm)
        between_mm = t.given("bracket_mm", known(mounting.bracket_mm), "bracket and washer")
    if known(wall.lining) != "none" and (held.of_plate or not held.plate):
        if wall.lining_depth_mm is None:
            raise Missing("thickness of what covers the wall, down to the wall itself")
        between_mm += t.given("lining_mm", wall.lining_depth_mm, "down to the wall itself")
    return is_so(
        "reaches",
        "{between_mm} lie between the anchor's head and the {base}; {anchor} clamps {clamps_mm}",
        t,
        between_mm <= held.sheet.clamps_mm,
        mend="take a longer anchor",
        base=word(held.base),
        anchor=held.sheet.id,
        between_mm=between_mm,
        clamps_mm=held.sheet.clamps_mm,
    )


def in_studs(code: Code, held: Fastening) -> Iterator[Constraint]:
    """On a framed wall: what misses a stud holds in plasterboard alone, which is nothing for a device."""
    points = layout.on_studs(held.face.wall, held.points)
    missed = sum(point.beside for point in points)
    yield is_so(
        "in_studs",
        "Fixings that miss the studs: {missed} of {count}" if missed else "Every fixing sits in a stud",
        code.trace(),
        not missed,
        mend="move the device, or screw a plate of plywood to the studs and the device to that",
        missed=missed,
        count=len(points),
    )
