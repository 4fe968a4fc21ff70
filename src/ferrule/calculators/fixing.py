"""What hangs on a wall or stands on the floor: loads of fixings, anchors, screws in timber, tipping."""

from typing import Annotated, Literal, NamedTuple

from ferrule.calculators.calculator import About, Calculator
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
from ferrule.constraint import Constraint, Verdict
from ferrule.physics import fixing as physics
from ferrule.quantity import AngleDeg, ForceN, LengthMm, MassKg, Ratio, Unit
from ferrule.working import Trace

PerRow = Annotated[int, Unit("", 1, 20, whole=True)]


class FixingLoads(NamedTuple):
    pull_n: Annotated[ForceN, About("on the fixing that is pulled most", "up")]
    shear_n: Annotated[ForceN, About("on the fixing that carries most", "up")]
    proof_n: Annotated[ForceN, About("pull with which one fixing is tested in a doubtful wall", "up")]


def fixing_loads(
    t: Trace,
    *,
    code: Code,
    mass_kg: Annotated[MassKg, About("what hangs there")],
    out_mm: Annotated[LengthMm, About("its centre of gravity off the wall")],
    upper_mm: Annotated[LengthMm, About("upper row above the edge that presses on the wall")],
    lower_mm: Annotated[LengthMm, About("lower row above that edge")],
    width_mm: Annotated[LengthMm, About("between the outermost fixings of a row")] = 0.0,
    aside_mm: Annotated[LengthMm, About("its centre of gravity beside the middle of the fixings")] = 0.0,
    per_row: Annotated[PerRow, About("fixings in each row")] = 2,
    turns: Annotated[
        Literal["edge", "centroid"], About("about the edge that presses, or the middle of the fixings")
    ] = "edge",
) -> FixingLoads:
    """Pull and shear of the fixings of something heavy on a wall, in two rows."""
    step_mm = width_mm / max(per_row - 1, 1)
    holes = [Hole(at * step_mm, y_mm) for y_mm in (lower_mm, upper_mm) for at in range(per_row)]
    middle_mm = sum(hole.x_mm for hole in holes) / len(holes)
    acting = covered(code.procedures.fixing).acting(
        t, mass_kg=mass_kg, out_mm=out_mm, across_mm=middle_mm + aside_mm, holes=holes
    )
    pull_n = acting.tension_n
    if turns == "centroid":
        distance_mm = abs(upper_mm - lower_mm) / 2
        pull_n = t.calculate(
            physics.pull_about_centroid,
            pull_n=0.0,
            count=len(holes),
            moment_n=t.calculate(physics.weight, mass_kg=mass_kg),
            arm_mm=out_mm,
            distance_mm=distance_mm,
            squares_mm2=len(holes) * distance_mm**2,
        )
    proof = t.figure("fixing_proof_factor")
    proof_n = t.calculate(physics.with_allowance, acting_n=pull_n, allowance=proof)
    return FixingLoads(pull_n, acting.shear_n, proof_n)


class AnchorUse(NamedTuple):
    holds: Annotated[bool, About("pull, shear and both together stay within what it holds")]
    pull_used: Annotated[Ratio, About("share of its resistance to pull", "up")]
    shear_used: Annotated[Ratio, About("share of its resistance to shear", "up")]
    together: Annotated[Ratio, About("both together by the rule of the anchor", "up")]
    together_limit: Annotated[Ratio, About("what they may reach")]
    hung_used: Annotated[Ratio, About("share used while it is hung and wired; 1 is the limit", "up")]


_STYLES: dict[str, type[Resistance]] = {
    "characteristic": Characteristic,
    "design": DesignResistance,
    "permissible": Permissible,
    "mean-failure": MeanFailure,
}


def anchor_check(
    t: Trace,
    *,
    code: Code,
    pull_n: Annotated[ForceN, About("on one fixing, as it hangs")],
    shear_n: Annotated[ForceN, About("on one fixing, as it hangs")],
    style: Annotated[
        Literal["characteristic", "design", "permissible", "mean-failure"],
        About("how the sheet states what the anchor holds"),
    ],
    holds_pull_n: Annotated[ForceN, About("stated resistance to pull")],
    holds_shear_n: Annotated[ForceN, About("stated resistance to shear")],
    base: Annotated[
        Literal["concrete", "solid-brick", "perforated-brick", "hollow-block", "aerated-concrete", "timber"],
        About("what it is set in"),
    ],
    family: Annotated[Literal["metal", "plastic"], About("of the anchor")] = "metal",
    partial_factor: Annotated[
        float | None, Unit("", 1, 5), About("what a characteristic value is divided by, where the sheet says")
    ] = None,
    rule: Annotated[
        Literal["sum", "linear", "concrete", "steel", "timber"],
        About("for pull and shear together, from the sheet"),
    ] = "sum",
) -> AnchorUse:
    """Whether an anchor holds, with the safety that its stated resistance does not have in it yet."""
    anchor = Anchor(
        name="the anchor",
        family=family,
        holds_by="",
        base=base,
        resistance=_STYLES[style](holds_pull_n, holds_shear_n),
        partial_factor=partial_factor,
        interaction=rule,
        diameter_mm=0.0,
        depth_mm=0.0,
        edge_full_mm=None,
        spacing_full_mm=None,
        edge_least_mm=None,
        spacing_least_mm=None,
    )
    found = {
        each.name: each
        for each in covered(code.procedures.fixing).holds(
            code.rulebook, acting=Acting(pull_n, shear_n), anchor=anchor, share=1.0, steps=t
        )
    }
    in_use = found["together"].steps
    t.steps[:] = [*in_use, *(step for step in found["hung"].steps if step not in in_use)]
    return AnchorUse(
        holds=all(each.verdict is Verdict.PASS for name, each in found.items() if name != "hung"),
        pull_used=_used(found["pull"]),
        shear_used=_used(found["shear"]),
        together=found["together"].value or 0.0,
        together_limit=found["together"].limit or 0.0,
        hung_used=found["hung"].value or 0.0,
    )


def _used(found: Constraint) -> float:
    return (found.value or 0.0) / (found.limit or 1.0)


class Withdrawal(NamedTuple):
    permissible_n: Annotated[ForceN, About("permissible pull on one screw, without further factors", "down")]


def lag_screw(
    t: Trace,
    *,
    diameter_mm: Annotated[LengthMm, About("nominal diameter of the screw")],
    thread_mm: Annotated[LengthMm, About("thread in the wood, without the tapered tip")],
    gravity: Annotated[
        float, Unit("", 0.3, 0.8), About("specific gravity of the wood, 0.42 for spruce and fir")
    ],
    grain: Annotated[Literal["side", "end"], About("of the wood it is driven into")] = "side",
) -> Withdrawal:
    """What a lag screw bears along its axis before it is drawn from timber, by the American rule."""
    force_n = t.calculate(
        physics.lag_screw_withdrawal,
        constant=t.figure("lag_screw_constant"),
        gravity=gravity,
        diameter_mm=diameter_mm,
        thread_mm=thread_mm,
    )
    if grain == "end":
        share = t.figure("lag_screw_end_grain")
        force_n = t.calculate(physics.shared, resistance_n=force_n, share=share)
    return Withdrawal(force_n)


class ScrewWithdrawal(NamedTuple):
    characteristic_n: Annotated[ForceN, About("characteristic resistance of one screw", "down")]


def timber_screw(
    t: Trace,
    *,
    diameter_mm: Annotated[LengthMm, About("outer diameter of the thread")],
    thread_mm: Annotated[LengthMm, About("thread in the timber")],
    density: Annotated[float, Unit("", 200, 1_000), About("characteristic density in kg/m³, 350 for C24")],
) -> ScrewWithdrawal:
    """What a screw bears along its axis before it is drawn from timber, by the European rule."""
    return ScrewWithdrawal(
        t.calculate(
            physics.timber_screw_withdrawal,
            constant=t.figure("timber_screw_constant"),
            diameter_mm=diameter_mm,
            thread_mm=thread_mm,
            density=density,
        )
    )


class FloorStand(NamedTuple):
    angle_deg: Annotated[AngleDeg, About("tilt at which it goes over", "down")]
    push_n: Annotated[ForceN, About("horizontal push that tips it over", "down")]


def floor_stand(
    t: Trace,
    *,
    mass_kg: Annotated[MassKg, About("of what stands there")],
    height_mm: Annotated[LengthMm, About("of its centre of gravity")],
    inward_mm: Annotated[LengthMm, About("from its centre of gravity to the edge it tips over")],
    push_mm: Annotated[LengthMm, About("height at which somebody pushes")],
) -> FloorStand:
    """How easily a free-standing device goes over."""
    return FloorStand(
        t.calculate(physics.tipping_angle, height_mm=height_mm, inward_mm=inward_mm),
        t.calculate(
            physics.tipping_push,
            weight_n=t.calculate(physics.weight, mass_kg=mass_kg),
            inward_mm=inward_mm,
            push_mm=push_mm,
        ),
    )


CALCULATORS = (
    Calculator(
        "fixing-loads",
        fixing_loads,
        "equilibrium and the elastic method for groups of bolts",
        {"mass": "35 kg", "out": "150 mm", "upper": "350 mm", "lower": "50 mm"},
    ),
    Calculator(
        "anchor-check",
        anchor_check,
        "EN 1990, EN 1992-4, ETAG 001 annex C",
        {
            "pull": "72 N",
            "shear": "86 N",
            "style": "permissible",
            "holds_pull": "0.3 kN",
            "holds_shear": "0.3 kN",
            "base": "solid-brick",
            "family": "plastic",
        },
    ),
    Calculator(
        "lag-screw",
        lag_screw,
        "NDS:2018 clause 12.2.1",
        {"diameter": "0.25 in", "thread": "2 in", "gravity": "0.42"},
        tables=True,
    ),
    Calculator(
        "timber-screw",
        timber_screw,
        "EN 1995-1-1 clause 8.7.2",
        {"diameter": "8 mm", "thread": "60 mm", "density": "350"},
        tables=True,
    ),
    Calculator(
        "floor-stand",
        floor_stand,
        "equilibrium about the edge it tips over",
        {"mass": "95 kg", "height": "600 mm", "inward": "120 mm", "push": "1.2 m"},
    ),
)
