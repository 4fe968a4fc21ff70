"""Whether the roof takes the array: covering, structure, how the modules lie, hooks, clamps, access."""

from collections.abc import Iterable, Iterator
from itertools import combinations

from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import faces
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, at_least, at_most, is_so, within
from ferrule.design import Decided, Design
from ferrule.fact import Missing, all_known, known
from ferrule.layout import roof as layout
from ferrule.layout.wall import Rectangle

# Covering


def asbestos(design: Design, code: Code, subject: Subject) -> Iterable[Constraint]:
    roof = design.house.roof(subject.id)
    all_known(roof.asbestos, roof.covering)
    year = known(roof.laid_year) if known(roof.covering) == "fibre-cement" else None
    return covered(code.procedures.roof_work).asbestos(
        code.rulebook, found=known(roof.asbestos), covering=known(roof.covering), laid_year=year
    )


def age(design: Design, code: Code, subject: Subject) -> Iterable[Constraint]:
    roof = design.house.roof(subject.id)
    all_known(roof.laid_year, roof.surveyed_year)
    return covered(code.procedures.roof_work).age(
        code.rulebook, laid_year=known(roof.laid_year), year=known(roof.surveyed_year)
    )


def condition(design: Design, code: Code, subject: Subject) -> Constraint:
    good = known(design.house.roof(subject.id).condition) == "sound"
    return is_so(
        "condition", "Timber and covering are sound" if good else "Timber or covering need repair first",
        code.trace(), good, mend="have it repaired before the array covers it",
    )  # fmt: skip


# Structure


def structure(design: Design, code: Code, subject: Subject) -> Constraint:
    roof, mount = design.house.roof(subject.id), design.house.mount(subject.id)
    all_known(roof.structure, mount.structures)
    return is_so(
        "structure", "{mount} is made for: {made_for}; the roof has {found}", code.trace(),
        known(roof.structure) in known(mount.structures), mend="take a mount made for this structure",
        mount=mount.id, made_for=", ".join(known(mount.structures)), found=known(roof.structure),
    )  # fmt: skip


def covering(design: Design, code: Code, subject: Subject) -> Constraint:
    roof, mount = design.house.roof(subject.id), design.house.mount(subject.id)
    all_known(roof.covering, mount.coverings)
    return is_so(
        "covering", "{mount} is made for: {made_for}; the roof is covered with {found}", code.trace(),
        known(roof.covering) in known(mount.coverings), mend="take a mount made for this covering",
        mount=mount.id, made_for=", ".join(known(mount.coverings)), found=known(roof.covering),
    )  # fmt: skip


def tilt(design: Design, code: Code, subject: Subject) -> Constraint:
    design.house.roof(subject.id)
    face, mount = design.house.faces[subject.id], design.house.mount(subject.id)
    all_known(face.tilt_deg, mount.tilt_low_deg, mount.tilt_high_deg)
    return within(
        "tilt", "The face is tilted by {value}; {mount} is made for {low} to {high}", code.trace(),
        value=known(face.tilt_deg), low=known(mount.tilt_low_deg), high=known(mount.tilt_high_deg), unit="°",
        mend="take a mount made for this tilt", mount=mount.id,
    )  # fmt: skip


def services(design: Design, code: Code, subject: Subject) -> Constraint:
    """Drilling waits until somebody has looked under the covering."""
    roof = design.house.roof(subject.id)
    clear = known(roof.services) == "clear"
    if not clear and not roof.keep_clear:
        raise Missing("where under the covering cables and pipes run, each with its margin, as keep_clear")
    return is_so(
        "services",
        "Under the covering nothing lies where the screws go" if clear
        else "Under the covering it is marked where no screw may go",
        code.trace(), True,
    )  # fmt: skip


# How the modules lie


def count(design: Design, code: Code, subject: Subject) -> Constraint:
    """The blocks hold what the strings of the face count."""
    wanted = sum(design.modules(s.id) for s in design.house.job.strings if s.face == subject.id)
    placed = sum(block.rows * block.columns for block in design.house.blocks(subject.id))
    return is_so(
        "count", "The blocks hold {placed} modules; the strings of the face count {wanted}", code.trace(),
        placed == wanted, mend="change the blocks or the strings until both count the same",
        placed=placed, wanted=wanted,
    )  # fmt: skip


def edges(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """The block nearest to an edge of the plane decides, edge by edge."""
    roof, mount = design.house.roof(subject.id), design.house.mount(subject.id)
    outlines = _outlines(design, subject.id)
    all_known(roof.width_mm, roof.height_mm, mount.edge_min_mm)
    free = {
        "left": min(each.left_mm for each in outlines),
        "right": known(roof.width_mm) - max(each.right_mm for each in outlines),
        "eaves": min(each.bottom_mm for each in outlines),
        "ridge": known(roof.height_mm) - max(each.top_mm for each in outlines),
    }
    where, nearest_mm = min(free.items(), key=lambda item: item[1])
    yield at_least(
        "edges", "{value} are free to the nearest edge of the roof ({where}); {mount} asks for {limit}",
        code.trace(), value=nearest_mm, limit=known(mount.edge_min_mm), unit="mm",
        mend="move the block, or leave out a row or a column", where=where, mount=mount.id,
    )  # fmt: skip


def apart(design: Design, code: Code, subject: Subject) -> Constraint | None:
    outlines = _outlines(design, subject.id)
    if len(outlines) < 2:
        return None
    met = any(one.overlaps(other) for one, other in combinations(outlines, 2))
    return is_so(
        "apart", "Two blocks lie on the same spot" if met else "No two blocks lie on the same spot",
        code.trace(), not met, mend="move one of them",
    )  # fmt: skip


def _outlines(design: Design, face: str) -> list[Rectangle]:
    module, mount = design.house.module_on(face), design.house.mount(face)
    return [layout.outline(block, module, mount) for block in design.house.blocks(face)]


# Hooks and rails


def span(design: Design, code: Code, subject: Subject) -> Constraint:
    """The spacing of the hooks against the table of the mount, in the zones of the place and no other."""
    roof, mount = design.house.roof(subject.id), design.house.mount(subject.id)
    all_known(roof.structure, roof.spacing_mm, roof.wind_zone, roof.snow_zone, mount.spans)
    wind, snow = known(roof.wind_zone), known(roof.snow_zone)
    structure = known(roof.structure)
    rows = [s for s in known(mount.spans) if (s.wind, s.snow) == (wind, snow)]
    most_mm = next((row.hooks_mm for row in rows if row.structure in {None, structure}), None)
    t = code.trace()
    if most_mm is None:
        return is_so(
            "span", "The table of {mount} has no row for {on} in wind zone {wind}, snow zone {snow}", t,
            False, mend="ask the maker of the mount, or a structural engineer", mount=mount.id, wind=wind,
            snow=snow, on=structure,
        )  # fmt: skip
    every = design.hooks_every(subject.id)
    return at_most(
        "span",
        "The hooks of a rail sit {value} apart; {mount} allows {limit} in wind zone {wind}, snow zone {snow}",
        t,
        value=t.given("spacing_mm", every * known(roof.spacing_mm), f"every {every}. of the {structure}"),
        limit=t.given("hooks_mm", most_mm, mount.source),
        unit="mm",
        mend="set hooks closer together",
        mount=mount.id,
        wind=wind,
        snow=snow,
    )


def overhang(design: Design, code: Code, subject: Subject) -> Constraint:
    mount = design.house.mount(subject.id)
    t, rails = code.trace(), [rail for each in design.laid(subject.id) for rail in each.rails]
    return at_most(
        "overhang", "A rail sticks out {value} beyond its last hook; {mount} allows {limit}", t,
        value=t.given("overhang_mm", max(rail.overhang_mm for rail in rails), "from the rafters' places"),
        limit=known(mount.overhang_max_mm), unit="mm",
        mend="move the block sideways until a rafter lies nearer to its ends", mount=mount.id,
    )  # fmt: skip


def two_hooks(design: Design, code: Code, subject: Subject) -> Constraint:
    fewest = min(len(rail.hooks_mm) for each in design.laid(subject.id) for rail in each.rails)
    return at_least(
        "two_hooks", "The rail with the fewest hooks has {value}; it needs {limit}", code.trace(),
        value=fewest, limit=2, unit="count", mend="set a hook on more of the rafters",
    )  # fmt: skip


def hidden(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """Each hook against what is marked under the covering."""
    roof = design.house.roof(subject.id)
    if known(roof.services) == "clear" or not roof.keep_clear:
        return None
    met = layout.met(design.laid(subject.id), roof)
    where = [f"{each.across_mm:.0f} mm from the left, {each.up_mm:.0f} mm up" for each in met]
    blocks = " and ".join(dict.fromkeys(each.block for each in met))
    return is_so(
        "hidden",
        "Something lies under the covering where hooks go: {where}" if met
        else "No hook goes where something lies under the covering",
        code.trace(), not met, mend="hooks sit on the rafters: move the rails of block {blocks} up or "
        "down past it, or the block sideways until no rail crosses it there",
        where="; ".join(where), blocks=blocks,
    )  # fmt: skip


def clamps(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """Rails along the eaves meet the long sides of upright modules, the short sides of lying ones."""
    module, blocks = design.house.module_on(subject.id), design.house.blocks(subject.id)
    all_known(module.clamps, *(fact for b in blocks for fact in (b.low_rail_mm, b.high_rail_mm)))
    for block in blocks:
        side = "long" if block.orientation == "portrait" else "short"
        zones = [zone for zone in known(module.clamps) if zone.side == side]
        height_mm = layout.module_mm(block, module)[1]
        corners_mm = (known(block.low_rail_mm), height_mm - known(block.high_rail_mm))
        good = all(any(zone.from_mm <= at <= zone.to_mm for zone in zones) for at in corners_mm)
        yield is_so(
            "clamps",
            "The rails of block {block} lie {low_mm} and {high_mm} from a module's corners; its {side} side "
            "may be clamped {zones}",
            code.trace(),
            good,
            mend="move the rails, or turn the modules",
            block=block.id,
            low_mm=corners_mm[0],
            high_mm=corners_mm[1],
            side=side,
            zones=" or ".join(f"from {zone.from_mm:g} to {zone.to_mm:g} mm" for zone in zones) or "nowhere",
        )


# People and water


def work(design: Design, code: Code, subject: Subject) -> Iterable[Constraint]:
    roof = design.house.roof(subject.id)
    all_known(roof.access, roof.fall_protection)
    return covered(code.procedures.roof_work).access(
        code.rulebook, access=known(roof.access), fall_protection=known(roof.fall_protection)
    )


def entry(design: Design, code: Code, subject: Subject) -> Constraint:
    found = known(design.house.roof(subject.id).entry)
    return is_so(
        "entry",
        "The cables enter through something made for it" if found == "made-for-it"
        else "The cables enter through a duct that is there" if found == "existing"
        else "Nobody has found a way in for the cables that keeps water out",
        code.trace(), found != "none", mend="plan a tile or a sleeve made for cables",
    )  # fmt: skip


def hooks(_design: Design, subject: Subject) -> Iterator[Decided]:
    yield Decided("hooks", subject.id)


QUESTIONS = (
    Question("face.covering", "May this covering be worked on?", faces, each(asbestos, age, condition)),
    Question(
        "face.structure", "Is the mount made for this roof?", faces, each(structure, covering, tilt, services)
    ),
    Question("face.blocks", "Do the modules lie within the face?", faces, each(count, edges, apart)),
    Question(
        "face.hooks",
        "Do the hooks hold rails and modules?",
        faces,
        each(span, overhang, two_hooks, hidden),
        hooks,
    ),
    Question("face.clamps", "Are the modules clamped where they may be?", faces, each(clamps)),
    Question("face.entry", "Do the cables enter without the rain?", faces, each(entry)),
    Question("face.access", "Can people work there without falling?", faces, each(work)),
)
