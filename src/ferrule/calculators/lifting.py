"""Lifting by hand, and setting up a ladder."""

from typing import Annotated, Literal, NamedTuple

from ferrule.calculators.calculator import About, Calculator
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.clauses.procedures.lifting import Lifting
from ferrule.clauses.values import Hands, Lift
from ferrule.fact import Missing
from ferrule.physics import lifting as physics
from ferrule.quantity import FrequencyPerMin, LengthMm, MassKg, Ratio, Unit
from ferrule.working import Trace

From = Annotated[LengthMm, About("height of the hands where the lift begins, above where the feet stand")]
To = Annotated[LengthMm, About("height of the hands where it ends, above where the feet stand")]
Reach = Annotated[
    LengthMm | None, About("hands out before the ankles, seen from the side; where it is not measured: depth")
]
Depth = Annotated[LengthMm | None, About("depth of the load towards the body, in place of reach")]
Twist = Annotated[float, Unit("°", 0, 180), About("how far the load is aside at the worst end")]
PerMin = Annotated[FrequencyPerMin, About("lifts a minute")]
Height = Annotated[float, Unit("mm", 100, 20_000), About("where the ladder leans, above its foot")]
_Crew = Unit("", 0, 3, whole=True)


class LiftLimit(NamedTuple):
    limit_kg: Annotated[MassKg, About("lower of the limits at both ends", "down")]
    lifting_index: Annotated[Ratio | None, About("the load in terms of that limit; 1 is the aim", "up")]


def lift_limit(
    t: Trace,
    *,
    code: Code,
    mass_kg: Annotated[MassKg, About("the load")],
    from_mm: From,
    to_mm: To,
    reach_mm: Reach = None,
    depth_mm: Depth = None,
    grip: Annotated[
        Literal["good", "fair", "poor"], About("good handles, fingers under its edge, or neither")
    ] = "poor",
    twist_deg: Twist = 0.0,
    often_per_min: PerMin = 0.0,
    duration: Annotated[
        Literal["short", "moderate", "long"], About("up to one, two or eight hours of such lifts")
    ] = "short",
) -> LiftLimit:
    """Weight that one person should not exceed in a lift that has to be set down with care."""
    clause = covered(code.procedures.lifting)
    start = Hands(from_mm, _reach_mm(t, clause, reach_mm, depth_mm, from_mm), twist_deg)
    end = Hands(to_mm, _reach_mm(t, clause, reach_mm, depth_mm, to_mm), twist_deg)
    lift = Lift(start, end, grip, often_per_min, duration)
    limit_kg = min(clause.recommended_kg(t, lift=lift, hands=hands) for hands in (start, end))
    index = t.calculate(physics.lifting_index, mass_kg=mass_kg, limit_kg=limit_kg) if limit_kg else None
    return LiftLimit(limit_kg, index)


class LiftFilter(NamedTuple):
    limit_kg: Annotated[MassKg, About("up to here no further assessment is needed", "down")]


def lift_filter(
    t: Trace,
    *,
    code: Code,
    from_mm: From,
    to_mm: To,
    reach_mm: Reach = None,
    depth_mm: Depth = None,
    men: Annotated[int, _Crew, About("how many men lift together")] = 0,
    women: Annotated[int, _Crew, About("how many women lift together")] = 0,
    twist_deg: Twist = 0.0,
    often_per_min: PerMin = 0.0,
) -> LiftFilter:
    """Weight that one to three people lift without an assessment in writing."""
    clause = covered(code.procedures.lifting)
    start = Hands(from_mm, _reach_mm(t, clause, reach_mm, depth_mm, from_mm), twist_deg)
    end = Hands(to_mm, _reach_mm(t, clause, reach_mm, depth_mm, to_mm), twist_deg)
    lift = Lift(start, end, "good", often_per_min)
    return LiftFilter(clause.filter_kg(t, lift=lift, people=["man"] * men + ["woman"] * women))


def _reach_mm(
    t: Trace, clause: Lifting, reach_mm: float | None, depth_mm: float | None, height_mm: float
) -> float:
    """The reach that was measured, or the one that follows from the depth. Raises `Missing`."""
    if reach_mm is not None:
        return reach_mm
    if depth_mm is None:
        raise Missing("how far the hands are out before the ankles, or the depth of the load")
    return clause.reach_mm(t, depth_mm=depth_mm, height_mm=height_mm)


class Ladder(NamedTuple):
    foot_mm: Annotated[LengthMm, About("its foot from the wall")]
    length_mm: Annotated[LengthMm, About("least length, one that leads to a landing", "up")]
    angle_deg: Annotated[float, Unit("°", 0, 90), About("to the floor")]


def ladder(t: Trace, *, code: Code, height_mm: Height) -> Ladder:
    """Where the foot of a leaning ladder stands, and how long it must be to lead to a landing."""
    clause = covered(code.procedures.lifting)
    foot_mm = clause.ladder_foot_mm(t, height_mm=height_mm)
    length_mm = t.calculate(
        physics.ladder_length, height_mm=height_mm, foot_mm=foot_mm, above_mm=clause.ladder_above_mm(t)
    )
    return Ladder(foot_mm, length_mm, t.calculate(physics.ladder_angle, height_mm=height_mm, foot_mm=foot_mm))


CALCULATORS = (
    Calculator(
        "lift-limit",
        lift_limit,
        "DHHS (NIOSH) 94-110 (revised 2021), the revised NIOSH lifting equation",
        {"mass": "24 kg", "from": "300 mm", "to": "1400 mm", "depth": "250 mm", "grip": "good"},
    ),
    Calculator(
        "lift-filter",
        lift_filter,
        "HSE INDG143 (filter for lifting and lowering) and HSE L23 (team handling)",
        {"from": "300 mm", "to": "1400 mm", "depth": "250 mm", "men": "2"},
    ),
    Calculator("ladder", ladder, "HSE INDG402 (one out for four up)", {"height": "4.2 m"}),
)
