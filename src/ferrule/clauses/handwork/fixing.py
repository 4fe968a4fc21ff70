"""Fixings in concrete, masonry and timber (EN 1990, EN 1992-4, EN 1995-1-1, ETAG 001, EOTA TR 054), and what
stands on the floor (IEC 62368-1).
"""

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple, overload

from ferrule.clauses.anchors import (
    Acting,
    Anchor,
    Characteristic,
    DesignLoad,
    DesignResistance,
    Forces,
    Hole,
    MeanFailure,
    Near,
    Permissible,
    Resistance,
    Setting,
    Sides,
)
from ferrule.constraint import Constraint, at_least, at_most, is_so
from ferrule.fact import Missing
from ferrule.physics import fixing as physics
from ferrule.working import Tables, Trace

_MASONRY = frozenset({"solid-brick", "perforated-brick", "hollow-block", "aerated-concrete"})
_WOOD = frozenset({"timber", "plywood"})
_WITH_VOIDS = frozenset({"perforated-brick", "hollow-block", "aerated-concrete"})


class _Shares(NamedTuple):
    """What a load takes up of a resistance, after both were brought to one style."""

    load: Forces
    limit: Forces
    tension: float
    shear: float


class StatedStyle:
    """Each resistance is used in the style that its sheet states it in."""

    needs = (
        "fixing_permanent_factor",
        "fixing_variable_factor",
        "fixing_working_allowance",
        "anchor_partial_factor",
        "anchor_permissible_of_mean_failure",
        "anchor_interaction",
        "anchor_distance",
        "timber_screw_distance",
        "anchor_near_edge",
        "anchor_expansion_in_hollow",
        "anchor_hole_cleaning",
        "anchor_torque_in_masonry",
        "anchor_cure_in_wet_hole",
        "stud_count_least",
        "stud_thread_least",
        "backing_thickness_least",
        "backing_studs_least",
        "backing_density",
        "anchor_wall_behind",
        "stand_tilt",
    )

    def acting(
        self, t: Trace, *, mass_kg: float, out_mm: float, across_mm: float, holes: Sequence[Hole]
    ) -> Acting:
        """Prying about the lower edge for the pull, the elastic method for the shear; a pattern's greatest of
        each, taken together as on one fixing, which a symmetrical pattern has in its upper row.
        """
        if not holes:
            raise Missing("where its fixing holes are, from its sheet")
        weight_n = t.calculate(physics.weight, mass_kg=mass_kg)
        pull_n = t.calculate(
            physics.pull_by_prying,
            weight_n=weight_n,
            out_mm=out_mm,
            height_mm=t.given(
                "highest_mm", max(hole.y_mm for hole in holes), "of the fixings, above the edge"
            ),
            squares_mm2=t.given(
                "heights_mm2", sum(hole.y_mm**2 for hole in holes), "sum of the squares of all their heights"
            ),
        )
        return Acting(pull_n, self._shear_n(t, weight_n, across_mm, holes))

    @staticmethod
    def _shear_n(t: Trace, weight_n: float, across_mm: float, holes: Sequence[Hole]) -> float:
        share_n = t.calculate(physics.shear_share, weight_n=weight_n, count=len(holes))
        x_mm = sum(hole.x_mm for hole in holes) / len(holes)
        y_mm = sum(hole.y_mm for hole in holes) / len(holes)
        aside_mm = t.given(
            "aside_mm", across_mm - x_mm, "its centre of gravity beside the middle of the fixings"
        )
        if aside_mm == 0:
            return share_n
        around = [Hole(hole.x_mm - x_mm, hole.y_mm - y_mm) for hole in holes]
        squares_mm2 = sum(each.x_mm**2 + each.y_mm**2 for each in around)
        if squares_mm2 == 0:
            raise Missing("a second fixing: a single one does not hold what hangs beside it")

        def shear_n(each: Hole) -> float:
            turned = aside_mm / squares_mm2
            return (1 / len(holes) + turned * each.x_mm) ** 2 + (turned * each.y_mm) ** 2

        worst = max(around, key=shear_n)
        return t.calculate(
            physics.shear_aside,
            share_n=share_n,
            weight_n=weight_n,
            aside_mm=aside_mm,
            x_mm=worst.x_mm,
            y_mm=worst.y_mm,
            squares_mm2=t.given("squares_mm2", squares_mm2, "polar moment of the fixings"),
        )

    def holds(
        self, tables: Tables, *, acting: Acting, anchor: Anchor, share: float, steps: Trace
    ) -> Iterator[Constraint]:
        t = steps.branch()
        used = self._shares(t, acting, anchor, share, 1.0)
        footing = "with partial factors" if isinstance(used.load, DesignLoad) else "as a permissible load"
        for name, verb, load_n, limit_n in (
            ("pull", "pulled", used.load.tension_n, used.limit.tension_n),
            ("shear", "pressed down", used.load.shear_n, used.limit.shear_n),
        ):
            yield at_most(
                name,
                f"A fixing is {verb} with {{value}}; {{anchor}} holds {{limit}} {{footing}}",
                t,
                value=load_n,
                limit=limit_n,
                unit="N",
                mend="take a larger anchor or one made for this wall, or fix at more points",
                anchor=anchor.name,
                footing=footing,
            )
        sum_used, limit = self._together(t, anchor, used)
        yield at_most(
            "together",
            "Pull and shear together take up {value} where {limit} is the limit",
            t,
            value=sum_used,
            limit=limit,
            unit="",
        )
        yield self._hung(steps.branch(), acting, anchor, share)

    def _hung(self, t: Trace, acting: Acting, anchor: Anchor, share: float) -> Constraint:
        """While the device is hung and wired; the allowance is a convention."""
        allowance = t.figure("fixing_working_allowance")
        used = self._shares(t, acting, anchor, share, allowance)
        sum_used, limit = self._together(t, anchor, used)
        return at_most(
            "hung",
            "With {allowance} times its weight while it is hung, {value} of the fixings' resistance is used; "
            "{limit} is the limit",
            t,
            value=max(used.tension, used.shear, sum_used / limit),
            limit=1.0,
            unit="",
            binding=False,
            allowance=allowance,
        )

    def _together(self, t: Trace, anchor: Anchor, used: _Shares) -> tuple[float, float]:
        exponent = t.read("anchor_interaction", anchor.interaction, "exponent")
        limit = t.read("anchor_interaction", anchor.interaction, "limit")
        together = t.calculate(physics.together, tension=used.tension, shear=used.shear, exponent=exponent)
        return together, limit

    def _shares(self, t: Trace, acting: Acting, anchor: Anchor, share: float, allowance: float) -> _Shares:
        """Load and resistance on one footing: with partial factors, or both without."""
        resistance = _scaled(t, anchor.resistance, share)
        if isinstance(resistance, Characteristic):
            resistance = self._design_resistance(t, resistance, anchor)
        elif isinstance(resistance, MeanFailure):
            resistance = self._permissible(t, resistance)
        if isinstance(resistance, DesignResistance):
            return compared(t, self._design_load(t, acting, allowance), resistance)
        return compared(t, self._worked(t, acting, allowance), resistance)

    @staticmethod
    def _design_load(t: Trace, acting: Acting, allowance: float) -> DesignLoad:
        permanent = t.figure("fixing_permanent_factor")
        variable = t.figure("fixing_variable_factor") if allowance != 1 else 0.0
        return DesignLoad(
            *acting.each(
                lambda acting_n: t.calculate(
                    physics.factored,
                    acting_n=acting_n,
                    permanent=permanent,
                    variable=variable,
                    allowance=allowance,
                )
            )
        )

    @staticmethod
    def _worked(t: Trace, acting: Acting, allowance: float) -> Acting:
        if allowance == 1:
            return acting
        return Acting(
            *acting.each(
                lambda acting_n: t.calculate(physics.with_allowance, acting_n=acting_n, allowance=allowance)
            )
        )

    @staticmethod
    def _design_resistance(t: Trace, resistance: Characteristic, anchor: Anchor) -> DesignResistance:
        if anchor.partial_factor is None:
            factor = t.read("anchor_partial_factor", anchor.base, anchor.family)
        else:
            factor = t.given("partial_factor", anchor.partial_factor, f"sheet of {anchor.name}")
        return DesignResistance(
            *resistance.each(
                lambda resistance_n: t.calculate(physics.reduced, resistance_n=resistance_n, factor=factor)
            )
        )

    @staticmethod
    def _permissible(t: Trace, resistance: MeanFailure) -> Permissible:
        """Sources say a quarter and up to a half; a quarter is safe."""
        share = t.figure("anchor_permissible_of_mean_failure", "low")
        return Permissible(*_shared(t, resistance, share))

    def distances(
        self, tables: Tables, *, anchor: Anchor, edge_mm: float, spacing_mm: float
    ) -> Iterator[Constraint]:
        """Where the sheet names a least distance beside that for the full resistance, less is held between
        the two; where it does not, the distance for the full resistance is the least.
        """
        for name, to, value_mm, least_mm in (
            ("edge", "edge", edge_mm, anchor.edge_least_mm),
            ("spacing", "neighbour", spacing_mm, anchor.spacing_least_mm),
        ):
            if math.isinf(value_mm):
                continue
            t = Trace(tables)
            if least_mm is None:
                least_mm = self._full_mm(t, anchor, to)
            else:
                t.given("least_mm", least_mm, f"sheet of {anchor.name}")
            yield at_least(
                name,
                f"The nearest {to} is {{value}} from a fixing; {{anchor}} needs {{limit}}",
                t,
                value=value_mm,
                limit=least_mm,
                unit="mm",
                mend="move the device, or take an anchor that may sit closer",
                anchor=anchor.name,
            )

    def share(self, t: Trace, *, anchor: Anchor, fixings: Sequence[Sides]) -> float:
        """Of the fixing that is hemmed in most: what each of its sides leaves, multiplied."""
        edge_full_mm = self._full_mm(t, anchor, "edge")
        spacing_full_mm = self._full_mm(t, anchor, "neighbour")

        def left_on(side: Near) -> float:
            return physics.share_on_side(
                edge_mm=min(side.edge_mm, edge_full_mm),
                edge_full_mm=edge_full_mm,
                spacing_mm=min(side.spacing_mm, spacing_full_mm),
                spacing_full_mm=spacing_full_mm,
            )

        worst = min(fixings, key=lambda sides: math.prod(map(left_on, sides)))
        if all(left_on(side) == 1 for side in worst):
            return 1.0
        t.term("anchor_near_edge")
        left, right, above, below = (
            t.calculate(
                physics.share_on_side,
                edge_mm=min(side.edge_mm, edge_full_mm),
                edge_full_mm=edge_full_mm,
                spacing_mm=min(side.spacing_mm, spacing_full_mm),
                spacing_full_mm=spacing_full_mm,
            )
            for side in worst
        )
        return t.calculate(physics.share_on_all_sides, left=left, right=right, above=above, below=below)

    @staticmethod
    def _full_mm(t: Trace, anchor: Anchor, to: str) -> float:
        """The distance at which an anchor keeps its full resistance. Raises `Missing` where neither its sheet
        nor a rule says it.
        """
        stated_mm = anchor.edge_full_mm if to == "edge" else anchor.spacing_full_mm
        if stated_mm is not None:
            return t.given(f"full_{to}_mm", stated_mm, f"sheet of {anchor.name}")
        if anchor.base in _WOOD:
            factor = t.read("timber_screw_distance", to)
            return t.given(f"full_{to}_mm", factor * anchor.diameter_mm, "that many diameters of the screw")
        kind = "masonry" if anchor.base in _MASONRY else anchor.base
        row = f"{anchor.family} in {kind}"
        if row not in {"metal in concrete", "plastic in concrete", "plastic in masonry"}:
            raise Missing(f"least distance of {anchor.name} to an {to} in {anchor.base}, from its sheet")
        factor = t.read("anchor_distance", row, to)
        return t.given(
            f"full_{to}_mm", factor * anchor.depth_mm, f"that many depths of {anchor.depth_mm:g} mm"
        )

    def hole(self, tables: Tables, *, anchor: Anchor, thickness_mm: float) -> Iterator[Constraint]:
        """The hole ends in the wall, and some of the wall is left behind it."""
        t = Trace(tables)
        yield at_most(
            "hole_depth",
            "The hole for {anchor} goes {value} deep into a wall of {limit}",
            t,
            value=anchor.depth_mm,
            limit=thickness_mm,
            unit="mm",
            strict=True,
            mend="take a shorter anchor",
            anchor=anchor.name,
        )
        if anchor.depth_mm < thickness_mm:
            t = Trace(tables)
            yield at_least(
                "hole_behind",
                "Behind the hole {value} of the wall are left; {limit} are usual",
                t,
                value=thickness_mm - anchor.depth_mm,
                limit=t.figure("anchor_wall_behind"),
                unit="mm",
                binding=False,
                mend="take a shorter anchor",
            )

    def plate_kg(self, t: Trace, *, thickness_mm: float, width_mm: float, height_mm: float) -> float:
        """What a plate of plywood adds to what hangs on it."""
        return t.calculate(
            physics.plate_mass,
            thickness_mm=thickness_mm,
            width_mm=width_mm,
            height_mm=height_mm,
            density=t.figure("backing_density"),
        )

    def base(self, tables: Tables, *, anchor: Anchor) -> Iterator[Constraint]:
        """Anchors that spread themselves split the webs of a brick with voids."""
        if anchor.holds_by != "expansion" or anchor.base not in _WITH_VOIDS:
            return
        t = Trace(tables)
        yield is_so(
            "expands_in_voids",
            "{anchor} holds by expansion, which splits {base}",
            t,
            t.term("anchor_expansion_in_hollow") != "forbidden",
            mend="take resin with a mesh sleeve, or a long plug made for {base}",
            anchor=anchor.name,
            base=anchor.base.replace("-", " "),
        )

    def studs(self, tables: Tables, *, count: int, thread_mm: float) -> Iterator[Constraint]:
        t = Trace(tables)
        yield at_least(
            "studs",
            "The fixings sit in {value} studs; they should spread over {limit}",
            t,
            value=count,
            limit=t.figure("stud_count_least"),
            unit="count",
            binding=False,
            mend="screw a plate of plywood to three studs or more, and the device to that",
        )
        t = Trace(tables)
        yield at_least(
            "thread",
            "The screws have {value} of thread in the wood; {limit} is usual",
            t,
            value=thread_mm,
            limit=t.figure("stud_thread_least"),
            unit="mm",
            binding=False,
        )

    def backing(self, tables: Tables, *, thickness_mm: float, studs: int) -> Iterator[Constraint]:
        t = Trace(tables)
        yield at_least(
            "backing",
            "The plate behind the device is {value} thick; {limit} is usual",
            t,
            value=thickness_mm,
            limit=t.figure("backing_thickness_least"),
            unit="mm",
            binding=False,
        )
        t = Trace(tables)
        yield at_least(
            "backing_studs",
            "The plate is screwed to {value} studs; {limit} are usual",
            t,
            value=studs,
            limit=t.figure("backing_studs_least"),
            unit="count",
            binding=False,
        )

    def setting(
        self,
        t: Trace,
        *,
        base: str,
        torque_n_m: float | None,
        torque_in_concrete_n_m: float | None,
        cure_s: float | None,
    ) -> Setting:
        """Masonry bears half the torque of concrete, where the sheet has one for concrete only."""
        if torque_n_m is None and torque_in_concrete_n_m is not None and base in _MASONRY:
            torque_n_m = torque_in_concrete_n_m * t.figure("anchor_torque_in_masonry")
        wet_cure_s = None if cure_s is None else cure_s * t.figure("anchor_cure_in_wet_hole")
        return Setting(t.term("anchor_hole_cleaning"), torque_n_m, wet_cure_s)

    def stands(
        self, tables: Tables, *, height_mm: float, inward_mm: float, tied: bool
    ) -> Iterator[Constraint]:
        t = Trace(tables)
        angle_deg = t.calculate(physics.tipping_angle, height_mm=height_mm, inward_mm=inward_mm)
        limit_deg = t.figure("stand_tilt")
        if tied and angle_deg < limit_deg:
            yield is_so(
                "tied", "It tips at {angle_deg} and is tied to the wall", t, True, angle_deg=angle_deg
            )
            return
        yield at_least(
            "tilt",
            "Tilted by {value} it goes over; {limit} it has to bear",
            t,
            value=angle_deg,
            limit=limit_deg,
            unit="°",
            mend="tie it to the wall or bolt it to the floor",
        )


@overload
def compared(t: Trace, load: DesignLoad, limit: DesignResistance) -> _Shares: ...
@overload
def compared(t: Trace, load: Acting, limit: Permissible) -> _Shares: ...
def compared(t: Trace, load: DesignLoad | Acting, limit: DesignResistance | Permissible) -> _Shares:
    """What a load takes up of a resistance. Raises `TypeError` where one has partial factors and the other
    has not.
    """
    if isinstance(load, DesignLoad) is not isinstance(limit, DesignResistance):
        raise TypeError(f"{type(load).__name__} is not to be held against {type(limit).__name__}")
    return _Shares(
        load,
        limit,
        t.calculate(physics.used, acting_n=load.tension_n, resistance_n=limit.tension_n),
        t.calculate(physics.used, acting_n=load.shear_n, resistance_n=limit.shear_n),
    )


def _scaled(t: Trace, resistance: Resistance, share: float) -> Resistance:
    """What edges and neighbours leave of a resistance, in its own style."""
    t.given("tension_n", resistance.tension_n, f"{_style(resistance)}, from the anchor's sheet")
    t.given("shear_n", resistance.shear_n, f"{_style(resistance)}, from the anchor's sheet")
    if share == 1:
        return resistance
    return type(resistance)(*_shared(t, resistance, share))


def _shared(t: Trace, resistance: Resistance, share: float) -> tuple[float, float]:
    return resistance.each(
        lambda resistance_n: t.calculate(physics.shared, resistance_n=resistance_n, share=share)
    )


def _style(resistance: Resistance) -> str:
    return {
        Characteristic: "characteristic",
        DesignResistance: "design",
        Permissible: "permissible",
        MeanFailure: "mean at failure",
    }[type(resistance)]
