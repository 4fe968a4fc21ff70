"""What is fastened to what, and where: a device to its wall or to a plate, the plate to the studs."""

from collections.abc import Callable, Iterable
from typing import NamedTuple

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
from ferrule.design import Design
from ferrule.fact import Missing, all_known, known
from ferrule.job.fixing import Backing, Fixing
from ferrule.layout import fixing as layout
from ferrule.layout.fixing import Point
from ferrule.layout.wall import Hung, WallFace
from ferrule.parts.anchor import Anchor as Sheet
from ferrule.parts.anchor import InBase, Style
from ferrule.working import Trace

FRAMED = {"timber-frame": "timber", "metal-frame": "metal-frame"}
_STYLES: dict[Style, type[Resistance]] = {
    "characteristic": Characteristic,
    "design": DesignResistance,
    "permissible": Permissible,
    "mean_failure": MeanFailure,
}


class Fastening(NamedTuple):
    """One pattern of like anchors in one base. `plate` is the plate on which the device hangs, if any;
    `of_plate` says that the anchors are the plate's own screws.
    """

    face: WallFace
    hung: Hung
    base: str
    sheet: Sheet
    in_base: InBase | None
    plate: Backing | None
    of_plate: bool = False

    @property
    def points(self) -> tuple[Point, ...]:
        """Where its anchors sit. Raises `Missing`."""
        if self.plate is not None and self.of_plate:
            return layout.screws(self.plate)
        return layout.holes(self.hung)

    @property
    def edges(self) -> Callable[[Point], Iterable[layout.Way]]:
        """The ways from a point to what its anchors must keep away from. Raises `Missing`."""
        if self.plate is not None and not self.of_plate:
            return layout.edges_of_plate(layout.plate(self.plate))
        if self.framed:
            return layout.edges_of_studs(self.face.wall)
        return layout.edges_of_wall(self.face)

    @property
    def framed(self) -> bool:
        """Whether its anchors sit in the studs of a framed wall."""
        return known(self.face.wall.material) in FRAMED and (self.plate is None or self.of_plate)

    def anchor(self) -> Anchor:
        """Its anchor in this base. Raises `Missing` where the sheet does not know it."""
        if self.in_base is None:
            raise Missing(f"figures of {self.sheet.id} for {word(self.base)}, from its sheet")
        return _anchor(self.sheet, self.in_base)


def on_wall(design: Design, device: str) -> tuple[WallFace, Hung] | None:
    """A device that hangs; None for one that stands."""
    face, hung = design.house.hung(device)
    return (face, hung) if known(hung.body.mount) == "wall" else None


def of_device(design: Design, device: str) -> Fastening | None:
    """How a device is held by the anchors chosen for it; None for one that stands."""
    found = on_wall(design, device)
    if found is None:
        return None
    face, hung = found
    fixing, sheet = design.house.devices[device].fixing, design.anchor(device)
    base = base_of(face, fixing)
    return Fastening(face, hung, base, sheet, sheet.in_base(base), fixing.backing)


def of_plate(design: Design, device: str) -> Fastening | None:
    """How the plate behind a device is held; None where there is none."""
    found, fixing = on_wall(design, device), design.house.devices[device].fixing
    if found is None or fixing.backing is None:
        return None
    face, hung = found
    base = FRAMED[known(face.wall.material)]
    sheet: Sheet = design.house.parts[known(fixing.backing.screw)]
    return Fastening(face, hung, base, sheet, sheet.in_base(base), fixing.backing, of_plate=True)


def base_of(face: WallFace, fixing: Fixing) -> str:
    """What the anchors of a device sit in. Raises `Missing` where nobody knows what the wall is built of."""
    material = known(face.wall.material)
    if fixing.backing:
        return "plywood"
    return FRAMED.get(material, material)


def word(base: str) -> str:
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


def acting(code: Code, t: Trace, held: Fastening) -> Acting:
    """What the anchors bear as the device hangs."""
    return _on_plate(code, t, held, held.plate) if held.plate and held.of_plate else _on_pack(code, t, held)


def _on_pack(code: Code, t: Trace, held: Fastening) -> Acting:
    """Each pack of a device hangs on fixings of its own."""
    body, mounting = held.hung.body, held.hung.body.mounting
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


def _on_plate(code: Code, t: Trace, held: Fastening, backing: Backing) -> Acting:
    """The screws of a plate bear all packs and the plate, which presses on the wall with its lower edge."""
    clause, hung, outline = covered(code.procedures.fixing), held.hung, layout.plate(backing)
    body, mounting = hung.body, hung.body.mounting
    all_known(body.mass_kg, body.width_mm, mounting.gravity_out_mm, mounting.gravity_across_mm)
    devices_kg = t.given("devices_kg", hung.packs * known(body.mass_kg), "all that hangs on the plate")
    plate_kg = clause.plate_kg(
        t, thickness_mm=backing.thickness_mm, width_mm=outline.width_mm, height_mm=outline.height_mm
    )
    own = hung.rectangle  # the packs stand alike, so that the middle of their weights is that of one, moved
    step_mm = (own.width_mm - known(body.width_mm)) / 2
    return clause.acting(
        t,
        mass_kg=t.given("mass_kg", devices_kg + plate_kg, "with the plate"),
        out_mm=t.given(
            "out_mm",
            known(mounting.gravity_out_mm) + backing.thickness_mm,
            "its centre of gravity off the studs",
        ),
        across_mm=own.left_mm + step_mm + known(mounting.gravity_across_mm) - outline.left_mm,
        holes=[Hole(x_mm - outline.left_mm, y_mm - outline.bottom_mm) for x_mm, y_mm in held.points],
    )
